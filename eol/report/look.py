"""One line of what needs a look."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Look:
    """One line: its kind (stop, look, ask, data, quiet), its head, where to start, its place.

    `cost` orders the lines, the dearest first; `place` is an id in the page.
    """

    kind: str
    cost: float
    head: str
    start: str
    place: str
