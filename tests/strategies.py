"""Random plants by seed: everything the counting rules speak of, in small numbers and odd mixes.

`random_plant(seed)` is a function of its seed alone. A new feature joins here, so that the tests
of any order of files and of the second opinion meet it too.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import builders as b
from second_opinion import File, Plant, evaluate

Row = dict[str, Any]
TESTS = ("electrical", "water", "squeak_rattle")
STATIONS = {"electrical": ("E1", "E2"), "water": ("W1",), "squeak_rattle": ("T1",)}
STEPS = {
    "electrical": ("power_up", "modules", "functions"),
    "water": ("front", "roof", "rear"),
    "squeak_rattle": ("setts", "ropes", "joints"),
}
CODES = {
    "electrical": ("EL-LAMP", "EL-ISO", "EL-WET", "BENCH_COMM", "XX-1"),
    "water": ("WL-SEAM", "WL-DRAIN", "WL-GLASS", "BENCH_COMM", "XX-1"),
    "squeak_rattle": ("SR-CREAK", "SR-POST", "BENCH_COMM", "XX-2"),
}
ZONES = ("RR-QTR", "RL-QTR", "TAIL", "HV-BOX", None)
DAYS = (
    ("Europe/Berlin", date(2026, 9, 8)),
    ("Europe/Berlin", date(2026, 6, 26)),
    ("Europe/Berlin", date(2026, 10, 24)),
    ("Europe/Berlin", date(2026, 3, 28)),
    ("America/New_York", date(2026, 10, 31)),
    ("America/New_York", date(2026, 3, 7)),
)
SHIFTS = (
    (("E", "06:00", "14:00"), ("L", "14:00", "22:00"), ("N", "22:00", "06:00")),
    (("day", "06:00", "14:30"), ("night", "18:00", "00:30")),
    (("day", "05:30", "17:00"),),
)


@dataclass
class Draft:
    """A plant being made: its dice, its settings, and the rows of each feed so far."""

    dice: random.Random
    first_day: date
    zone: ZoneInfo
    settings: Row
    local: bool
    runs: dict[str, list[list[Row]]] = field(default_factory=dict)
    parts: dict[str, list[Row]] = field(default_factory=dict)
    feeds: dict[str, list[Row]] = field(default_factory=dict)
    taken: set[datetime] = field(default_factory=set)
    files: list[File] = field(default_factory=list)

    def chance(self, share: float) -> bool:
        """True in this share of the throws."""
        return self.dice.random() < share

    def pick(self, choices: Any) -> Any:
        """One of some."""
        return self.dice.choice(list(choices))

    def free(self, wanted: datetime) -> datetime:
        """The first second from a time on at which nothing else happens."""
        while wanted in self.taken:
            wanted += timedelta(seconds=1)
        self.taken.add(wanted)
        return wanted

    def moment(self, hours: float = 48) -> datetime:
        """A free second of the plant's days."""
        start = datetime.combine(self.first_day, time(4), tzinfo=self.zone).astimezone(UTC)
        return self.free(start + timedelta(seconds=self.dice.randrange(int(3600 * hours))))

    def later(self, after: datetime, low: int, high: int) -> datetime:
        """A free second some minutes after a time."""
        return self.free(after + timedelta(seconds=self.dice.randrange(60 * low, 60 * high)))

    def edge(self) -> datetime:
        """A shift's edge, or a millisecond before it."""
        _, starts, ends = self.pick(
            [(s["name"], s["starts"], s["ends"]) for s in self.settings["shift"]]
        )
        day = self.first_day + timedelta(days=self.dice.randrange(2))
        at = datetime.combine(day, time.fromisoformat(self.pick((starts, ends))), tzinfo=self.zone)
        return at.astimezone(UTC) - timedelta(milliseconds=self.pick((0, 1)))


