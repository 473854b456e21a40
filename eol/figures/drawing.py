"""Draws Vega-Lite specifications, in a process beside this one where one was started.

The drawing library takes half a second to start and lets nothing else run meanwhile; beside, it starts
while figures are computed. This file is that process too: specifications in, a line of JSON each,
drawings or what was wrong out; it ends with its input.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, TextIO

from eol.errors import ReportError

Spec = dict[str, Any]
Answer = tuple[str, str]
"""A drawing and, where there is none, why."""

_TRIES = 3
_FIRST: Spec = {"data": {"values": []}, "mark": "point"}
"""Draws nothing, but has the library start."""

_BESIDE: ContextVar[subprocess.Popen[str] | None] = ContextVar("beside", default=None)


@contextmanager
def drawn_beside() -> Iterator[None]:
    """Draw the figures of the block in a process that starts now; here where it cannot."""
    process = _started()
    before = _BESIDE.set(process)
    try:
        yield
    finally:
        _BESIDE.reset(before)
        if process is not None:
            process.kill()
            process.communicate()


def _started() -> subprocess.Popen[str] | None:
    # -P: no module of the folder in which a person stands comes before those of the library.
    command = [sys.executable, "-P", "-m", __name__]
    pipe, nowhere = subprocess.PIPE, subprocess.DEVNULL
    try:
        return subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=nowhere, text=True)
    except OSError:
        return None


def drawn(spec: Spec, name: str) -> str:
    """Return the SVG of a specification.

    Args:
        spec: a Vega-Lite specification that JSON can hold.
        name: the figure's name, for messages.

    Raises:
        ReportError: it cannot be drawn.
    """
    process = _BESIDE.get()
    answer = None if process is None else _asked(process, spec)
    svg, failure = answer or _drawn_here(spec)
    if failure:
        raise ReportError(
            f"the figure cannot be drawn: {failure}",
            where=f"figure {name}",
            hint="The page was not written; report this with the shift it was asked for.",
        )
    return svg


def _asked(process: subprocess.Popen[str], spec: Spec) -> Answer | None:
    """What the process beside gives; None where it has ended."""
    assert process.stdin is not None
    assert process.stdout is not None
    try:
        process.stdin.write(json.dumps(spec) + "\n")
        process.stdin.flush()
        svg, failure = json.loads(process.stdout.readline())
    except (OSError, ValueError):
        return None
    return svg, failure


def _drawn_here(spec: Spec) -> Answer:
    """Draw; a failed drawing spoils the next one too, so each is tried again."""
    import vl_convert

    failure = ""
    for _ in range(_TRIES):
        try:
            return str(vl_convert.vegalite_to_svg(spec, allowed_base_urls=[])), ""
        except ValueError as error:
            failure = str(error) or "no reason is given"
    return "", failure


def _answer(specs: TextIO, answers: TextIO) -> None:
    """Draw what comes, a line each, until nothing more does."""
    _drawn_here(_FIRST)
    for line in specs:
        answers.write(json.dumps(_drawn_here(json.loads(line))) + "\n")
        answers.flush()


if __name__ == "__main__":
    _answer(sys.stdin, sys.stdout)
