"""The worked questions on the demo plant: each answer is held against the demo's truth or a plain count."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import polars as pl
import pytest

from eol.ask.questions import ask_question, question, questions
from eol.ask.session import Session, open_session
from eol.demo.build import DemoResult
from eol.errors import UsageError
from eol.sqlfiles import demo_folder

STORIES: dict[str, Any] = json.loads((demo_folder() / "truth.json").read_text("utf-8"))["stories"]
LEAKED = 12
"""Units that the made-up field reports name."""


@pytest.fixture(scope="module")
def session(demo_plant: DemoResult, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    """A session on the demo with a field report of the blind bay's units and a robot's trace attached."""
    place = tmp_path_factory.mktemp("attached")
    field = pl.DataFrame({"vin": STORIES["S2"]["suspect_vins"][:LEAKED]})
    field.with_columns(reported_at=pl.lit("2026-10-05")).write_csv(place / "field.csv")
    with open_session(demo_plant.folder) as plain:
        beads = plain.ask(
            'SELECT station, "at" + INTERVAL \'20\' SECOND AS "at", 10 * number_value AS flow FROM attribute'
            " WHERE name = 'sealer_bead' AND \"at\" BETWEEN '2026-09-14 16:00Z' AND '2026-09-14 17:00Z'"
        )
    lost = beads.head(1).with_columns(station=pl.lit("R09"))
    pl.concat([beads, lost]).write_parquet(place / "trace.parquet")
    attached = {"field": place / "field.csv", "trace": place / "trace.parquet"}
    with open_session(demo_plant.folder, attached=attached) as opened:
        yield opened


def one(session: Session, statement: str) -> Any:
    """The one value of a statement."""
    return session.ask(statement).item()


@pytest.mark.parametrize("name", [q.name for q in questions()])
def test_question_gives_rows(session: Session, name: str) -> None:
    """Each question runs as it stands, and has an answer on the demo."""
    assert ask_question(session, name).height > 0


def test_leaks_by_build_window(session: Session) -> None:
    """The leaks at the seam are those of R07's thin bead in the windows built on the three nights."""
    found = ask_question(session, "leaks_by_build_window", {"zone": "RR-QTR"})
    seq = pl.col("from_build_seq").is_in([107600, 108400, 109200])
    r07 = found.filter(seq & (pl.col("robot") == "R07"))
    assert r07["leaking"].sum() == STORIES["S1"]["R07"]["defects"] - 1
    assert found.filter(seq & (pl.col("robot") == "R08"))["leaking"].sum() == 0
    assert r07["bead_median_of_leaking"].max() < STORIES["S1"]["limit_mm"]


def test_rattle_by_lot(session: Session) -> None:
    """A range that three lots share mixes them; the units' own word tells which lot rattles."""
    found = {row["lot"]: row for row in ask_question(session, "rattle_by_lot").to_dicts()}
    lot = found[STORIES["S4"]["lot"]]
    assert (lot["own_units"], lot["own_rattling"]) == tuple(STORIES["S4"]["in_lot"].values())
    both = [
        STORIES["S4"][group][count]
        for count in ("units", "defects")
        for group in ("in_lot", "other_lots")
    ]
    assert (lot["units"], lot["rattling"]) == (sum(both[:2]), sum(both[2:]))


def test_lot_not_through(session: Session) -> None:
    """At the end the held units alone are left; on a Tuesday afternoon also those on the line and in repair."""
    left = ask_question(session, "lot_not_through")
    assert sorted(left["vin"]) == STORIES["S4"]["not_on_track"]
    assert set(left["place"]) == {"hold area"}
    then = ask_question(session, "lot_not_through", {"moment": "2026-09-15T16:00:00Z"})
    assert then.height == 21
    assert {"on the line", "repair: trim", "repair: water", "hold area"} <= set(then["place"])


def test_robot_trace(session: Session) -> None:
    """Each row of the trace finds the unit whose bead it is; one of an unknown robot finds none."""
    found = ask_question(session, "robot_trace")
    known = found.filter(pl.col("station") != "R09")
    assert known.filter((pl.col("flow") - 10 * pl.col("bead")).abs() > 1e-9).height == 0
    assert known["vin"].n_unique() == known.height > 40
    assert found.filter(pl.col("station") == "R09")["vin"].to_list() == [None]


def test_ftt_as_known(session: Session) -> None:
    """Before the load nothing was known; after it all that is known now, view for view."""
    before = ask_question(session, "ftt_as_known")
    assert before["tested_then"].sum() == 0
    after = ask_question(session, "ftt_as_known", {"known_at": "2099-01-01T00:00:00Z"})
    assert after["tested_then"].to_list() == after["tested_now"].to_list()
    assert after["ftt_then"].to_list() == after["ftt_now"].to_list()
    assert after.height == before.height == one(session, "SELECT count(*) FROM ftt_by_shift")


def test_field_leaks_by_bay(session: Session) -> None:
    """All leaks of the field had passed in the blind bay, and a failed check stands against each of them."""
    found = ask_question(session, "field_leaks_by_bay", {"from_date": "2026-10-01"})
    [bay] = found.filter(pl.col("bay") == "B").to_dicts()
    assert bay["leaks"] == bay["suspect"] == LEAKED
    assert bay["per_1000"] == 1000 * LEAKED / bay["passed_units"]
    assert ask_question(session, "field_leaks_by_bay", {"to_date": "2026-10-01"}).height == 0