def random_plant(seed: int, *, units: int = 24) -> Plant:
    """Make a plant from a seed.

    Args:
        seed: decides everything.
        units: production units; the other kinds come beside them.
    """
    dice = random.Random(seed)
    zone, day = dice.choice(DAYS)
    draft = Draft(dice, day, ZoneInfo(zone), {}, local=dice.random() < 0.3)
    draft.settings = random_settings(draft, zone)
    draft.feeds = {"defect_codes": catalogue(draft), "zones": zones()}
    for number in range(units):
        add_unit(draft, vin_of(number), "production")
    for number, kind in enumerate(("trial", "reference", "training")):
        add_unit(draft, vin_of(900 + number), kind)
    add_reference_runs(draft)
    add_shifts(draft)
    pack(draft)
    return with_corrections(draft, Plant(draft.settings, draft.files))


def vin_of(number: int) -> str:
    """An invented VIN: no maker's begins with 0ZZ."""
    return f"0ZZKAB12C{number:08d}"


def random_settings(draft: Draft, zone: str) -> Row:
    """A plant.toml with one choice of each kind."""
    day = draft.first_day
    made = b.settings()
    made["plant"] |= {
        "timezone": zone,
        "date_by": draft.pick(("start", "end")),
        "silence_limit": draft.pick((86400, 86400, 7200)),
        "settle_hours": draft.pick((24, 2)),
    }
    days = draft.pick(("mon-sun", "mon-sun", "mon-fri"))
    made["shift"] = [
        {"name": name, "starts": starts, "ends": ends, "days": days}
        for name, starts, ends in draft.pick(SHIFTS)
    ]
    made["test"] = random_tests(draft, day + timedelta(days=1))
    made["station"] = [
        {"name": "W1", "test": "water", "bays": ["A", "B"], "bay_alias": {"1": "A"}},
        {"name": "E1", "test": "electrical", "bays": []},
        {"name": "E2", "test": "electrical", "bays": []},
        {"name": "T1", "test": "squeak_rattle", "bays": []},
    ]
    leaker = {"vin": vin_of(901), "test": "water", "code": "WL-SEAM"}
    made["reference"] = [leaker | draft.pick(({}, {"zone": "RR-QTR"}))]
    made["disturbs"] = [
        {"action": "windscreen replaced", "tests": ["water"]},
        {"owner_area": "wiring", "tests": ["electrical", "water"]},
    ]
    if draft.chance(0.3):
        slow = {"station": "E1", "valid_from": day, "seconds": 660}
        made["clock_offset"] = [slow | {"valid_to": day + timedelta(days=1)}]
    if draft.local:
        made["feed"] = {test: {"ordered": True, "timezone": zone} for test in TESTS}
    return made


def random_tests(draft: Draft, second_day: date) -> Row:
    """The three tests; limits and plan may change on the second day."""
    pressures = [b.pressure()]
    if draft.chance(0.4):
        pressures.append(b.pressure(valid_from=second_day, lower=205.0, upper=300.0))
    duration = b.pressure(name="duration_s", lower=230.0, upper=260.0, measure_unit="s")
    duration["required"] = draft.chance(0.3)
    water = b.declared_test(conditions=[*pressures, duration], steps=STEPS["water"])
    track = b.declared_test(
        required=draft.pick(("every", "when_run")),
        applies_when=draft.pick(("", "", "drive=electric", "drive=electric & model=WAG|VAN")),
        defect_when=draft.pick(("", "rating <= 6")),
        steps=STEPS["squeak_rattle"],
        length=420,
    )
    electrical = b.declared_test(steps=STEPS["electrical"], length=300)
    return {"electrical": electrical, "water": water, "squeak_rattle": track}


def catalogue(draft: Draft) -> list[Row]:
    """The codes, one of them with a new row on the second day."""
    start = datetime.combine(draft.first_day, time(0), tzinfo=draft.zone).astimezone(UTC)
    rows = [
        b.code("EL-LAMP", test="electrical", severity="D"),
        b.code("EL-ISO", test="electrical", severity="A", safety_related=True),
        b.code("EL-WET", test="electrical", severity="B", same_as="WL-SEAM"),
        b.code("WL-SEAM", test="water", severity="C"),
        b.code("WL-SEAM", severity="D"),
        b.code("WL-DRAIN", test="water", severity="B", applies_when="roof=opening"),
        b.code("WL-GLASS", applies_when="roof=fixed|none & model=WAG", same_as="WL-SEAM"),
        b.code("SR-CREAK", severity="C"),
        b.code("SR-POST", test="squeak_rattle", severity=None),
        b.code("BENCH_COMM", owner_area="equipment", severity=None),
    ]
    if draft.chance(0.5):
        changed = draft.pick(({"severity": "A"}, {"owner_area": "equipment"}))
        rows.append(b.code("SR-CREAK", valid_from=start + timedelta(hours=20)) | changed)
    if draft.chance(0.3):
        rows[3] |= {"valid_to": start + timedelta(hours=30)}
    return rows


