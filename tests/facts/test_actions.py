"""Did the actions work: the demo's stories, the worked figures, sides by build sequence, and edges in words."""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta

import builders as b
import plants
import pytest

from eol.demo.build import DemoResult
from eol.facts.action_sides import Side
from eol.facts.action_words import answer_rows, ratio_words, record, sentences, verdict_words
from eol.facts.actions import Action, action_facts
from eol.sqlfiles import demo_folder
from eol.statistics.effect import judge_action
from eol.store.connect import open_copy

EARLIER = b.TUESDAY - timedelta(days=6)


@pytest.fixture(scope="module")
def demo(demo_plant: DemoResult) -> dict[str, Action]:
    """The actions of the demo plant by their id."""
    with open_copy(demo_plant.folder) as copy:
        return {action.action_id: action for action in action_facts(copy)}


def story(name: str) -> dict[str, object]:
    """What the generator knows of a story."""
    told = json.loads((demo_folder() / "truth.json").read_text("utf-8"))
    found: dict[str, object] = told["stories"][name]
    return found


def test_connector_worked(demo: dict[str, Action]) -> None:
    """S3a: from 1.8 to 0.3 per hundred, `fewer`, and it has not come back."""
    action, truth = demo["CM-01"], story("S3a")
    after = truth["after"]
    assert (action.verdict, action.came_back) == ("fewer", None)
    assert isinstance(after, dict)
    assert (action.after.units, action.after.with_code) == (after["units"], after["defects"])
    assert action.effect.ratio == pytest.approx(truth["ratio"], abs=0.02)
    assert 100 * (action.baseline.used.share or 0) == pytest.approx(1.8, abs=0.1)


def test_felt_tape_did_not(demo: dict[str, Action]) -> None:
    """S3b: with the shift that triggered it kept out nothing has changed, and the words say why it seems so."""
    action, truth = demo["CM-02"], story("S3b")
    assert action.verdict == "no clear change"
    assert action.effect.ratio == pytest.approx(truth["ratio"], abs=0.05)
    assert "2026-09-07/night" in [one.name for one in action.baseline.kept_out]
    words = " ".join(sentences(action))
    assert "Against 2026-09-07/night alone (12 of 400) it would seem to work: 0.37" in words
    assert "picked for being bad falls back by itself" in words


def test_decoys_have_no_action(demo: dict[str, Action]) -> None:
    """S8: the glass leak that led one shift is in no row."""
    assert {action.code for action in demo.values()} == {"EL-MIRROR", "SR-CREAK", "WL-DOOR"}


def test_adjusted_for_what_comes_back_by_itself(demo: dict[str, Action]) -> None:
    """Beside the exact ratio stands Hauer's, near to it where the baseline is long."""
    action = demo["CM-01"]
    assert action.shrunk is not None
    assert action.shrunk.ratio == pytest.approx(action.effect.ratio, abs=0.02)
    assert action.shrunk.weight < 0.2


def test_page_of_an_earlier_shift_knows_no_later_units(demo_plant: DemoResult) -> None:
    """Until a moment only what was tested and opened before it counts."""
    until = b.at("02:30", date(2026, 9, 12))
    with open_copy(demo_plant.folder) as copy:
        found = {action.action_id: action for action in action_facts(copy, until=until)}
    assert set(found) == {"CM-01", "CM-02"}
    assert found["CM-01"].after.units < 2_000


@pytest.mark.parametrize(
    ("after", "before", "words", "ratio"),
    [
        ((24, 9600), (108, 6400), "fewer", "0.15 (0.09–0.23)"),
        ((142, 8800), (108, 7200), "no clear change", "1.08 (0.83–1.39)"),
        ((0, 0), (0, 0), "no baseline", "–"),
        ((0, 300), (0, 900), "too early", "– (0.00–no bound)"),
    ],
)
def test_worked_figures(
    after: tuple[int, int], before: tuple[int, int], words: str, ratio: str
) -> None:
    """Ratio, interval and verdict of the worked figures, and of sides without a defect or a unit."""
    effect = judge_action(after, before)
    assert (effect.verdict, ratio_words(effect)) == (words, ratio)


def action(name: str, code: str, **fields: object) -> b.Row:
    """A row of the register."""
    return {"action_id": name, "test": "water", "code": code} | fields


