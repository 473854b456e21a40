"""What a random plant declares: plant.toml, catalogue, zones, calendar."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import builders as b
from draft import Draft, Row, vin_of

TESTS = ("electrical", "water", "squeak_rattle")
STEPS = {
    "electrical": ("power_up", "modules", "functions"),
    "water": ("front", "roof", "rear"),
    "squeak_rattle": ("setts", "ropes", "joints"),
}
SHIFTS = (
    (("E", "06:00", "14:00"), ("L", "14:00", "22:00"), ("N", "22:00", "06:00")),
    (("day", "06:00", "14:30"), ("night", "18:00", "00:30")),
    (("day", "05:30", "17:00"),),
)
VOLTAGE = "High voltage: keep away."


def random_settings(draft: Draft, zone: str) -> Row:
    """A plant.toml with one choice of each kind; one of its stations never sends."""
    day = draft.first_day
    made = b.settings()
    made["plant"] |= {
        "timezone": zone,
        "starts_on": day - timedelta(days=30),
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
        {"name": "W9", "test": "water", "bays": []},
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
        b.code("EL-ISO", test="electrical", severity="A", safety_related=True, handling=VOLTAGE),
        b.code("EL-WET", test="electrical", severity="B", same_as="WL-SEAM"),
        b.code("WL-SEAM", test="water", severity="C", handling="Water: keep the battery off."),
        b.code("WL-SEAM", severity="D"),
        b.code("WL-DRAIN", test="water", severity="B", applies_when="roof=opening"),
        b.code("WL-GLASS", applies_when="roof=fixed|none & model=WAG", same_as="WL-SEAM"),
        b.code("SR-CREAK", severity="C"),
        b.code("SR-POST", test="squeak_rattle", severity=None),
        b.code("BENCH_COMM", owner_area="equipment", severity=None),
        b.code("WL-SEAM", test="water", severity="C", handling="Dry it first.")
        | {"valid_from": start + timedelta(hours=12), "valid_to": start + timedelta(hours=24)},
    ]
    if draft.chance(0.5):
        grave = {"severity": "A", "safety_related": True, "handling": "Brakes: do not drive."}
        changed = draft.pick((grave, {"owner_area": "equipment"}))
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