def zones() -> list[Row]:
    """The zones; one near high voltage, two in one cell, one unknown."""
    return [
        {"zone": "RR-QTR", "test": None, "cell": "rear-right-mid", "hv_near": False},
        {"zone": "RL-QTR", "test": None, "cell": "rear-left-mid", "hv_near": False},
        {"zone": "RL-QTR", "test": "water", "cell": "rear-right-mid", "hv_near": False},
        {"zone": "HV-BOX", "test": None, "cell": None, "hv_near": True},
    ]


def add_unit(draft: Draft, vin: str, kind: str) -> None:
    """A unit with all that happens to it; few are told of by a test alone."""
    off = draft.edge() if draft.chance(0.1) else draft.moment(40)
    told = draft.pick(("units", "units", "units", "event", "none"))
    if not (kind == "production" and draft.chance(0.05)):
        row = b.unit(vin, kind=kind, model=draft.pick(("WAG", "WAGL", "VAN", None)))
        row |= {"line": draft.pick(("1", "2")), "build_seq": int(vin[-8:]) + 100}
        row |= {"line_off_at": off if told == "units" else None}
        row |= {"roof": draft.pick(("opening", "fixed", None))}
        draft.feeds.setdefault("units", []).append(row)
    if told == "event":
        add_event(draft, vin, "line_off", off)
    for value in draft.pick(((), ("electric",), ("petrol", "electric"))):
        row = {"vin": vin, "name": "drive", "at": draft.moment(), "text_value": value}
        draft.feeds.setdefault("attributes", []).append(row | {"source": "trim", "station": "B7"})
    for test in TESTS:
        if kind != "reference" and draft.chance(0.9):
            off = add_chain(draft, vin, test, off)
    add_fate(draft, vin, off)


def add_chain(draft: Draft, vin: str, test: str, start: datetime) -> datetime:
    """The runs of a unit in a test with the repairs between; returns the last end."""
    end = start
    for _ in range(draft.dice.randrange(1, 5)):
        begins = draft.later(end, 5, 200)
        rows = random_run(draft, vin, test, begins)
        draft.runs.setdefault(test, []).append(rows)
        end = rows[0]["ended_at"] or begins + timedelta(seconds=600)
        if draft.chance(0.5 if rows[0]["result"] != "pass" else 0.1):
            add_repair(draft, vin, test, rows, end)
        if draft.chance(0.85 if rows[0]["result"] == "pass" else 0.2):
            break
    return end


def random_run(draft: Draft, vin: str, test: str, begins: datetime) -> list[Row]:
    """The rows of one run."""
    result = draft.dice.choices(("pass", "fail", "aborted", "bypass"), (60, 28, 8, 4))[0]
    length = draft.settings["test"][test]["length"]
    ends = draft.free(begins + timedelta(seconds=length - 20))
    if draft.chance(0.05):
        ends = draft.edge()
        begins = ends - timedelta(seconds=length - 20)
    head: Row = {
        "vin": vin,
        "station": draft.pick(STATIONS[test]),
        "bay": draft.pick(("1", "A", "B")) if test == "water" else None,
        "started_at": begins,
        "ended_at": None if draft.chance(0.1) and not draft.local else ends,
        "result": result,
        "purpose": draft.pick(("normal", "normal", "audit")),
        "program": draft.pick(("P1", "P2")),
        "last_step": draft.pick(STEPS[test]) if result == "aborted" or draft.chance(0.1) else None,
        "revision": None,
    }
    if test == "water":
        head |= conditions(draft, head)
    told = findings(draft, test, result)
    if told and draft.chance(0.1):
        add_parts(draft, test, head, told)
        told = []
    return [head | {"code": None} | found for found in told or [{}]]


