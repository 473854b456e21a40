"""One table of the page."""

from __future__ import annotations

from dataclasses import dataclass, field

Rows = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its id, its title, its columns and its rows, all as text.

    `numbers` are the columns set to the right; `note` stands under the title.
    """

    place: str
    title: str
    columns: tuple[str, ...]
    rows: Rows
    numbers: frozenset[int] = field(default_factory=frozenset)
    note: str = ""
