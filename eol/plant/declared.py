"""Settings in, the tables that they declare out, so that SQL sees them as it sees the rest.

Each frame has the columns of its table, in that order. A date stands for its first instant on the
plant's wall clock. valid_to is the next valid_from of the same thing, null where none follows:
a row applies from valid_from on and never before (rule 4).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from itertools import groupby, pairwise
from typing import Any, NamedTuple, TypeVar

import polars as pl

from eol.plant.clauses import parse_applies_when, parse_defect_when
from eol.plant.clock import midnight, moment_to_utc
from eol.plant.sections import ConditionSettings, PlanSettings, Settings

_TIME = pl.Datetime("us", "UTC")
_SCHEMAS: dict[str, dict[str, pl.DataType | type[pl.DataType]]] = {
    "plant_setting": {
        "name": pl.String,
        "timezone": pl.String,
        "date_by": pl.String,
        "starts_on": pl.Date,
        "silence_limit": pl.Int64,
        "settle_hours": pl.Float64,
    },
    "proof_event": {"kind": pl.String},
    "demerit_weight": {"severity": pl.String, "weight": pl.Float64},
    "test_definition": {
        "test": pl.String,
        "title": pl.String,
        "length_seconds": pl.Float64,
        "max_quantity": pl.Int64,
        "position": pl.Int64,
    },
    "test_step": {"test": pl.String, "step": pl.String, "position": pl.Int64},
    "test_plan": {
        "test": pl.String,
        "valid_from": _TIME,
        "valid_to": _TIME,
        "required": pl.String,
        "owner": pl.String,
    },
    "condition_limit": {
        "test": pl.String,
        "name": pl.String,
        "valid_from": _TIME,
        "valid_to": _TIME,
        "lower": pl.Float64,
        "upper": pl.Float64,
        "measure_unit": pl.String,
        "required": pl.Boolean,
    },
    "defect_condition": {
        "test": pl.String,
        "name": pl.String,
        "comparison": pl.String,
        "number_value": pl.Float64,
        "text_value": pl.String,
    },
    "applies": {
        "owner": pl.String,
        "valid_from": _TIME,
        "clause": pl.Int64,
        "name": pl.String,
        "value": pl.String,
    },
    "station": {"station": pl.String, "test": pl.String, "bay": pl.String, "alias": pl.String},
    "reference": {"vin": pl.String, "test": pl.String, "code": pl.String, "zone": pl.String},
    "disturbs": {"field": pl.String, "value": pl.String, "test": pl.String},
    "clock_offset": {
        "station": pl.String,
        "valid_from": _TIME,
        "valid_to": _TIME,
        "seconds": pl.Float64,
    },
}

Rows = Iterable[Sequence[Any]]
Row = TypeVar("Row")


class _Plan(NamedTuple):
    """A plan with its test, its first and last day (null where none follows) and its key."""

    test: str
    since: date
    until: date | None
    settings: PlanSettings

    @property
    def owner(self) -> str | None:
        key = f"plan:{self.test}:{self.since.isoformat()}"
        return key if parse_applies_when(self.settings.applies_when) else None


def declared_tables(settings: Settings) -> dict[str, pl.DataFrame]:
    """Return the declared tables by name, each with the columns of its table in the store.

    Rows come in the order of plant.toml, dated ones in the order of their dates. Of `applies` only
    the rows of plans are here (owner plan:TEST:DATE); those of codes come with the catalogue.
    """
    rows: dict[str, Rows] = {
        "plant_setting": _plant_setting(settings),
        "proof_event": [(kind,) for kind in dict.fromkeys(settings.plant.proof_at)],
        "demerit_weight": sorted(settings.plant.demerits.items()),
        "test_definition": _test_definition(settings),
        "test_step": _test_step(settings),
        "test_plan": _test_plan(settings),
        "condition_limit": _condition_limit(settings),
        "defect_condition": _defect_condition(settings),
        "applies": _applies(settings),
        "station": _station(settings),
        "reference": [(row.vin, row.test, row.code, row.zone) for row in settings.references],
        "disturbs": _disturbs(settings),
        "clock_offset": _clock_offset(settings),
    }
    return {
        name: pl.DataFrame([tuple(row) for row in rows[name]], schema=schema, orient="row")
        for name, schema in _SCHEMAS.items()
    }


def _plant_setting(settings: Settings) -> Rows:
    plant = settings.plant
    yield (
        plant.name,
        plant.timezone,
        plant.date_by,
        plant.starts_on,
        plant.silence_limit,
        plant.settle_hours,
    )


def _test_definition(settings: Settings) -> Rows:
    for position, (name, test) in enumerate(settings.tests.items(), start=1):
        title = test.title.strip() or name.replace("_", " ").capitalize()
        yield name, title, test.length, test.max_quantity, position


def _test_step(settings: Settings) -> Rows:
    for name, test in settings.tests.items():
        for position, step in enumerate(test.steps, start=1):
            yield name, step, position


def _test_plan(settings: Settings) -> Rows:
    for plan in _plans(settings):
        since, until = _midnight(plan.since, settings), _midnight(plan.until, settings)
        yield plan.test, since, until, plan.settings.required, plan.owner


def _condition_limit(settings: Settings) -> Rows:
    for test, row, since, until in _conditions(settings):
        span = _midnight(since, settings), _midnight(until, settings)
        yield test, row.name, *span, row.lower, row.upper, row.measure_unit, row.required


def _defect_condition(settings: Settings) -> Rows:
    for name, test in settings.tests.items():
        for one in parse_defect_when(test.defect_when):
            yield name, one.name, one.comparison, one.number_value, one.text_value


def _applies(settings: Settings) -> Rows:
    for plan in _plans(settings):
        for clause in parse_applies_when(plan.settings.applies_when):
            for value in clause.values:
                since = _midnight(plan.since, settings)
                yield plan.owner, since, clause.number, clause.name, value


def _station(settings: Settings) -> Rows:
    """A row a bay (one without bay where there are none), and one more a row for each alias."""
    for row in settings.stations:
        for bay in row.bays or (None,):
            yield row.name, row.test, bay, None
            for alias, named in row.bay_alias.items():
                if named == bay:
                    yield row.name, row.test, bay, alias


def _disturbs(settings: Settings) -> Rows:
    for row in settings.disturbs:
        for field in ("action", "code", "owner_area"):
            value = getattr(row, field)
            if value is not None:
                yield from ((field, value, test) for test in row.tests)


def _clock_offset(settings: Settings) -> Rows:
    zone = settings.plant.zone
    for row in settings.clock_offsets:
        until = moment_to_utc(row.valid_to, zone) if row.valid_to else None
        yield row.station, moment_to_utc(row.valid_from, zone), until, row.seconds


def _plans(settings: Settings) -> Iterator[_Plan]:
    """All plans; a test without one is required of every unit from starts_on on."""
    starts_on = settings.plant.starts_on
    for test, declared in settings.tests.items():
        plans = [
            (plan.valid_from or starts_on, plan) for plan in declared.plan or (PlanSettings(),)
        ]
        for (since, plan), until in _dated(plans):
            yield _Plan(test, since, until, plan)


def _conditions(
    settings: Settings,
) -> Iterator[tuple[str, ConditionSettings, date, date | None]]:
    """All conditions, grouped by name, with their first day and the day the next takes over."""
    starts_on = settings.plant.starts_on
    for test, declared in settings.tests.items():
        by_name = sorted(declared.condition, key=lambda row: row.name)
        for _, rows in groupby(by_name, key=lambda row: row.name):
            dated = [(row.valid_from or starts_on, row) for row in rows]
            for (since, row), until in _dated(dated):
                yield test, row, since, until


def _dated(rows: Iterable[tuple[date, Row]]) -> Iterator[tuple[tuple[date, Row], date | None]]:
    """Rows in the order of their days, each with the day on which the next takes over."""
    ordered = sorted(rows, key=lambda row: row[0])
    yield from ((one, other[0]) for one, other in pairwise(ordered))
    if ordered:
        yield ordered[-1], None


def _midnight(day: date | None, settings: Settings) -> datetime | None:
    return None if day is None else midnight(day, settings.plant.zone)
