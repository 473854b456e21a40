"""From files to an opinion: rows, stamps, views."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from second_opinion import (
    base_views,
    feed_views,
    figure_views,
    finding_views,
    line_views,
    risk_views,
    safety,
    shift_views,
    timeline,
    unit_views,
)
from second_opinion.records import Book, Opinion, Plant, Row
from second_opinion.rows import (
    Ranked,
    by_id,
    number,
    ranked_files,
    table,
    truth,
    whole,
)
from second_opinion.runs import winning_runs
from second_opinion.stamps import stamp
from second_opinion.status import stamp_units
from second_opinion.times import calendar, to_utc, zone_of

UNIT = ["build_seq", "model", "line", "kind", "line_off_at"]
PARTS = (
    base_views,
    shift_views,
    unit_views,
    finding_views,
    risk_views,
    safety,
    timeline,
    feed_views,
    line_views,
)
NOT_ATTRIBUTES = {"vin", "file_row", *UNIT}


def evaluate(plant: Plant, now: datetime | None = None) -> Opinion:
    """Apply all counting rules to a plant's files.

    Args:
        plant: settings and files.
        now: the wall clock at the load; the data clock is never later. None: no bound.
    """
    book = open_book(plant)
    stamp(book)
    book.as_of = data_clock(book, now)
    stamp_units(book)
    findings = [
        finding | {"run_id": run["run_id"], "run_key": run["key"]}
        for run in book.runs
        for finding in run["findings"].values()
    ]
    tables = {
        "run": book.runs,
        "finding": findings,
        "unit": list(book.units.values()),
        "unit_status": list(book.status.values()),
        "shift_window": book.windows,
    }
    views = {"as_of": [{"as_of": book.as_of}]}
    for part in PARTS:
        views |= part.views(book)
    views |= figure_views.views(views)
    return Opinion(tables, views)


def open_book(plant: Plant) -> Book:
    """The winning row of every key."""
    files, settings = ranked_files(plant), plant.settings
    corrections = table(files, "corrections", by_id("correction_id"))
    runs = winning_runs(files, settings, corrections)
    events = table(files, "events", by_id("event_id"))
    repairs = table(files, "repairs", by_id("repair_id"))
    return Book(
        settings=settings,
        windows=calendar(settings, windows_sent(files), last_day(files)),
        runs=runs,
        units=units(files, runs, events, repairs, corrections, settings),
        attributes=attributes(files),
        repairs=repairs,
        events=events,
        codes=table(files, "defect_codes", code_key),
        zones=table(files, "zones", lambda row: (row["zone"], row.get("test"))),
        units_made_at=[file.rank[0] for file in files if file.feed == "units"],
        files=[{"feed": f.feed, "made_at": f.rank[0], "rows": f.rows} for f in files],
    )


def code_key(row: Row) -> Any:
    """What names a row of the catalogue."""
    return (row["code"], row.get("test"), row.get("valid_from"))


def windows_sent(files: list[Ranked]) -> list[Row]:
    """The rows of the feed shifts."""
    rows = table(files, "shifts", lambda row: (day_of(row["production_date"]), row["shift"]))
    return [
        {
            "production_date": day_of(row["production_date"]),
            "shift": row["shift"],
            "crew": row.get("crew"),
            "starts_at": row["starts_at"],
            "ends_at": row["ends_at"],
            "cancelled": bool(truth(row.get("cancelled"))),
        }
        for row in rows
    ]


def day_of(value: Any) -> date:
    """A day as sent."""
    return value if isinstance(value, date) else date.fromisoformat(str(value))


def last_day(files: list[Ranked]) -> date:
    """A day after everything that was sent."""
    cells = [value for file in files for row in file.rows for value in row.values()]
    times = [value for value in cells if isinstance(value, datetime)]
    return max(times).date() + timedelta(days=2) if times else date.min


def attributes(files: list[Ranked]) -> list[Row]:
    """Attributes by their own feed, and from the columns of the units feed as of the line-off it told."""
    rows = table(
        files,
        "attributes",
        lambda row: tuple(row.get(k) for k in ("vin", "name", "at", "station", "source")),
    )
    told = [row | {"text_value": value_of(row)} for row in rows]
    from_units: dict[Any, Row] = {}
    for file in files:
        for row in file.rows if file.feed == "units" else []:
            for name, value in row.items():
                if name not in NOT_ATTRIBUTES and value is not None:
                    made = {"vin": row["vin"], "name": name, "at": row.get("line_off_at")}
                    made |= {"text_value": value, "source": "units", "rank": file.rank}
                    from_units[row["vin"], name, made["at"]] = made
    return [row for row in told if row["text_value"] is not None] + list(from_units.values())


def value_of(attribute: Row) -> str | None:
    """What an attribute says, in words, else its number as it is written."""
    told = [attribute.get(name) for name in ("text_value", "number_value")]
    return next((str(value) for value in told if value is not None), None)


def units(
    files: list[Ranked],
    runs: list[Row],
    events: list[Row],
    repairs: list[Row],
    corrections: list[Row],
    settings: dict[str, Any],
) -> dict[str, Row]:
    """Every unit that anything told of; of the units feed the newest value that is not null."""
    made: dict[str, Row] = {}
    for row in [*runs, *events, *repairs]:
        made.setdefault(row["vin"], dict.fromkeys(UNIT) | {"vin": row["vin"], "in_schedule": False})
    for file in files:
        for row in file.rows if file.feed == "units" else []:
            unit = made.setdefault(row["vin"], dict.fromkeys(UNIT) | {"vin": row["vin"]})
            unit |= {name: row[name] for name in UNIT if row.get(name) is not None}
            unit["in_schedule"] = True
    for event in sorted(events, key=lambda event: event["at"], reverse=True):
        if event["kind"] == "line_off":
            made[event["vin"]]["told_off"] = event["at"]
    for unit in made.values():
        told = unit.pop("told_off", None)
        unit["line_off_at"] = unit["line_off_at"] or told
        unit["build_seq"] = whole(unit["build_seq"])
        unit["kind"] = unit["kind"] or kind_of(unit["vin"], settings)
        correct(unit, corrections, settings)
    return made


def kind_of(vin: str, settings: dict[str, Any]) -> str:
    """The kind of a unit that the units feed does not tell."""
    declared = {reference["vin"] for reference in settings.get("reference", [])}
    return "reference" if vin in declared else "production"


def correct(unit: Row, corrections: list[Row], settings: dict[str, Any]) -> None:
    """Mend the fields of a unit that a correction names, the latest last."""
    zone = zone_of(settings["plant"]["timezone"])
    mine = [c for c in corrections if c.get("vin") == unit["vin"]]
    for correction in sorted(mine, key=lambda c: (c["made_at"], c["rank"])):
        value: Any = correction["value"]
        if correction["field"] == "line_off_at":
            value = to_utc([value], zone, ordered=False)[0]
        unit[correction["field"]] = number(value) if correction["field"] == "build_seq" else value


def data_clock(book: Book, now: datetime | None) -> datetime | None:
    """The newest run end or event time received, never later than the load."""
    times = [run["at"] for run in book.runs] + [event["at"] for event in book.events]
    newest = max(times, default=None)
    return min(newest, now) if newest and now else newest
