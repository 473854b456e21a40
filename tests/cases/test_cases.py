"""The awkward cases with their exact figures, from files through the tool: rows in, figures out."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import builders as b
import plants
import pytest
from case import DAY, Case, Row

from eol.ask.unit import unit_trail
from eol.plant.folder import PlantFolder


@pytest.fixture
def case(folder: PlantFolder) -> Case:
    """An empty plant with three shifts and a required water pressure."""
    return Case(folder)


def test_01_edges_of_shifts(case: Case) -> None:
    """Case 1: a window holds its start and not its end."""
    ends = ["05:59:59.999", "06:00:00", "22:00:00"]
    case.load(water=[row for n, end in enumerate(ends) for row in b.run(f"U{n}", b.at(end))])
    found = {row["vin"]: (row["production_date"], row["shift"]) for row in case.rows("run")}
    assert found == {"U0": (date(2026, 9, 7), "N"), "U1": (DAY, "E"), "U2": (DAY, "N")}


def local_run(vin: str, local: str) -> Row:
    """A run whose start and end are local, without an offset."""
    [row] = b.run(vin)
    return row | {"started_at": local, "ended_at": local}


def test_02_repeated_hour(case: Case) -> None:
    """Case 2: in an ordered file the times run backwards once: 02:10 is of the second pass."""
    plants.declare(case.folder, b.settings(feed={"water": {"ordered": True}}))
    case.load(water=[local_run("U1", "2026-10-25T02:50"), local_run("U2", "2026-10-25T02:10")])
    night = {"production_date": date(2026, 10, 24), "shift": "N"}
    runs = {row["vin"]: f"{row['at']:%H:%M}" for row in case.rows("run", **night)}
    assert runs == {"U1": "00:50", "U2": "01:10"}
    [window] = case.rows("shift_window", **night)
    assert window["starts_at"] == datetime(2026, 10, 24, 20, tzinfo=UTC)
    assert window["ends_at"] - window["starts_at"] == timedelta(hours=9)


def test_03_hour_that_never_was(case: Case) -> None:
    """Case 3: 02:30 in the plant's zone is rejected and says so; a word with a person helps."""
    case.load(water=[local_run("U1", "2026-03-29T02:30")])
    assert case.rows("run") == []
    [refused] = case.rows("rejected_row")
    assert "02:30 does not exist" in refused["reason"]
    assert "Europe/Berlin" in refused["reason"]


def test_03_bench_on_winter_time(case: Case) -> None:
    """Case 3: with the bench's own zone 02:30 is 01:30Z, in a night of seven hours."""
    plants.declare(case.folder, b.settings(feed={"water": {"timezone": "+01:00"}}))
    case.load(water=[local_run("U1", "2026-03-29T02:30")])
    night = {"production_date": date(2026, 3, 28), "shift": "N"}
    [run] = case.rows("run", **night)
    assert run["at"] == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)
    [window] = case.rows("shift_window", **night)
    assert window["starts_at"] == datetime(2026, 3, 28, 21, tzinfo=UTC)
    assert window["ends_at"] == datetime(2026, 3, 29, 4, tzinfo=UTC)


def test_04_weak_pass(case: Case) -> None:
    """Case 4: a pass at 212 kPa is void; the unit is pending until it passes at 250."""
    case.given(b.run("U1", "08:00", pressure_kpa=212))
    assert case.told("tested ftt void_runs pending") == [0, None, 1, 1]
    assert case.status("U1") == "void"
    case.given(b.run("U1", "09:00"))
    assert case.told("tested passed_first void_runs pending") == [1, 1, 1, 0]


def test_05_weak_fail(case: Case) -> None:
    """Case 5: a fail under weak conditions counts."""
    case.given(
        b.run("U1", "08:00", "fail", "LEAK/RRQ", pressure_kpa=212),
        b.run("U1", "12:00"),
        repairs=[b.repair("U1", "10:00")],
    )
    assert case.told("tested passed_first defects dphu") == [1, 0, 1, 100.0]
    assert case.status("U1") == "passed"


def test_06_harsh_fail(case: Case) -> None:
    """Case 6: a fail at 290 kPa condemns no unit; its finding stays listed as void."""
    case.given(b.run("U1", "08:00", "fail", "LEAK", pressure_kpa=290))
    assert case.told("tested void_runs") == [0, 1]
    assert [(r["vin"], r["status"]) for r in case.rows("open_unit")] == [("U1", "void")]
    case.given(b.run("U1", "12:00"))
    assert case.told("tested passed_first defects") == [1, 1, 0]
    assert [row["counts_as"] for row in case.rows("finding")] == ["void"]


def test_07_reading_comes_later(case: Case) -> None:
    """Case 7: a pass waits for its pressure, is no escape meanwhile, and counts once it comes."""
    case.given(b.run("U1", "08:00", pressure_kpa=None))
    assert case.status("U1") == "pending"
    assert case.rows("escape") == []
    assert case.told("tested pending") == [0, 1]
    case.load(water_readings=[pressure_of("U1")])
    assert case.told("tested passed_first") == [1, 1]


