"""Which shift is asked about: the last one that ended by the data clock, or one named as DATE/SHIFT."""

from __future__ import annotations

from datetime import date

from eol.errors import UsageError
from eol.facts.reader import Reader, rows

BETWEEN = "between"
"""How a command names what was tested between two shifts."""


def last_shift(reader: Reader) -> tuple[date, str] | None:
    """Return the last shift that ended by the data clock; None where none has."""
    ended = rows(reader.run("page", "last_shift"))
    return (ended[0]["production_date"], ended[0]["shift"]) if ended else None


def named_shift(reader: Reader, text: str) -> tuple[date, str | None]:
    """Return the shift that a text such as `2026-09-08/day` names.

    Args:
        reader: the published copy of the store.
        text: `DATE/SHIFT`, or `DATE/between` for what was tested between shifts on that date.

    Returns:
        Production date and shift, None for between.

    Raises:
        UsageError: the calendar has no such shift; the message names those of the day.
    """
    day, _, name = text.partition("/")
    try:
        production_date = date.fromisoformat(day)
    except ValueError as error:
        raise UsageError(
            f"'{text}' names no shift", hint="Write it as DATE/SHIFT, such as 2026-09-08/day."
        ) from error
    known = reader.view("shift_window", production_date=production_date)["shift"].to_list()
    if name == BETWEEN:
        return production_date, None
    if name not in known:
        of_day = ", ".join(known) or "none"
        raise UsageError(f"there is no shift '{text}'", hint=f"Shifts of that day: {of_day}.")
    return production_date, name
