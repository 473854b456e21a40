"""The same code rising in several plants: each plant's recent days against the days before.

The units with a code per units tested, recent over before, by the exact test of two rates; the
p-values of all plants x codes are corrected together (Benjamini and Hochberg), so that of the ones
named few rise by chance alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import polars as pl

from eol.statistics.multiple import benjamini_hochberg
from eol.statistics.rate import rate_ratio

RECENT_DAYS = 7
BEFORE_DAYS = 28
LEVEL = 0.05
METHOD = (
    "units with the code per units tested, recent days over the days before, exact test of two rates;"
    " Benjamini-Hochberg over all plants and codes"
)


@dataclass(frozen=True, slots=True)
class Spans:
    """The recent days and those before them, all included."""

    before_from: date
    before_to: date
    recent_from: date
    recent_to: date


@dataclass(frozen=True, slots=True)
class Change:
    """How a code moved in one plant.

    Args:
        plant: the plant.
        test: the test.
        code: the code.
        title: its words, None where the catalogue has none.
        safety_related: True where a fault of it can hurt.
        recent_units: units with it in the recent days.
        recent_tested: units tested then.
        before_units: units with it in the days before.
        before_tested: units tested then.
        ratio: recent share over the share before; None where it was not seen before.
        low: lower end of the ratio's 95 % interval.
        high: its upper end; None where nothing bounds it.
        p: corrected p-value of "it did not move".
        rises: True where it rose and p is at most the level.
    """

    plant: str
    test: str
    code: str
    title: str | None
    safety_related: bool
    recent_units: int
    recent_tested: int
    before_units: int
    before_tested: int
    ratio: float | None
    low: float
    high: float | None
    p: float
    rises: bool


@dataclass(frozen=True, slots=True)
class RisingCode:
    """A code that rises in at least one plant: the plants where it does, and the others that have it."""

    test: str
    code: str
    title: str | None
    safety_related: bool
    rises_in: tuple[str, ...]
    seen_in: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rising:
    """What rises over a fleet; `compared` pairs of plant and code were looked at, `method` says how."""

    spans: Spans
    codes: tuple[RisingCode, ...]
    changes: tuple[Change, ...]
    compared: int
    method: str = METHOD


def spans_until(
    last: date, *, recent_days: int = RECENT_DAYS, before_days: int = BEFORE_DAYS
) -> Spans:
    """Return the recent days that end with a day, and the days before them.

    Example:
        >>> spans_until(date(2026, 9, 14)).before_from
        datetime.date(2026, 8, 11)
    """
    recent_from = last - timedelta(days=recent_days - 1)
    before_to = recent_from - timedelta(days=1)
    return Spans(before_to - timedelta(days=before_days - 1), before_to, recent_from, last)


def rising_codes(counts: pl.DataFrame, spans: Spans, *, level: float = LEVEL) -> Rising:
    """Tell which codes rise, the ones that rise in most plants first.

    Args:
        counts: rows of the question `code_counts`.
        spans: the spans that they were counted in.
        level: share of false ones among those named.
    """
    rows = counts.sort("plant", "test", "code").to_dicts()
    ratios = [
        rate_ratio(
            (row["recent_units"], row["recent_tested"]), (row["before_units"], row["before_tested"])
        )
        for row in rows
    ]
    corrected = benjamini_hochberg([found.p for found in ratios]).p
    changes = tuple(
        Change(
            **row,
            ratio=found.ratio,
            low=found.low,
            high=found.high,
            p=p,
            rises=p <= level and (found.ratio is None or found.ratio > 1),
        )
        for row, found, p in zip(rows, ratios, corrected, strict=True)
    )
    return Rising(spans, _by_code(changes), changes, len(changes))


def _by_code(changes: tuple[Change, ...]) -> tuple[RisingCode, ...]:
    """Put the plants of each code together; codes that rise nowhere are left out."""
    found = []
    for key in {(change.test, change.code) for change in changes if change.rises}:
        each = [change for change in changes if (change.test, change.code) == key]
        found.append(
            RisingCode(
                test=key[0],
                code=key[1],
                title=next((change.title for change in each if change.title), None),
                safety_related=any(change.safety_related for change in each),
                rises_in=tuple(change.plant for change in each if change.rises),
                seen_in=tuple(change.plant for change in each if not change.rises),
            )
        )
    return tuple(sorted(found, key=lambda code: (-len(code.rises_in), code.test, code.code)))