def test_07_reading_comes_first(case: Case) -> None:
    """Case 7: the two files in the other order give the same."""
    case.load(water_readings=[pressure_of("U1")])
    assert plants.count(case.folder, "waiting_reading") == 1
    case.given(b.run("U1", "08:00", pressure_kpa=None))
    assert case.told("tested passed_first") == [1, 1]
    assert plants.count(case.folder, "waiting_reading") == 0


def pressure_of(vin: str) -> Row:
    """The pressure of a unit's run at 08:00, as a row of the readings feed."""
    [run] = b.run(vin, "08:00")
    named = {name: run[name] for name in ("vin", "station", "started_at")}
    return named | {"name": "pressure_kpa", "value": 250}


def test_08_aborted_with_a_leak(case: Case) -> None:
    """Case 8: an aborted run with a finding of the product counts as a fail."""
    case.given(
        b.run("U1", "08:00", "aborted", "LEAK"),
        b.run("U1", "12:00"),
        repairs=[b.repair("U1", "10:00")],
    )
    assert case.told("tested passed_first defects aborted_runs") == [1, 0, 1, 0]


def test_09_one_fail_many_findings(case: Case) -> None:
    """Case 9: a defect is code and zone; quantities are summed beside it."""
    roof = {"code": "LEAK", "zone": "RRQ", "step": "roof", "quantity": 1}
    rear = {"code": "LEAK", "zone": "RRQ", "step": "rear", "quantity": 3}
    case.given(b.run("U1", "08:00", "fail", roof, rear, "LEAK/LRQ", "LEAK"))
    assert case.told("defects dphu quantity demerits") == [3, 300.0, 6, 30]


def test_10_pass_with_a_finding(case: Case) -> None:
    """Case 10: a finding on a passed run is a defect; the unit still went through."""
    case.given(b.run("U1", "08:00", "pass", "LEAK/RRQ"))
    assert case.told("tested passed_first ftt defects dphu") == [1, 1, 1.0, 1, 100.0]


def test_11_attempts(case: Case) -> None:
    """Case 11: only the first attempt makes defects; B is new once."""
    told = [("08:00", "fail", "A"), ("09:00", "fail", "A", "B"), ("10:00", "fail", "B"), ("11:00",)]
    rows = [row for run in told for row in b.run("U1", *run, test="electrical")]
    case.load(units=[b.unit("U1")], electrical=rows)
    figures = case.told("tested passed_first defects retest_defects", test="electrical")
    assert figures == [1, 0, 1, 1]
    assert plants.column(case.folder, "run", "attempt") == [1, 2, 3, 4]
    assert case.status("U1", "electrical") == "passed"


def test_12_exported_again_an_hour_off(case: Case) -> None:
    """Case 12: the same run is repeated; the whole file an hour later moves no figure."""
    rows = [row for n in range(5) for row in b.run(f"U{n}", f"08:{10 + n}:00.483")]
    case.given(rows)
    before = case.told("tested passed_first ftt low high defects dphu")
    once_more = rows[0] | {"started_at": rows[0]["started_at"].replace(microsecond=0)}
    [file] = case.load(water=[once_more]).files
    assert (file.repeated, file.accepted) == (1, 0)
    hour = timedelta(hours=1)
    again = [r | {n: r[n] + hour for n in ("started_at", "ended_at")} for r in rows]
    again[1]["started_at"] = again[1]["started_at"].replace(microsecond=0)
    result = case.load(water=again)
    assert (result.doubles, result.needs_a_look) == (5, True)
    assert [r["vin"] for r in case.rows("run", void_reason="suspect_double")].count("U0") == 1
    assert case.told("tested passed_first ftt low high defects dphu") == before


def test_13_audit_fail_then_shipped(case: Case) -> None:
    """Case 13: the first pass stays, the audit fail is a retest defect and the unit an escape."""
    case.given(
        b.run("U1", "08:00"),
        b.run("U1", "09:00", "fail", "LEAK", purpose="audit"),
        events=[b.event("U1", "ship", "12:00")],
    )
    assert case.told("passed_first retest_defects") == [1, 1]
    assert [(r["vin"], r["reason"]) for r in case.rows("escape")] == [("U1", "failed")]


def test_14_swapped_vin(case: Case) -> None:
    """Case 14: a run of an unknown VIN is kept and the nearest offered; a correction moves it."""
    case.load(units=[b.unit("U12")], water=b.run("U21", "08:00"))
    assert case.told("tested") == [1]
    assert case.status("U12") == "untested"
    assert unit_trail(case.folder, plants.vin("U21")).nearest == (plants.vin("U12"),)
    [run] = case.rows("run")
    mended = {"run_id": run["run_id"], "field": "vin", "value": "U12", "made_at": b.at("13:00")}
    case.load(corrections=[mended])
    assert case.told("tested") == [1]
    assert case.status("U12") == "passed"
    assert [row["vin"] for row in case.rows("unit")] == ["U12"]
    assert [(r["vin"], r["vin_sent"]) for r in case.rows("run")] == [("U12", "U21")]


