"""Random plants by seed: everything the counting rules speak of, in small numbers and odd mixes.

`random_plant(seed)` is a function of its seed alone. A new feature joins here, so that the tests
of any order of files and of the second opinion meet it too.
"""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import builders as b
from draft import Draft, Row, vin_of
from random_settings import TESTS, add_shifts, catalogue, random_settings, zones
from random_units import (
    add_reference_runs,
    add_unit,
    borrowed_station,
    findings,
    second_fault,
    unsafe_runs,
)
from second_opinion import Plant, evaluate

DAYS = (
    ("Europe/Berlin", date(2026, 9, 8)),
    ("Europe/Berlin", date(2026, 6, 26)),
    ("Europe/Berlin", date(2026, 10, 24)),
    ("Europe/Berlin", date(2026, 3, 28)),
    ("America/New_York", date(2026, 10, 31)),
    ("America/New_York", date(2026, 3, 7)),
)


def random_plant(seed: int, *, units: int = 24) -> Plant:
    """Make a plant from a seed.

    Args:
        seed: decides everything.
        units: production units; the other kinds come beside them.
    """
    dice = random.Random(seed)
    zone, day = dice.choice(DAYS)
    local, parted, referenced = (dice.random() < share for share in (0.3, 0.5, 0.3))
    draft = Draft(dice, day, ZoneInfo(zone), {}, local, parted, referenced)
    draft.settings = random_settings(draft, zone)
    draft.feeds = {"defect_codes": catalogue(draft), "zones": zones()}
    for number in range(units):
        add_unit(draft, vin_of(number), "production")
    for number, kind in enumerate(("trial", "reference", "training")):
        add_unit(draft, vin_of(900 + number), kind)
    add_reference_runs(draft)
    add_shifts(draft)
    pack(draft)
    plant = with_corrections(draft, Plant(draft.settings, draft.files))
    add_unsafe(draft)
    send_more(draft)
    return plant


def pack(draft: Draft) -> None:
    """Put all rows into files, each made at its own time."""
    for test, runs in sorted(draft.runs.items()):
        ordered = sorted(runs, key=lambda rows: rows[0]["started_at"])
        for chunk in chunks(draft, ordered):
            add_file(draft, test, [row for rows in chunk for row in rows])
        send_again(draft, test, ordered)
    for feed, rows in sorted((draft.parts | draft.feeds).items()):
        for chunk in chunks(draft, rows):
            add_file(draft, feed, chunk)
    for change in (close_repairs, change_units):
        if draft.chance(0.5):
            change(draft)
    twin = draft.pick(draft.files)
    earlier = twin.made_at - timedelta(days=draft.pick((0, 3)), seconds=1)
    draft.files.append(replace(twin, name=f"{twin.name}_twin", made_at=earlier))
    draft.dice.shuffle(draft.files)


