"""What is said of a fleet: each plant's figures with intervals, the Pareto over plants, what rises."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from datetime import date, datetime, timedelta

import polars as pl

from eol.errors import UsageError
from eol.fleet.ask import Fleet, in_order, steady
from eol.fleet.asked import Asked, Engine
from eol.fleet.closure import fleet_file
from eol.fleet.rising import BEFORE_DAYS, RECENT_DAYS, Rising, rising_codes, spans_until
from eol.sqlfiles import SqlFile

DAYS = 28


@dataclass(frozen=True, slots=True)
class FleetFacts:
    """The figures of a fleet over some days, both included.

    Args:
        first: first production date.
        last: last production date.
        clocks: each plant with its data clock (UTC), None while nothing is loaded.
        tests: rows of the question `tests_of_plants`.
        pareto: rows of `pareto_of_plants`, in rank order.
        roots: rows of `roots_of_plants`.
        rising: codes that rise, over the last days.
    """

    first: date
    last: date
    clocks: tuple[tuple[str, datetime | None], ...]
    tests: tuple[dict[str, object], ...]
    pareto: tuple[dict[str, object], ...]
    roots: tuple[dict[str, object], ...]
    rising: Rising


def fleet_facts(fleet: Fleet, *, first: date | None = None, last: date | None = None) -> FleetFacts:
    """Ask a fleet what its page says, all of it of one moment.

    Args:
        fleet: the lake, its plants asked for, and the engine.
        first: first production date; None: 28 days that end with the last.
        last: last production date; None: the newest in the lake.

    Raises:
        UsageError: the plants have tested nothing in that time.
        EngineError, StoreError: as `ask_fleet`.
    """
    files = {name: fleet_file(name) for name in _QUESTIONS}

    def work(engine: Engine) -> FleetFacts:
        ask = _asking(engine, files)
        day = last or _newest(ask)
        since = first or day - timedelta(days=DAYS - 1)
        bounds = {"first_date": since, "last_date": day}
        tests = ask("tests_of_plants", bounds)
        return FleetFacts(
            first=since,
            last=day,
            clocks=tuple(ask("as_of", {}).rows()),
            tests=tuple(tests.to_dicts()),
            pareto=tuple(ask("pareto_of_plants", bounds).to_dicts()),
            roots=tuple(ask("roots_of_plants", bounds).to_dicts()),
            rising=_rising(ask, day, RECENT_DAYS, BEFORE_DAYS),
        )

    return steady(fleet, files.values(), work)


def fleet_rising(
    fleet: Fleet,
    *,
    last: date | None = None,
    recent_days: int = RECENT_DAYS,
    before_days: int = BEFORE_DAYS,
) -> Rising:
    """Tell which codes rise in which plants, corrected over all plants and codes.

    Args:
        fleet: the lake, its plants asked for, and the engine.
        last: last production date; None: the newest in the lake.
        recent_days: days that end with the last.
        before_days: days before those that they are compared with.

    Raises:
        UsageError: the plants have tested nothing, or a span is empty.
        EngineError, StoreError: as `ask_fleet`.
    """
    if min(recent_days, before_days) < 1:
        raise UsageError("a span has at least one day")
    files = {name: fleet_file(name) for name in _QUESTIONS}

    def work(engine: Engine) -> Rising:
        ask = _asking(engine, files)
        return _rising(ask, last or _newest(ask), recent_days, before_days)

    return steady(fleet, files.values(), work)


_QUESTIONS = ("as_of", "tests_of_plants", "pareto_of_plants", "roots_of_plants", "code_counts")
_Ask = Callable[[str, Mapping[str, date | None]], pl.DataFrame]


def _asking(engine: Engine, files: dict[str, SqlFile]) -> _Ask:
    return lambda name, values: in_order(engine.rows(Asked(files[name], values=values)))


def _newest(ask: _Ask) -> date:
    newest = ask("tests_of_plants", {"first_date": None, "last_date": None})["last_date"].max()
    if not isinstance(newest, date):
        raise UsageError(
            "no plant of this lake has tested a unit yet", hint="Load files there first."
        )
    return newest


def _rising(ask: _Ask, last: date, recent_days: int, before_days: int) -> Rising:
    spans = spans_until(last, recent_days=recent_days, before_days=before_days)
    return rising_codes(ask("code_counts", asdict(spans)), spans)