def test_15_scrapped_and_held(case: Case) -> None:
    """Case 15: a scrapped unit leaves the open list and stays in the rates."""
    case.given(
        b.run("U1", "08:00", "fail", "LEAK"),
        b.run("U2", "08:10", "fail", "LEAK"),
        events=[b.event("U1", "scrap", "09:00"), b.event("U2", "hold", "09:00")],
    )
    assert case.told("tested passed_first defects") == [2, 0, 2]
    assert [(r["vin"], r["status"]) for r in case.rows("open_unit")] == [("U2", "held")]


def test_16_bypassed_then_released(case: Case) -> None:
    """Case 16: a bypass never clears; a release with reference and person closes the escape."""
    case.given(b.run("U1", "08:00", "bypass"), events=[b.event("U1", "signed_off", "10:00")])
    assert case.told("tested pending") == [0, 1]
    assert [row["reason"] for row in case.rows("escape")] == ["bypassed"]
    case.load(events=[b.event("U1", "release", "11:00", reference="R-1", entered_by="P7")])
    assert case.rows("escape") == []
    assert case.status("U1") == "released"


def test_17_units_at_risk(case: Case) -> None:
    """Case 17: four leaks of a hundred opening roofs among four hundred units."""
    roofs = ["opening" if n < 100 else "fixed" for n in range(400)]
    ends = [b.at("06:10") + timedelta(minutes=n) for n in range(400)]
    runs = [b.run(f"U{n}", ends[n], *(("fail", "DRAIN") if n < 4 else ())) for n in range(400)]
    case.given(
        *runs,
        units=[b.unit(f"U{n}", roof=roof) for n, roof in enumerate(roofs)],
        defect_codes=[b.code("DRAIN", applies_when="roof=opening")],
    )
    figures = case.told("defects at_risk per_100_at_risk dphu", view="pareto_by_shift")
    assert figures == [4, 100, 4.0, 1.0]


def test_18_reference_leaker(case: Case) -> None:
    """Case 18: passes of the bay since its last good check are unchecked, the leaker is in no figure."""
    leaker = {"vin": plants.vin("REF"), "test": "water", "code": "WL-SEAM", "zone": "RR-QTR"}
    plants.declare(case.folder, b.settings(reference=[leaker]))
    rows = b.run("REF", "06:05", "fail", "WL-SEAM/RR-QTR", bay="B") + b.run("REF", "13:58", bay="B")
    for n in range(57):
        rows += b.run(f"U{n}", b.at("06:30") + timedelta(minutes=6 * n), bay="B")
    rows += b.run("U99", "09:00", bay="A")
    reference = b.unit("REF", kind="reference")
    case.given(rows, units=[*(b.unit(f"U{n}") for n in (*range(57), 99)), reference])
    assert [(r["bay"], r["good"]) for r in by_time(case.rows("reference_check"))] == [
        ("B", True),
        ("B", False),
    ]
    assert [row["bay"] for row in case.rows("unchecked")] == ["B"] * 57
    assert case.told("tested presented defects") == [58, 58, 0]
    assert case.rows("escape") == []


def by_time(rows: list[Row]) -> list[Row]:
    """Rows in order of `at`."""
    return sorted(rows, key=lambda row: row["at"])


def test_19_competition_ranks(case: Case) -> None:
    """Case 19: ties share a rank and stand by letter, the next leaves a gap, shares end at 1."""
    codes = [*"BBBBB", *"CCC", *"AAA", "D"]
    case.given(*(b.run(f"U{n}", f"08:{10 + n}", "fail", c) for n, c in enumerate(codes)))
    pareto = case.rows("pareto_by_shift", production_date=DAY, shift="E", test="water")
    pareto.sort(key=lambda row: (row["rank"], row["code"]))
    assert [(row["rank"], row["code"]) for row in pareto] == [
        (1, "B"),
        (2, "A"),
        (2, "C"),
        (4, "D"),
    ]
    assert [round(row["share"], 4) for row in pareto] == [0.4167, 0.25, 0.25, 0.0833]
    assert [round(row["cumulative_share"], 4) for row in pareto] == [0.4167, 0.6667, 0.9167, 1]


def test_20_fixed_without_repair(case: Case) -> None:
    """Case 20: a repair of class none repaired nothing, so the test is suspect."""
    case.given(
        b.run("U1", "08:00", "fail", "LEAK"),
        b.run("U1", "12:00"),
        repairs=[b.repair("U1", "10:00") | {"class": "none"}],
    )
    assert [row["fixed_without_repair"] for row in case.rows("fail_to_clear")] == [True]


def test_20_repairs_seldom_recorded(case: Case) -> None:
    """Case 20: with repair rows for three of ten loops nothing is said of any."""
    runs = [b.run(f"U{n}", f"08:{10 + n}", "fail", "LEAK") for n in range(10)]
    runs += [b.run(f"U{n}", f"12:{10 + n}") for n in range(10)]
    case.given(*runs, repairs=[b.repair(f"U{n}", "10:00") for n in range(3)])
    assert [row["fixed_without_repair"] for row in case.rows("fail_to_clear")] == [None] * 10