def chunks(draft: Draft, items: list[Any]) -> list[list[Any]]:
    """Some items, mostly whole, else cut into two or three pieces."""
    size = max(1, -(-len(items) // draft.pick((1, 1, 1, 1, 2, 3))))
    return [items[start : start + size] for start in range(0, len(items), size)]


def add_file(draft: Draft, feed: str, rows: list[Row]) -> None:
    """A file made some time after the plant's days; no two at one time."""
    days = draft.pick((1, 2, 6)) if feed == "units" else 6
    base = datetime.combine(draft.first_day, time(0), tzinfo=UTC) + timedelta(days=days)
    made_at = draft.free(base + timedelta(seconds=draft.dice.randrange(400_000)))
    if draft.local and feed in TESTS:
        rows = [without_offset(row, draft.zone) for row in rows]
    draft.files.append(b.file(feed, rows, made_at=made_at))


def without_offset(row: Row, zone: ZoneInfo) -> Row:
    """A row with local times, as a bench without offsets writes them."""
    return row | {
        name: row[name] and row[name].astimezone(zone).replace(tzinfo=None)
        for name in ("started_at", "ended_at")
    }


def send_again(draft: Draft, test: str, runs: list[list[Row]]) -> None:
    """Runs sent again changed, with or without a revision, and a whole file an hour off."""
    for revision in draft.pick(((None, 1), (None,), (1,), ())):
        some = [draft.pick(runs) for _ in range(draft.dice.randrange(0, 4))]
        unique = {(rows[0]["vin"], rows[0]["started_at"]): rows for rows in some}
        again = [changed(draft, test, rows, revision) for rows in unique.values()]
        again.sort(key=lambda rows: rows[0]["started_at"])
        if again:
            add_file(draft, test, [row for rows in again for row in rows])
    if draft.chance(0.2) and not draft.local:
        hour = timedelta(hours=draft.pick((1, -1)))
        add_file(draft, test, [moved(row, hour) for rows in runs[2:9] for row in rows])


def changed(draft: Draft, test: str, rows: list[Row], revision: int | None) -> list[Row]:
    """The same run with other findings, and perhaps another result."""
    head = rows[0] | {"revision": revision}
    head |= dict.fromkeys(("code", "zone", "step", "severity", "quantity", "rating", "note"))
    if draft.chance(0.5):
        head["result"] = draft.pick(("pass", "fail"))
    if not draft.local:
        late = draft.pick((0, 0, 0.483)) + (draft.pick((0, 7)) if draft.referenced else 0)
        head["started_at"] += timedelta(seconds=late)
    told = findings(draft, test, head["result"])
    return [head | found for found in told or [{}]]


def send_more(draft: Draft) -> None:
    """More files of runs: of a reference unit's second fault, of a station that two tests share."""
    if draft.chance(0.4):
        add_file(draft, "water", [row for rows in second_fault(draft) for row in rows])
    if draft.chance(0.4):
        for test in ("electrical", "water"):
            add_file(draft, test, [row for rows in borrowed_station(draft, test) for row in rows])


def moved(row: Row, step: timedelta) -> Row:
    """A row with its times a step later."""
    return row | {name: row[name] and row[name] + step for name in ("started_at", "ended_at")}


def close_repairs(draft: Draft) -> None:
    """A second file of repairs, in which some open ones have ended."""
    rows = [row for row in draft.feeds.get("repairs", []) if row["ended_at"] is None]
    done = [row | {"ended_at": draft.later(row["started_at"], 5, 60)} for row in rows[::2]]
    if done:
        add_file(draft, "repairs", done)


def change_units(draft: Draft) -> None:
    """A second file of units with some fields empty and others new."""
    rows = draft.feeds["units"][:: draft.pick((3, 5))]
    add_file(
        draft,
        "units",
        [row | {"model": None, "line": "3", "roof": draft.pick(("fixed", None))} for row in rows],
    )


def with_corrections(draft: Draft, plant: Plant) -> Plant:
    """The plant with a few fields of runs and units mended."""
    runs = sorted(evaluate(plant).tables["run"], key=lambda run: run["run_id"])
    made_at = draft.free(datetime.combine(draft.first_day, time(9), tzinfo=UTC))
    rows: list[Row] = []
    for field_name, value in (("vin", vin_of(3)), ("result", "fail"), ("result", "pass")):
        if draft.chance(0.5):
            run_id = draft.pick(runs)["run_id"]
            rows.append({"run_id": run_id, "vin": None, "field": field_name, "value": value})
    if draft.chance(0.5):
        rows.append({"run_id": None, "vin": vin_of(5), "field": "kind", "value": "trial"})
    for number, row in enumerate(rows):
        row |= {"correction_id": f"C{number}", "reason": "misread", "made_by": "P7"}
        row["made_at"] = made_at + timedelta(minutes=number)
    if rows:
        add_file(draft, "corrections", rows)
    return plant


def add_unsafe(draft: Draft) -> None:
    """Two files more: units that stay on the list of what can hurt, and what was decided of them."""
    told = len(draft.feeds.get("events", []))
    runs = sorted(unsafe_runs(draft), key=lambda rows: rows[0]["started_at"])
    add_file(draft, "water", [row for rows in runs for row in rows])
    decided = draft.feeds.get("events", [])[told:]
    if decided:
        add_file(draft, "events", decided)