ROWS = [
    action("apart", "LEAK", from_build_seq=5, cut_in_at=b.at("07:30")),
    action("by-time", "HISS", cut_in_at=b.at("07:30")),
    action("first", "DRIP", from_build_seq=2),
    action("second", "DRIP", from_build_seq=3),
    action("third", "DRIP", from_build_seq=7),
    action("safety", "SPARK", from_build_seq=4, opened_on=EARLIER - timedelta(days=1)),
    action("waits", "WIND", opened_on=EARLIER, due_on=b.TUESDAY),
    action("no-unit", "SHORT", test="electrical", from_build_seq=4, expected_ratio=1.5),
]
EARLY, LATE = ["06:10", "06:20", "06:30"], ["07:10", "07:20", "07:40", "07:50", "14:10"]


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Action]:
    """Actions on three units of one day and five of another, the first and fourth of them with all codes."""
    folder = plants.made(tmp_path_factory.mktemp("actions") / "plant")
    clocks = [b.at(clock, EARLIER) for clock in EARLY] + [b.at(clock) for clock in LATE]
    codes = ("LEAK", "HISS", "DRIP", "SPARK")
    runs = [
        b.run(
            f"U{seq}",
            left + timedelta(hours=1),
            *(("fail", *codes) if seq in (1, 4) else ("pass",)),
        )
        for seq, left in enumerate(clocks, start=1)
    ]
    sent = [b.unit(f"U{n}", build_seq=n, line_off_at=at) for n, at in enumerate(clocks, start=1)]
    catalogue = [b.code(code, safety_related=code == "SPARK") for code in (*codes, "WIND", "SHORT")]
    plants.load(
        folder,
        b.file("units", sent),
        b.file("water", [row for run in runs for row in run]),
        b.file("defect_codes", catalogue),
        b.file("countermeasures", ROWS),
    )
    with open_copy(folder) as copy:
        return {one.action_id: one for one in action_facts(copy)}


def counted(action: Action) -> tuple[Side, Side, Side]:
    """The three sides of an action."""
    return action.baseline.used, action.transition, action.after


@pytest.mark.slow
def test_units_between_are_apart(small: dict[str, Action]) -> None:
    """A unit whose place in the build order and whose time off the line disagree is on neither side."""
    assert counted(small["apart"]) == (Side(3, 1), Side(1, 0), Side(3, 0))
    assert "Apart: 0 of 1 built while it cut in." in sentences(small["apart"])


def test_trigger_is_kept_out_where_it_was_not_told(small: dict[str, Action]) -> None:
    """Without a day of opening the day of the first units after it is kept out of the baseline."""
    assert [one.side for one in small["apart"].baseline.kept_out] == [Side(1, 1)]


def test_time_alone_leaves_the_rest_of_its_shift_apart(small: dict[str, Action]) -> None:
    """Without a build sequence what left the line later in the shift of the cut-in is on neither side."""
    assert counted(small["by-time"]) == (Side(3, 1), Side(2, 0), Side(1, 0))


def test_actions_on_one_code_bound_each_other(small: dict[str, Action]) -> None:
    """The baseline reaches back to the last action, and `after` up to the next one."""
    assert [small[name].after.units for name in ("first", "second", "third")] == [1, 4, 2]
    assert counted(small["third"])[0] == Side(1, 0)
    assert small["second"].verdict == "no baseline"
    assert "No unit before it counts" in sentences(small["second"])[0]


def test_not_cut_in_yet(small: dict[str, Action]) -> None:
    """An action without a first unit has no figures; past its day it is told."""
    found = small["waits"]
    assert verdict_words(found) == "not cut in yet"
    assert sentences(found) == ()
    assert sentences(found, day=b.TUESDAY + timedelta(days=1)) == (
        "It was due on 2026-09-08 and has not cut in.",
    )
    assert answer_rows((found,)) == ()


def test_no_unit_at_all_is_said_in_words(small: dict[str, Action]) -> None:
    """An action in a test that never ran is no error; a ratio that cannot be hoped for is the usual one."""
    found = small["no-unit"]
    assert (verdict_words(found), found.expected_ratio) == ("no baseline", 0.5)
    assert found.shrunk is None


def test_safety_code_has_a_bound_and_no_release(small: dict[str, Action]) -> None:
    """What the units after still allow is told beside the verdict; nothing is cleared by it."""
    assert verdict_words(small["safety"]).endswith("; 1 in 5, at most 1 in 2")
    assert sentences(small["safety"])[-1] == (
        "Safety-related: no rate clears a unit; each with a finding needs a release."
    )


def test_records_and_rows_of_any_action(small: dict[str, Action]) -> None:
    """Each action can be printed as JSON and written as answers, whatever it lacks."""
    told = json.dumps([record(one) for one in small.values()], default=str)
    assert "NaN" not in told
    assert {row.subject for row in answer_rows(small.values())} == set(small) - {"waits"}


def test_answer_rows_carry_interval_and_method(demo: dict[str, Action]) -> None:
    """Each verdict is a row with n, ends, words and method; the adjusted ratio and what is mix are others."""
    rows = [row for row in answer_rows(demo.values()) if row.subject == "CM-01"]
    assert [row.name for row in rows] == ["verdict", "shrunk_ratio", "difference", "mix", "process"]
    difference, mix, process = (row.value for row in rows[2:])
    assert difference == pytest.approx((mix or 0) + (process or 0))
    assert (rows[0].words, rows[0].n) == ("fewer", 9585)
    assert rows[0].low is not None
    assert isinstance(demo["CM-01"].cut_in_at, datetime)
