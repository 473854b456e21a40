"""Several at once: two ingests, and readers who never stop an ingest and never see half of one."""

from __future__ import annotations

import subprocess
import sys
import time
from datetime import timedelta
from pathlib import Path

import builders as b
import plants
import pytest
from load_worker import Worker
from store_tables import changed, tables

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

RUNS = 8
FILES, AT_ONCE = 20, 4


def water(number: int) -> b.File:
    """A file with a few runs, each of another unit."""
    ends = [b.at("06:10") + timedelta(minutes=RUNS * number + n) for n in range(RUNS)]
    rows = [row for n, end in enumerate(ends) for row in b.run(f"U{number}X{n}", end)]
    return b.file("water", rows, name=f"water_{number}")


@pytest.mark.slow
def test_two_ingests_at_once(folder: PlantFolder, tmp_path: Path) -> None:
    """Each waits for the other; together they give what one of them would, shared files once."""
    paths = plants.write(folder, *map(water, range(6)))
    workers = [Worker(folder, paths[:4]), Worker(folder, paths[2:])]
    for worker in workers:
        worker.begin()
    for worker in workers:
        worker.finish()
    alone = plants.made(tmp_path / "alone")
    ingest(alone, paths)
    assert changed(tables(alone), tables(folder)) == []
    assert plants.count(folder, "run") == 6 * RUNS


HOLDER = """
import duckdb, sys
with duckdb.connect(sys.argv[1], read_only=True) as held:
    while True:
        print(*held.execute(sys.argv[2]).fetchall()[0], flush=True)
        if not sys.stdin.readline():
            break
"""
"""An analyst who keeps one copy open and asks it again and again."""

LOOKER = """
import duckdb, sys, time
print("ready", flush=True)
while True:
    with duckdb.connect(sys.argv[1], read_only=True) as copy:
        print(*copy.execute(sys.argv[2]).fetchall()[0], flush=True)
    time.sleep(0.1)
"""
"""An analyst who opens the copy in a loop."""

QUESTION = "SELECT (SELECT count(*) FROM run), (SELECT sum(tested) FROM ftt_by_shift)"


def analyst(script: str, folder: PlantFolder) -> subprocess.Popen[str]:
    """A client of the published copy, without this package."""
    return subprocess.Popen(
        [sys.executable, "-c", script, str(folder.read_copy), QUESTION],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


@pytest.mark.slow
def test_analysts_read_while_files_load(folder: PlantFolder) -> None:
    """While twenty files load, an open copy stays as it was and new ones are whole; nobody is refused."""
    plants.load(folder, water(0))
    holder, looker = analyst(HOLDER, folder), analyst(LOOKER, folder)
    with holder, looker:
        assert ask(holder) == f"{RUNS} {RUNS}"
        for first in range(1, FILES + 1, AT_ONCE):
            plants.load(folder, *map(water, range(first, first + AT_ONCE)), wait_seconds=0)
            assert ask(holder) == f"{RUNS} {RUNS}"
        time.sleep(0.2)
        looker.terminate()
        told, errors = looker.communicate()
        holder.communicate()
    assert errors == ""
    seen = [line.split() for line in told.splitlines()[1:-1]]
    assert {int(runs) % RUNS for runs, _ in seen} == {0}
    assert all(runs == tested for runs, tested in seen)
    assert len({runs for runs, _ in seen}) > 2


def ask(holder: subprocess.Popen[str]) -> str:
    """The answer of the copy that is held open."""
    assert holder.stdout is not None
    assert holder.stdin is not None
    answer = holder.stdout.readline().strip()
    holder.stdin.write("\n")
    holder.stdin.flush()
    return answer
