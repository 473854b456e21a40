"""Sentences that the facts make by rule, and the words they share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

Kind = Literal["doubt", "look", "note"]
"""doubt: the figures cannot be believed yet; look: new and for a person; note: told, nothing to do."""


@dataclass(frozen=True, slots=True)
class Remark:
    """One sentence without its full stop; `n` is how many units, rows, stations it tells of."""

    kind: Kind
    n: int
    text: str


def joined(words: Sequence[str]) -> str:
    """Join words as a sentence does.

    Example:
        >>> joined(["E1-1", "E1-2", "W"])
        'E1-1, E1-2 and W'
    """
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def lasting(seconds: float) -> str:
    """Return a length of time, whole minutes up to two hours, then hours, then days.

    Example:
        >>> lasting(660), lasting(88_240), lasting(5_200_000)
        ('11 min', '25 h', '60 days')
    """
    if abs(seconds) < 2 * 3600:
        return f"{seconds / 60:.0f} min"
    if abs(seconds) < 3 * 86_400:
        return f"{seconds / 3600:.0f} h"
    return f"{seconds / 86_400:.0f} days"


def moment(at: datetime) -> str:
    """Return a day and time of day.

    Example:
        >>> moment(datetime(2026, 9, 8, 6, 5))
        '2026-09-08 06:05'
    """
    return f"{at:%Y-%m-%d %H:%M}"


def place_words(station: str, bay: str | None) -> str:
    """Return a place: the station, and its bay where it has some.

    Example:
        >>> place_words("W", "B"), place_words("T1", None)
        ('W bay B', 'T1')
    """
    return station if bay is None else f"{station} bay {bay}"
