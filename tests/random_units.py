"""What happens to the units of a random plant: runs, findings, repairs, events."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import builders as b
from draft import Draft, Row, vin_of
from random_settings import STEPS, TESTS

STATIONS = {"electrical": ("E1", "E2"), "water": ("W1",), "squeak_rattle": ("T1",)}
CODES = {
    "electrical": ("EL-LAMP", "EL-ISO", "EL-WET", "BENCH_COMM", "XX-1"),
    "water": ("WL-SEAM", "WL-DRAIN", "WL-GLASS", "BENCH_COMM", "XX-1"),
    "squeak_rattle": ("SR-CREAK", "SR-POST", "BENCH_COMM", "XX-2"),
}
ZONES = ("RR-QTR", "RL-QTR", "TAIL", "HV-BOX", None)


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
    if told != "none":
        row = {"vin": vin, "name": "paint", "at": off if told == "units" else None}
        row |= {"number_value": 112.5, "measure_unit": "um"}
        draft.feeds.setdefault("attributes", []).append(row)
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
    station = draft.pick(STATIONS[test])
    head: Row = {
        "vin": vin,
        "station": station,
        "run_ref": draft.reference(station),
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
    if told and draft.parted and draft.chance(0.3):
        add_parts(draft, test, head, told)
        told = []
    rows = [head | {"code": None} | found for found in told or [{}]]
    if len(rows) > 1 and draft.chance(0.2):
        rows[1]["result"] = draft.pick(("pass", "aborted"))
    return rows


def conditions(draft: Draft, head: Row) -> Row:
    """Pressure and duration in the run's own columns, or by the readings feed, or never."""
    pressure = draft.dice.choices((250.0, 212.0, 290.0, None), (80, 8, 6, 6))[0]
    duration = draft.dice.choices((240.0, 225.0, 265.0, None), (85, 5, 5, 5))[0]
    if pressure is not None and draft.parted and draft.chance(0.3):
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
        row["note"] = "faint" if row["rating"] == 6 else None
        made[row["code"], row["zone"], row["step"]] = row
    return list(made.values())


def add_parts(
    draft: Draft, test: str, head: Row, rows: list[Row], *, feed: str = "findings"
) -> None:
    """Findings or readings that come apart from their run."""
    names = ("station", "run_ref") if head["run_ref"] else ("vin", "station", "started_at")
    key = dict.fromkeys(("vin", "started_at")) | {name: head[name] for name in names}
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
        "zone": rows[0].get("zone"),
    }
    if row["class"] == "replaced":
        row |= {"place": "rework 2", "part": "seal", "lot": "L7"}
    draft.feeds.setdefault("repairs", []).append(row)


def add_event(draft: Draft, vin: str, kind: str, at: datetime, **fields: Any) -> None:
    """An event."""
    row = {"event_id": f"V{len(draft.feeds.get('events', [])):05d}", "vin": vin, "at": at}
    row |= {"kind": kind, "place": draft.pick(("yard", None)), "reference": None}
    row["note"] = "asked for by the line" if kind == "hold" else None
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


def unsafe_runs(draft: Draft) -> list[list[Row]]:
    """Water near high voltage, found again and again on two units; perhaps released between."""
    proven = {"reference": "R-3", "entered_by": "P7"}
    made = []
    for vin in (vin_of(801), vin_of(802)):
        ends = draft.moment(30)
        for _ in range(3):
            begins = draft.later(ends, 5, 90)
            ends = draft.free(begins + timedelta(seconds=230))
            fields: Row = {"bay": "A", "started_at": begins, "duration_s": 240.0}
            fields["pressure_kpa"] = draft.pick((250.0, 290.0))
            result = draft.pick(("fail", "fail", "aborted", "pass"))
            told = draft.pick(("WL-SEAM/HV-BOX", "WL-SEAM/HV-BOX", "XX-1/HV-BOX/roof"))
            made.append(b.run(vin, ends, result, told, **fields))
            if draft.chance(0.4):
                kind = draft.pick(("release", "release", "signed_off"))
                left_out = draft.pick(("", "", *proven))
                signed = {name: None if name == left_out else proven[name] for name in proven}
                add_event(draft, vin, kind, draft.later(ends, 1, 5), **signed)
    return made


def second_fault(draft: Draft) -> list[list[Row]]:
    """The leaker is found to have a second fault: runs that show both, one or none of the two."""
    leaker, drain = vin_of(901), "WL-DRAIN/TAIL"
    draft.settings["reference"].append({"vin": leaker, "test": "water", "code": "WL-DRAIN"})
    made = []
    for told in (["WL-SEAM/RR-QTR", drain], [drain], [], ["WL-SEAM/RR-QTR/rear", drain]):
        begins = draft.moment(44)
        ends = draft.free(begins + timedelta(seconds=230))
        fields = {"bay": draft.pick(("A", "B")), "started_at": begins, "duration_s": 240.0}
        made.append(b.run(leaker, ends, "fail" if told else "pass", *told, **fields))
    return sorted(made, key=lambda rows: rows[0]["started_at"])


def borrowed_station(draft: Draft, test: str) -> list[list[Row]]:
    """Runs at a station that nobody declared and that two tests share."""
    made = []
    for number in draft.dice.sample(range(24), 2):
        begins = draft.moment(50)
        ends = draft.free(begins + timedelta(seconds=230))
        fields: Row = {"station": "X1", "started_at": begins, "duration_s": 240.0}
        result = draft.pick(("pass", "pass", "bypass"))
        made.append(b.run(vin_of(number), ends, result, test=test, **fields))
    return sorted(made, key=lambda rows: rows[0]["started_at"])
