"""Runs a command as a whole process and measures it: wall and processor seconds, peak memory."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

REST_SECONDS = 5.0
"""Between commands, so that each starts on memory that the one before has given back. A virtual machine hands
free memory back to its host after two seconds; a script that follows itself at once gets it warm."""


@dataclass(frozen=True)
class Measure:
    """Wall seconds, processor seconds and peak resident megabytes of one process, and what it printed."""

    wall: float
    cpu: float
    peak: float
    said: str


def measure(*command: str | Path) -> Measure:
    """Run a Python command to its end, after a rest; a failing one ends the benchmark."""
    time.sleep(REST_SECONDS)
    begin = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, *map(str, command)], stdout=subprocess.PIPE, text=True
    )
    said = process.stdout.read() if process.stdout else ""
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    wall = time.perf_counter() - begin
    if process.returncode not in (0, 1):
        raise SystemExit(f"{command} left with {process.returncode}")
    return Measure(wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, said.strip())


def median(measures: list[Measure]) -> Measure:
    """The measure whose wall time is the middle one."""
    return sorted(measures, key=lambda one: one.wall)[len(measures) // 2]


def line(name: str, one: Measure, yardstick: Measure) -> str:
    """A row of the table: seconds, memory, and both as ratios to a yardstick of the same run."""
    return (
        f"{name:34} {one.wall:7.2f} s wall {one.cpu:7.2f} s cpu {one.peak:7.0f} MB"
        f"   x{one.wall / yardstick.wall:.2f} wall  x{one.peak / yardstick.peak:.2f} memory"
    )