def conditions(draft: Draft, head: Row) -> Row:
    """Pressure and duration in the run's own columns, or by the readings feed, or never."""
    pressure = draft.dice.choices((250.0, 212.0, 290.0, None), (80, 8, 6, 6))[0]
    duration = draft.dice.choices((240.0, 225.0, 265.0, None), (85, 5, 5, 5))[0]
    if pressure is not None and draft.chance(0.15):
        samples = [pressure + draft.pick((0, 0, -40, 40)) for _ in range(draft.pick((1, 3)))]
        parts = [
            {"name": "pressure_kpa", "sample": number, "value": value}
            for number, value in enumerate(samples, start=1)
        ]
        add_parts(draft, "water", head, parts, feed="readings")
        pressure = None
    return {"pressure_kpa": pressure, "duration_s": duration}


def findings(draft: Draft, test: str, result: str) -> list[Row]:
    """The findings of a run, no two of one code, zone and step."""
    often = {
        "pass": (92, 8, 0),
        "fail": (10, 60, 30),
        "aborted": (30, 60, 10),
        "bypass": (95, 5, 0),
    }
    made: dict[Any, Row] = {}
    for _ in range(draft.dice.choices((0, 1, 3), often[result])[0]):
        row = {
            "code": draft.pick(CODES[test]),
            "zone": draft.pick(ZONES),
            "step": draft.pick((*STEPS[test], None)),
            "severity": draft.pick((None, None, "B", "D")),
            "quantity": draft.pick((None, 1, 2, 3, 0, 25)),
            "rating": draft.pick((4, 5, 6, 7, 8)),
        }
        made[row["code"], row["zone"], row["step"]] = row
    return list(made.values())


def add_parts(
    draft: Draft, test: str, head: Row, rows: list[Row], *, feed: str = "findings"
) -> None:
    """Findings or readings that come apart from their run."""
    names = ("vin", "station", "started_at")
    key = {name: head[name] for name in names}
    draft.parts.setdefault(f"{test}_{feed}", []).extend(key | row for row in rows)


def add_repair(draft: Draft, vin: str, test: str, rows: list[Row], after: datetime) -> None:
    """A repair after a run: real, of class none, disturbing, or still open."""
    begins = draft.later(after, 1, 20)
    ends = draft.later(begins, 5, 60)
    row = {
        "repair_id": f"R{len(draft.feeds.get('repairs', [])):05d}",
        "vin": vin,
        "test": draft.pick((test, test, None)),
        "code": rows[0]["code"],
        "started_at": begins,
        "ended_at": None if draft.chance(0.15) else ends,
        "action": draft.pick(("resealed", "resealed", "windscreen replaced")),
        "class": draft.pick(("repaired", "replaced", "adjusted", "none", "none")),
        "owner_area": draft.pick(("paint", "paint", "wiring")),
        "entered_at": ends,
    }
    draft.feeds.setdefault("repairs", []).append(row)


def add_event(draft: Draft, vin: str, kind: str, at: datetime, **fields: Any) -> None:
    """An event."""
    row = {"event_id": f"V{len(draft.feeds.get('events', [])):05d}", "vin": vin, "at": at}
    row |= {"kind": kind, "place": draft.pick(("yard", None)), "reference": None}
    draft.feeds.setdefault("events", []).append(row | {"entered_by": None} | fields)


def add_fate(draft: Draft, vin: str, after: datetime) -> None:
    """What becomes of a unit after its tests."""
    proven = {"reference": "R-1", "entered_by": "P7"}
    fates: list[list[tuple[str, Row]]] = [
        [],
        [("signed_off", {})],
        [("signed_off", {}), ("ship", {})],
        [("hold", {})],
        [("hold", {}), ("unhold", {}), ("signed_off", {})],
        [("scrap", {})],
        [("divert", {})],
        [("divert", {}), ("return", {})],
        [("release", proven), ("signed_off", {})],
        [("signed_off", {}), ("release", proven)],
        [("release", {"reference": "R-2"}), ("ship", {})],
        [("release", proven), ("ship", {}), ("return", {})],
        [("move", {}), ("rework", {})],
    ]
    for kind, fields in draft.dice.choices(fates, [8, 8, *[1] * (len(fates) - 2)])[0]:
        after = draft.later(after, 5, 90)
        add_event(draft, vin, kind, after, **fields)
    if draft.chance(0.15):
        add_chain(draft, vin, draft.pick(TESTS), after)