PLAIN = {
    (
        "bench_faults",
        "runs",
    ): "SELECT count(DISTINCT run_id) FROM finding WHERE code = 'BENCH_COMM'",
    ("bench_faults", "void_runs"): "SELECT count(*) FROM run WHERE void_reason = 'equipment'",
    (
        "retest_outcomes",
        "runs",
    ): "SELECT count(*) FROM run_of_unit WHERE attempt > 1 AND kind = 'production'",
    ("throughput", "counted"): "SELECT count(*) FROM run WHERE shift IS NOT NULL AND counts",
    ("waiting_by_place", "units"): "SELECT count(*) FROM open_unit",
    ("how_late_files_come", "runs"): "SELECT count(*) FROM run",
    ("ftt_by_hour", "tested"): "SELECT sum(tested) FROM ftt_by_shift WHERE shift IS NOT NULL",
    (
        "ftt_by_hour",
        "passed_first",
    ): "SELECT sum(passed_first) FROM ftt_by_shift WHERE shift IS NOT NULL",
    (
        "condition_by_bay",
        "runs",
    ): "SELECT count(DISTINCT run_id) FROM reading WHERE name = 'pressure_kpa'",
}
"""Question and column, and the plain count that the column adds up to."""


@pytest.mark.parametrize(("name", "column"), PLAIN)
def test_parts_add_up(session: Session, name: str, column: str) -> None:
    """The rows of an answer add up to a plain count of the table behind it."""
    assert ask_question(session, name)[column].sum() == one(session, PLAIN[name, column])


def test_bays_side_by_side(session: Session) -> None:
    """The bay whose filter clogged failed far less than the others did in the same shifts."""
    dates = {"first_date": "2026-09-07", "last_date": "2026-09-10"}
    worst = ask_question(session, "bays_side_by_side", dates).row(0, named=True)
    slipping = STORIES["S2"]["slipping"]
    assert (worst["bay"], worst["tested"]) == ("B", slipping["tested"])
    assert worst["failed"] == slipping["tested"] - slipping["passed"]
    assert worst["ratio"] < 0.5


def test_condition_by_bay(session: Session) -> None:
    """The pressure of the clogged bay falls shift by shift, and under its limit on two days."""
    found = ask_question(session, "condition_by_bay")
    under = found.filter(pl.col("under") > 0)
    assert set(zip(under["production_date"].cast(pl.String), under["shift"], strict=True)) == {
        tuple(shift.split("/")) for shift in STORIES["S2"]["void_by_shift"]
    }
    assert set(under["bay"]) == {"B"}


def test_defect_by_attribute(session: Session) -> None:
    """The lot stands first, with the truth's counts."""
    first = ask_question(session, "defect_by_attribute").row(0, named=True)
    assert (first["name"], first["text_value"]) == ("clip_lot", STORIES["S4"]["lot"])
    assert (first["units"], first["units_with"]) == tuple(STORIES["S4"]["in_lot"].values())


def test_repairs_that_did_not_hold(session: Session) -> None:
    """A repair of the code that a bench calls falsely is followed by the same call most often."""
    first = ask_question(session, "repairs_that_did_not_hold").row(0, named=True)
    assert first["code"] == STORIES["S5"]["code"]
    assert first["share_again"] == first["found_again"] / first["retested_units"]


def test_codes_that_moved(session: Session) -> None:
    """The week after the lot and the nozzle, their codes are down; the drains of opening roofs are up."""
    found = ask_question(session, "codes_that_moved").head(3)
    assert dict(zip(found["code"], found["z"] > 0, strict=True)) == {
        "SR-TAILTRIM": False, "WL-SEAM": False, "WL-DRAIN": True,
    }  # fmt: skip


def test_found_together(session: Session) -> None:
    """A pair's units are those that have both codes."""
    first = ask_question(session, "found_together").row(0, named=True)
    coded = "SELECT vin FROM defect WHERE code = '{}'"
    codes = [coded.format(first[name]) for name in ("code", "other_code")]
    both = f"SELECT count(*) FROM ({' INTERSECT '.join(codes)})"
    assert first["units"] == one(session, both)


def test_unknown_names(session: Session) -> None:
    """A question or a value that is not there is told with those that are."""
    with pytest.raises(UsageError, match="Did you mean rattle_by_lot"):
        question("ratle_by_lot")
    with pytest.raises(UsageError, match=r"no value named lots\n.*part, code, attribute"):
        ask_question(session, "rattle_by_lot", {"lots": 1})


def test_what_is_missing_is_asked_for(demo_plant: DemoResult) -> None:
    """A question that needs other data says which, with its columns."""
    with (
        open_session(demo_plant.folder) as bare,
        pytest.raises(UsageError, match=r"needs field.*vin, reported_at"),
    ):
        ask_question(bare, "field_leaks_by_bay")


def test_files_say_what_they_need() -> None:
    """Each question has a title that says what it answers, and a value for each name in its text."""
    for asked in questions():
        assert asked.title[0].islower()
        assert all(f"${name}" in asked.text for name in asked.values)
    assert len(questions()) >= 14
