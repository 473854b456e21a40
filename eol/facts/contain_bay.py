"""The units that a bay passed while it may not have seen: from its last good check to its next, or as asked."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import polars as pl

from eol.errors import UsageError
from eol.facts.contain_edges import Edge, Suspects
from eol.facts.contain_question import ContainQuestion
from eol.facts.reader import Reader, Row, rows

Place = tuple[str, str | None]


def bay_test(reader: Reader, question: ContainQuestion) -> str:
    """Return the test of the bay's station.

    Raises:
        UsageError: there is no such station.
    """
    station, _ = _place(question)
    tests = [row["test"] for row in rows(reader.view("station", station=station))]
    if question.test in tests or (tests and question.test is None):
        return question.test or str(tests[0])
    known = ", ".join(sorted(set(reader.view("station")["station"])))
    raise UsageError(f"no station of that test is named {station}", hint=f"Stations: {known}.")


def by_bay(
    reader: Reader,
    question: ContainQuestion,
    span: dict[str, Any],
    units: pl.DataFrame,
    confirmed: set[str],
) -> tuple[Suspects, Place]:
    """Find the units that the bay passed, and the share of faulty ones by its neighbours.

    Args:
        reader: the published copy.
        question: with the bay, and shifts where those are the edges.
        span: the parameters that the queries share.
        units: units at risk that meet the conditions.
        confirmed: VINs known to have the fault.

    Raises:
        UsageError: no check failed there and no shift is named, or it passed no unit.
    """
    place = _place(question)
    began, over, reasons = _time(reader, question, span, place)
    runs = reader.run("contain", "bay_run", **span | {"from_at": began, "to_at": over})
    here = (pl.col("station") == place[0]) & pl.col("bay").eq_missing(place[1])
    passed = runs.filter(here & (pl.col("result") == "pass"))
    passed = passed.filter(pl.col("vin").is_in(units["vin"].to_list())).unique(
        "vin", maintain_order=True
    )
    if passed.is_empty():
        raise UsageError(f"{question.bay} passed no unit at risk in that time")
    others = runs.filter(~here & (pl.col("attempt") == 1))
    share = others["has_code"].mean() if others.height else None
    sequence = dict(zip(units["vin"], units["build_seq"], strict=True))
    vins = tuple(passed["vin"])
    edge = Edge(
        first_vin=vins[0],
        last_vin=vins[-1],
        first_seq=sequence[vins[0]],
        last_seq=sequence[vins[-1]],
        units=len(vins),
        confirmed=len(confirmed & set(vins)),
        share=None,
        margin=None,
        cautious=False,
        risk_share=float(share) if isinstance(share, float) else None,
        first_reason=reasons[0],
        last_reason=reasons[1],
    )
    return Suspects((edge,), (vins,)), place


def _place(question: ContainQuestion) -> Place:
    station, _, bay = (question.bay or "").partition("/")
    return station, bay or None


def _time(
    reader: Reader, question: ContainQuestion, span: dict[str, Any], place: Place
) -> tuple[datetime, datetime, tuple[str, str]]:
    """Return from when to when, and why: the shifts asked for, else the checks round the failed ones."""
    if question.since or question.until:
        reasons = (
            f"first shift asked for, {question.since}",
            f"last shift asked for, {question.until}",
        )
        kept = tuple(
            reason if given else open_end
            for reason, given, open_end in zip(
                reasons,
                (question.since, question.until),
                ("first run looked at", "data clock"),
                strict=True,
            )
        )
        return span["from_at"], span["to_at"], (kept[0], kept[1])
    gaps = rows(
        reader.run("contain", "blind_time", test=span["test"], station=place[0], bay=place[1])
    )
    if not gaps:
        raise UsageError(
            f"no reference check failed at {question.bay}",
            hint="Name the shifts from when to when it may not have seen with --from and --to.",
        )
    return _blind(gaps, span)


def _blind(gaps: list[Row], span: dict[str, Any]) -> tuple[datetime, datetime, tuple[str, str]]:
    """From the last good check before the first gap to the next good one after the last gap."""
    zone = span["to_at"].tzinfo
    began, over = gaps[0]["last_good_at"], gaps[-1]["next_good_at"]
    first = (
        "no good check before"
        if began is None
        else f"last good check {began.astimezone(zone):%Y-%m-%d %H:%M}"
    )
    last = (
        "no good check since"
        if over is None
        else f"next good check {over.astimezone(zone):%Y-%m-%d %H:%M}"
    )
    return began or span["from_at"], over or span["to_at"], (first, last)
