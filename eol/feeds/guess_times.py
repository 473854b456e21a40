"""Cells of a foreign file in, the time format they are written in out; and the time in a file's name."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import product

import polars as pl

from eol.feeds.made_at import named_time
from eol.feeds.times import read_times

ISO_DATE = "%Y-%m-%d"
_DATES = ("%d.%m.%Y", "%d.%m.%y", "%Y/%m/%d", "%d-%m-%Y", "%Y%m%d")
_SLASHED = ("%d/%m/%Y", "%m/%d/%Y")
_CLOCKS = ("%H:%M:%S", "%H:%M", "%H:%M:%S.%f", "%I:%M:%S %p", "%I:%M %p", "%H.%M.%S", "%H%M%S")
_GAPS = (" ", "T", ", ", "_", "-", "")
_NAME_PATTERNS = (
    r"\d{4}-\d\d-\d\d[T_ -]\d\d[-_]?\d\d(?:[-_]?\d\d)?",
    r"\d{8}[T_ -]?\d{4}(?:\d\d)?",
    r"\d{4}-\d\d-\d\d",
    r"\d\d\.\d\d\.\d{4}",
    r"\d{8}",
)
_YEARS = range(1990, 2100)
_MOST = 0.95
"""Share of the cells that a format must read."""


def time_format(cells: Sequence[str], *, zone: str) -> str | None:
    """Return the format that reads the cells; "" where they are ISO 8601, None where none does.

    Where day and month could be taken for each other, the day goes first outside America.

    Example:
        >>> time_format(["08.09.2026 06:00:00"], zone="Europe/Berlin")
        '%d.%m.%Y %H:%M:%S'
    """
    if _is_iso(cells):
        return ""
    dates = (*_DATES, *(reversed(_SLASHED) if zone.startswith("America/") else _SLASHED))
    formats = (date + gap + clock for date, gap, clock in product(dates, _GAPS, _CLOCKS))
    return _first(cells, formats)


def date_format(cells: Sequence[str], *, zone: str) -> str | None:
    """Return the format of cells that are dates without a clock; None where they are none."""
    slashed = tuple(reversed(_SLASHED)) if zone.startswith("America/") else _SLASHED
    return _first(cells, (ISO_DATE, *_DATES, *slashed))


def clock_format(cells: Sequence[str]) -> str | None:
    """Return the format of cells that are times of day; None where they are none."""
    return _first(cells, _CLOCKS[:5])


def name_patterns(name: str, *, zone: str) -> tuple[str, str | None]:
    """Return the pattern that files named alike match, and the one that tells when they were made.

    Example:
        >>> name_patterns("WT_20260908_0600.csv", zone="UTC")
        ('WT_*.csv', 'WT_{made_at:%Y%m%d_%H%M}.csv')
        >>> name_patterns("export7.csv", zone="UTC")
        ('export*.csv', None)
    """
    for pattern in _NAME_PATTERNS:
        for found in re.finditer(rf"(?<!\d){pattern}(?!\d)", name):
            form = _name_format(found[0])
            before, after = _any_number(name[: found.start()]), _any_number(name[found.end() :])
            made_at = f"{before}{{made_at:{form}}}{after}"
            if named_time(name, pattern=made_at, zone=zone):
                return _literal(re.sub(r"\*+", "*", f"{before}*{after}")), made_at
    return _literal(_any_number(name)), None


def _literal(pattern: str) -> str:
    """A bracket in a name stands for itself."""
    return pattern.replace("[", "[[]")


def _name_format(text: str) -> str:
    """The format of digits in the order of year, month, day, hour, minute, second; or of a German date."""
    if re.fullmatch(r"\d\d\.\d\d\.\d{4}", text):
        return "%d.%m.%Y"
    parts = iter(("%m", "%d", "%H", "%M", "%S"))
    return "%Y" + re.sub(r"\d\d", lambda digits: next(parts), text[4:])


def _any_number(text: str) -> str:
    """A name with * for its running numbers; a digit behind a letter is of the name, but at its end."""
    stem, dot, ending = text.rpartition(".") if "." in text else (text, "", "")
    return re.sub(r"(?<![A-Za-z0-9])\d+|\d+$", "*", stem) + dot + ending


def _is_iso(cells: Sequence[str]) -> bool:
    times = read_times(pl.Series(cells, dtype=pl.String), zone="UTC")
    return len(cells) > 0 and times.first.count() >= _MOST * len(cells)


def _first(cells: Sequence[str], formats: Iterable[str]) -> str | None:
    """The first format that reads the most cells, of those that read nearly all."""
    if not cells:
        return None
    probe = cells[0]
    likely = [form for form in formats if _reads(probe, form)]
    shares = {form: sum(_reads(cell, form) for cell in cells) / len(cells) for form in likely}
    best = max(shares, key=lambda form: shares[form], default=None)
    return best if best is not None and shares[best] >= _MOST else None


def _reads(cell: str, form: str) -> bool:
    try:
        told = datetime.strptime(cell.strip(), form)
    except ValueError:
        return False
    # strptime takes single digits too; without signs between them many a number would fit.
    parted = "%Y%m" not in form and "%H%M" not in form
    return parted or (told.strftime(form) == cell.strip() and told.year in _YEARS)