def add_reference_runs(draft: Draft) -> None:
    """The leaker goes through the bays; sometimes a bay does not see it."""
    for _ in range(6):
        begins = draft.moment(44)
        seen = draft.chance(0.6)
        told = ["WL-SEAM/RR-QTR/rear"] if seen else draft.pick(([], ["WL-SEAM/TAIL"]))
        ends = draft.free(begins + timedelta(seconds=230))
        fields = {"bay": draft.pick(("A", "B")), "started_at": begins, "duration_s": 240.0}
        made = b.run(vin_of(901), ends, "fail" if seen else "pass", *told, **fields)
        draft.runs.setdefault("water", []).append(made)


def add_shifts(draft: Draft) -> None:
    """Crews, a cancelled shift and a moved one by the feed shifts."""
    rows = []
    for shift in draft.settings["shift"]:
        day = draft.first_day + timedelta(days=draft.pick((0, 1)))
        starts, ends = (time.fromisoformat(shift[name]) for name in ("starts", "ends"))
        over = timedelta(days=int(ends <= starts))
        by_end = over if draft.settings["plant"]["date_by"] == "end" else timedelta()
        late = timedelta(minutes=draft.pick((0, 0, 30)))
        row = {"production_date": day + by_end, "shift": shift["name"]}
        row |= {"crew": draft.pick(("A", "B", None)), "cancelled": draft.chance(0.15)}
        row["starts_at"] = datetime.combine(day, starts, tzinfo=draft.zone) + late
        row["ends_at"] = datetime.combine(day + over, ends, tzinfo=draft.zone)
        if draft.chance(0.4):
            rows.append(row)
    if rows:
        draft.feeds["shifts"] = rows


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
    close_repairs(draft)
    change_units(draft)
    twin = draft.pick(draft.files)
    earlier = twin.made_at - timedelta(days=draft.pick((0, 3)), seconds=1)
    draft.files.append(replace(twin, name=f"{twin.name}_twin", made_at=earlier))
    draft.dice.shuffle(draft.files)


def chunks(draft: Draft, items: list[Any]) -> list[list[Any]]:
    """Some items cut into one to three pieces."""
    size = max(1, -(-len(items) // draft.pick((1, 2, 3))))
    return [items[start : start + size] for start in range(0, len(items), size)]


def add_file(draft: Draft, feed: str, rows: list[Row]) -> None:
    """A file made some time after the plant's days; no two at one time."""
    base = datetime.combine(draft.first_day, time(0), tzinfo=UTC) + timedelta(days=6)
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
    for revision in (None, 1):
        some = [draft.pick(runs) for _ in range(draft.dice.randrange(0, 4))]
        unique = {(rows[0]["vin"], rows[0]["started_at"]): rows for rows in some}
        again = [changed(draft, test, rows, revision) for rows in unique.values()]
        again.sort(key=lambda rows: rows[0]["started_at"])
        if again:
            add_file(draft, test, [row for rows in again for row in rows])
    if draft.chance(0.3) and not draft.local:
        hour = timedelta(hours=draft.pick((1, -1)))
        add_file(draft, test, [moved(row, hour) for rows in runs[2:9] for row in rows])


def changed(draft: Draft, test: str, rows: list[Row], revision: int | None) -> list[Row]:
    """The same run with other findings, and perhaps another result."""
    head = rows[0] | {"revision": revision}
    head |= dict.fromkeys(("code", "zone", "step", "severity", "quantity", "rating"))
    if draft.chance(0.5):
        head["result"] = draft.pick(("pass", "fail"))
    told = findings(draft, test, head["result"])
    return [head | found for found in told or [{}]]


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
