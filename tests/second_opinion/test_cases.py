"""The awkward cases, each with its exact figures: they prove the second opinion itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import builders as b
import pytest

from second_opinion import File, Opinion, Plant, evaluate
from second_opinion.figures import ranked

Row = dict[str, Any]
DAY = date(2026, 9, 8)
CATALOGUE = [
    b.code("LEAK", test="water"),
    b.code("BENCH_COMM", owner_area="equipment"),
]


def opinion(*files: File, made: dict[str, Any] | None = None) -> Opinion:
    """What the rules make of some files beside the catalogue."""
    return evaluate(Plant(made or b.settings(), [b.file("defect_codes", CATALOGUE), *files]))


def of(*runs: list[Row], made: dict[str, Any] | None = None, **feeds: list[Row]) -> Opinion:
    """The opinion of water runs; each unit passed electrical, and stations went on sending."""
    rows = [row for sent in runs for row in sent]
    vins = sorted({row["vin"] for row in rows if row.get("vin")})
    before = [row for vin in vins for row in b.run(vin, "05:00", test="electrical")]
    after = b.run("LATER", "15:00", test="electrical")
    units = feeds.pop("units", [b.unit(vin) for vin in [*vins, "LATER"]])
    files = [
        b.file("units", units),
        b.file("water", rows + b.run("LATER", "16:00")),
        b.file("electrical", feeds.pop("electrical", []) + before + after),
    ]
    return opinion(*files, *(b.file(feed, sent) for feed, sent in feeds.items()), made=made)


def shown(found: Opinion, test: str = "water", shift: str | None = "E") -> Row:
    """FTT and DPHU of one shift of 2026-09-08 in one row."""
    row: Row = {}
    for view in ("dphu_by_shift", "ftt_by_shift"):
        for one in found.views[view]:
            if (one["production_date"], one["shift"], one["test"]) == (DAY, shift, test):
                row |= one
    return row


def pick(row: Row, names: str) -> list[Any]:
    """Some fields of a row in order."""
    return [row[name] for name in names.split()]


def status_of(found: Opinion, vin: str, test: str = "water") -> str:
    """The status of a unit in a test."""
    rows = found.tables["unit_status"]
    return str(next(r["status"] for r in rows if (r["vin"], r["test"]) == (vin, test)))


@pytest.mark.parametrize(
    ("ended", "expected"),
    [
        (b.at("05:59:59.999"), (date(2026, 9, 7), "N")),
        (b.at("06:00:00"), (DAY, "E")),
        (b.at("22:00:00"), (DAY, "N")),
    ],
)
def test_01_edges_of_shifts(ended: datetime, expected: tuple[date, str]) -> None:
    """Case 1: a window holds its start and not its end."""
    [run] = opinion(b.file("water", b.run("U1", ended))).tables["run"]
    assert (run["production_date"], run["shift"]) == expected


def local_run(vin: str, local: str) -> Row:
    """A run whose start and end are local, without an offset."""
    [row] = b.run(vin)
    return row | {"started_at": local, "ended_at": local}


def test_02_repeated_hour() -> None:
    """Case 2: in an ordered file the times run backwards once, so 02:10 is of the second pass."""
    rows = [local_run("U1", "2026-10-25T02:50"), local_run("U2", "2026-10-25T02:10")]
    made = b.settings(feed={"water": {"ordered": True}})
    found = opinion(b.file("water", rows), made=made)
    assert [run["at"].strftime("%H:%M") for run in found.tables["run"]] == ["00:50", "01:10"]
    night = (date(2026, 10, 24), "N")
    assert {(r["production_date"], r["shift"]) for r in found.tables["run"]} == {night}
    [window] = [
        w for w in found.tables["shift_window"] if (w["production_date"], w["shift"]) == night
    ]
    assert window["ends_at"] - window["starts_at"] == timedelta(hours=9)
    assert window["starts_at"] == datetime(2026, 10, 24, 20, tzinfo=UTC)


def test_03_hour_that_never_was() -> None:
    """Case 3: 02:30 is rejected in the plant's zone and read in the bench's own."""
    rows = [local_run("U1", "2026-03-29T02:30")]
    assert opinion(b.file("water", rows)).tables["run"] == []
    fixed = b.settings(feed={"water": {"timezone": "+01:00"}})
    [run] = opinion(b.file("water", rows), made=fixed).tables["run"]
    assert run["at"] == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)
    assert (run["production_date"], run["shift"]) == (date(2026, 3, 28), "N")


def test_04_weak_pass() -> None:
    """Case 4: a pass at 212 kPa is void; the unit is pending until it passes at 250."""
    weak = b.run("U1", "08:00", pressure_kpa=212)
    before = of(weak)
    assert pick(shown(before), "tested ftt void_runs pending") == [0, None, 1, 1]
    assert status_of(before, "U1") == "void"
    after = of(weak, b.run("U1", "09:00"))
    assert pick(shown(after), "tested passed_first void_runs pending") == [1, 1, 1, 0]


def test_05_weak_fail() -> None:
    """Case 5: a fail under weak conditions counts."""
    found = of(
        b.run("U1", "08:00", "fail", "LEAK/RRQ", pressure_kpa=212),
        b.run("U1", "12:00"),
        repairs=[b.repair("U1", "10:00")],
    )
    assert pick(shown(found), "tested passed_first defects dphu") == [1, 0, 1, 100.0]
    assert status_of(found, "U1") == "passed"


def test_06_harsh_fail() -> None:
    """Case 6: a fail at 290 kPa condemns none; its finding stays listed as void."""
    harsh = b.run("U1", "08:00", "fail", "LEAK", pressure_kpa=290)
    before = of(harsh)
    assert pick(shown(before), "tested void_runs") == [0, 1]
    assert [(r["vin"], r["status"]) for r in before.views["open_unit"]] == [("U1", "void")]
    after = of(harsh, b.run("U1", "12:00"))
    assert pick(shown(after), "tested passed_first defects") == [1, 1, 0]
    assert [f["counts_as"] for f in after.tables["finding"]] == ["void"]


def test_07_reading_comes_later() -> None:
    """Case 7: a pass waits for its pressure and counts once it comes, in either order of files."""
    rows = b.run("U1", "08:00", pressure_kpa=None)
    first = of(rows)
    assert status_of(first, "U1") == "pending"
    assert first.views["escape"] == []
    assert shown(first)["tested"] == 0
    reading = {name: rows[0][name] for name in ("vin", "station", "started_at")}
    sent = [reading | {"name": "pressure_kpa", "value": 250}]
    assert pick(shown(of(rows, water_readings=sent)), "tested passed_first") == [1, 1]


def test_08_aborted_with_a_leak() -> None:
    """Case 8: an aborted run with a finding of the product counts as a fail."""
    found = of(
        b.run("U1", "08:00", "aborted", "LEAK"),
        b.run("U1", "12:00"),
        repairs=[b.repair("U1", "10:00")],
    )
    assert pick(shown(found), "tested passed_first defects aborted_runs") == [1, 0, 1, 0]


def test_09_one_fail_many_findings() -> None:
    """Case 9: defects are code times zone; quantities are summed beside them."""
    found = of(
        b.run(
            "U1",
            "08:00",
            "fail",
            {"code": "LEAK", "zone": "RRQ", "step": "roof", "quantity": 1},
            {"code": "LEAK", "zone": "RRQ", "step": "rear", "quantity": 3},
            "LEAK/LRQ",
            "LEAK",
        )
    )
    assert pick(shown(found), "defects dphu quantity demerits") == [3, 300.0, 6, 30]


def test_10_pass_with_a_finding() -> None:
    """Case 10: a finding on a passed run is a defect; the unit still went through."""
    figures = shown(of(b.run("U1", "08:00", "pass", "LEAK/RRQ")))
    assert pick(figures, "tested passed_first ftt defects dphu") == [1, 1, 1.0, 1, 100.0]


def test_11_attempts() -> None:
    """Case 11: only the first attempt makes defects; B is new once."""
    electrical = [
        *b.run("U1", "08:00", "fail", "A", test="electrical"),
        *b.run("U1", "09:00", "fail", "A", "B", test="electrical"),
        *b.run("U1", "10:00", "fail", "B", test="electrical"),
        *b.run("U1", "11:00", test="electrical"),
    ]
    found = opinion(b.file("units", [b.unit("U1")]), b.file("electrical", electrical))
    figures = shown(found, "electrical")
    assert pick(figures, "tested passed_first defects retest_defects") == [1, 0, 1, 1]
    assert [run["attempt"] for run in found.tables["run"]] == [1, 2, 3, 4]
    assert status_of(found, "U1", "electrical") == "passed"


def test_12_exported_again_an_hour_off() -> None:
    """Case 12: the same runs an hour later are suspect doubles and move no figure."""
    rows = [row for n in range(5) for row in b.run(f"U{n}", f"08:{10 + n}:00.483")]
    hour = timedelta(hours=1)
    again = [
        row | {"started_at": row["started_at"] + hour, "ended_at": row["ended_at"] + hour}
        for row in rows
    ]
    again[1]["started_at"] = again[1]["started_at"].replace(microsecond=0)
    whole = [row | {"started_at": row["started_at"].replace(microsecond=0)} for row in rows[:1]]
    files = [
        b.file("units", [b.unit(f"U{n}") for n in range(5)]),
        b.file("water", rows),
        b.file("water", whole, made_at=b.MADE_AT + hour),
        b.file("water", again, made_at=b.MADE_AT + 2 * hour),
    ]
    once, twice = opinion(*files[:3]), opinion(*reversed(files))
    assert len(once.tables["run"]) == 5
    voids = [r["void_reason"] for r in twice.tables["run"] if not r["counts"]]
    assert voids == ["suspect_double"] * 5
    names = "tested passed_first ftt low high defects dphu"
    assert pick(shown(once), names) == pick(shown(twice), names)


def test_13_audit_fail_then_shipped() -> None:
    """Case 13: the first pass stays, the audit fail is a retest defect and the unit an escape."""
    found = of(
        b.run("U1", "08:00"),
        b.run("U1", "09:00", "fail", "LEAK", purpose="audit"),
        events=[b.event("U1", "ship", "12:00")],
    )
    assert pick(shown(found), "passed_first retest_defects") == [1, 1]
    assert [(r["vin"], r["reason"]) for r in found.views["escape"]] == [("U1", "failed")]


def test_14_swapped_vin() -> None:
    """Case 14: a correction moves the run to its unit and leaves no other unit."""
    units = [b.unit("U12"), b.unit("LATER")]
    before = of(b.run("U21", "08:00"), units=units)
    assert shown(before)["tested"] == 1
    assert status_of(before, "U12") == "untested"
    wrong = {r["test"]: r["run_id"] for r in before.tables["run"] if r["vin"] == "U21"}
    sent = [
        {"correction_id": test, "run_id": run_id, "field": "vin", "value": "U12"}
        | {"made_at": b.at("13:00")}
        for test, run_id in wrong.items()
    ]
    after = of(b.run("U21", "08:00"), units=units, corrections=sent)
    assert shown(after)["tested"] == 1
    assert status_of(after, "U12") == "passed"
    assert {unit["vin"] for unit in after.tables["unit"]} == {"U12", "LATER"}
    assert "U21" in {run["vin_sent"] for run in after.tables["run"]}


def test_15_scrapped_and_held() -> None:
    """Case 15: scrapped units leave the open list and stay in the rates."""
    found = of(
        b.run("U1", "08:00", "fail", "LEAK"),
        b.run("U2", "08:10", "fail", "LEAK"),
        events=[b.event("U1", "scrap", "09:00"), b.event("U2", "hold", "09:00")],
    )
    assert pick(shown(found), "tested passed_first defects") == [2, 0, 2]
    assert [(r["vin"], r["status"]) for r in found.views["open_unit"]] == [("U2", "held")]


def test_16_bypassed_then_released() -> None:
    """Case 16: a bypass never clears; a release with reference and person closes the escape."""
    signed = b.event("U1", "signed_off", "10:00")
    before = of(b.run("U1", "08:00", "bypass"), events=[signed])
    assert pick(shown(before), "tested pending") == [0, 1]
    assert [r["reason"] for r in before.views["escape"]] == ["bypassed"]
    release = b.event("U1", "release", "11:00", reference="R-1", entered_by="P7")
    after = of(b.run("U1", "08:00", "bypass"), events=[signed, release])
    assert after.views["escape"] == []
    assert status_of(after, "U1") == "released"


def test_17_units_at_risk() -> None:
    """Case 17: four leaks of a hundred opening roofs among four hundred units."""
    units, rows = [], []
    for n in range(400):
        units.append(b.unit(f"U{n}", roof="opening" if n < 100 else "fixed"))
        told = ("fail", "DRAIN") if n < 4 else ("pass",)
        rows += b.run(f"U{n}", b.at("06:10") + timedelta(minutes=n), *told)
    drain = b.code("DRAIN", applies_when="roof=opening")
    found = opinion(
        b.file("units", units), b.file("water", rows), b.file("defect_codes", [drain], name="more")
    )
    [row] = found.views["pareto_by_shift"]
    assert pick(row, "defects at_risk per_100_at_risk") == [4, 100, 4.0]
    assert shown(found)["dphu"] == 1.0


def test_18_reference_leaker() -> None:
    """Case 18: passes of the bay since its last good check are unchecked, the leaker uncounted."""
    leaker = {"vin": "REF", "test": "water", "code": "WL-SEAM", "zone": "RR-QTR"}
    rows = b.run("REF", "06:05", "fail", "WL-SEAM/RR-QTR", bay="B")
    rows += b.run("REF", "13:58", bay="B")
    for n in range(57):
        rows += b.run(f"U{n}", b.at("06:30") + timedelta(minutes=6 * n), bay="B")
    rows += b.run("U99", "09:00", bay="A")
    units = [b.unit(f"U{n}") for n in (*range(57), 99)] + [b.unit("REF", kind="reference")]
    made = b.settings(reference=[leaker])
    found = opinion(b.file("units", units), b.file("water", rows), made=made)
    assert len(found.views["unchecked"]) == 57
    assert {row["bay"] for row in found.views["unchecked"]} == {"B"}
    assert pick(shown(found), "tested presented defects") == [58, 58, 0]


def test_19_competition_ranks() -> None:
    """Case 19: ties share a rank, the next one leaves a gap, shares end at 1."""
    counts = {"B": 5, "C": 3, "A": 3, "D": 1}
    rows = ranked([{"code": name, "defects": n} for name, n in counts.items()])
    assert [(r["rank"], r["code"]) for r in rows] == [(1, "B"), (2, "A"), (2, "C"), (4, "D")]
    assert [round(r["share"], 4) for r in rows] == [0.4167, 0.25, 0.25, 0.0833]
    assert [round(r["cumulative_share"], 4) for r in rows] == [0.4167, 0.6667, 0.9167, 1]


def test_20_fixed_without_repair() -> None:
    """Case 20: a repair of class none leaves the test suspect."""
    found = of(
        b.run("U1", "08:00", "fail", "LEAK"),
        b.run("U1", "12:00"),
        repairs=[b.repair("U1", "10:00") | {"class": "none"}],
    )
    assert [row["fixed_without_repair"] for row in found.views["fail_to_clear"]] == [True]


def test_20_repairs_seldom_recorded() -> None:
    """Case 20: with repair rows for 3 of 10 loops nothing is said."""
    rows = []
    for n in range(10):
        rows += [b.run(f"U{n}", f"08:{10 + n}", "fail", "LEAK"), b.run(f"U{n}", f"12:{10 + n}")]
    found = of(*rows, repairs=[b.repair(f"U{n}", "10:00") for n in range(3)])
    assert [row["fixed_without_repair"] for row in found.views["fail_to_clear"]] == [None] * 10


def test_any_order_of_files() -> None:
    """Rule 1: the order in which files are given moves nothing."""
    files = [
        b.file("units", [b.unit("U1")]),
        b.file("water", b.run("U1", "08:00", "fail", "LEAK")),
        b.file("water", b.run("U1", "08:00"), made_at=b.MADE_AT + timedelta(days=1)),
        b.file("repairs", [b.repair("U1")]),
    ]
    one, other = opinion(*files), opinion(*reversed(files), replace(files[1]))
    assert one.views == other.views
    assert [run["result"] for run in one.tables["run"]] == ["pass"]
