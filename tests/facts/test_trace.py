"""Where a defect comes from: the stories of the demo are named, its decoys are not, and edges are words."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import builders as b
import plants
import pytest
from made_trace import GUILTY, traced_plant

from eol.demo.build import DemoResult
from eol.demo.plan import UNITS_PER_SHIFT
from eol.demo.senses import KEEN_EVALUATOR
from eol.demo.units import FIRST_SEQ
from eol.errors import UsageError
from eol.facts.trace import trace_code
from eol.facts.trace_causes import Factor
from eol.facts.trace_result import Trace
from eol.facts.trace_words import sentences
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.sqlfiles import demo_folder
from eol.store.connect import open_copy, open_read_only

Ask = Callable[..., Trace]


@pytest.fixture(scope="module")
def ask(demo_plant: DemoResult) -> Iterator[Ask]:
    """Trace a code of the demo plant; each question is asked once."""
    told: dict[Any, Trace] = {}
    with open_copy(demo_plant.folder) as copy:

        def once(code: str, **more: Any) -> Trace:
            key = (code, *sorted(more.items()))
            return told.setdefault(key, told.get(key) or trace_code(copy, code, **more))

        yield once


def factor(trace: Trace, name: str) -> Factor:
    """A factor by its name."""
    return next(one for one in trace.factors if one.name == name)


def named(trace: Trace) -> set[str]:
    """The factors that may be named."""
    return {one.name for cause in trace.causes for one in cause.factors}


def test_nozzle_cell_and_bead(ask: Ask) -> None:
    """S1: cell R07, not R08, and the thin bead: one cause, which explains the leaks of those nights."""
    trace = ask("WL-SEAM", zone="RR-QTR")
    (cause,) = trace.causes
    assert {one.name for one in cause.factors} >= {"sealer robot", "sealer bead"}
    assert factor(trace, "sealer robot").level == "R07"
    assert factor(trace, "sealer robot").more
    low, high = (
        factor(trace, "sealer bead").level.split()[0],
        factor(trace, "sealer bead").level.split()[2],
    )
    assert low == "up"
    assert 4.6 <= float(high) <= 4.8
    assert trace.start is not None
    assert trace.start.startswith("sealer robot R07, sealer bead up to 4.7")
    assert "against 0 of" in trace.start


def test_nozzle_nights(ask: Ask) -> None:
    """S1: first and last affected unit of each night lie within 60 units of the truth."""
    story = json.loads((demo_folder() / "truth.json").read_text("utf-8"))["stories"]["S1"]
    nights: dict[int, list[int]] = {}
    for seq in sorted(int(vin[-6:]) for vin in story["vins"]):
        nights.setdefault((seq - FIRST_SEQ) // UNITS_PER_SHIFT, []).append(seq)
    stretches = ask("WL-SEAM", zone="RR-QTR").orders[0].stretches
    found = [(span.first.build_seq or 0, span.last.build_seq or 0) for span in stretches]
    assert [span.first.shift for span in stretches] == list(story["by_build_shift"])
    for (first, last), night in zip(found, nights.values(), strict=True):
        assert abs(first - night[0]) <= 60
        assert abs(last - night[-1]) <= 60


def test_nights_are_no_cause(ask: Ask) -> None:
    """S1: shift and crew go with the leaks, cannot be compared within a shift, and are not named."""
    trace = ask("WL-SEAM", zone="RR-QTR")
    night = factor(trace, "shift of the line")
    assert (night.level, night.verdict, night.within_p) == ("night", "not to be told", None)
    assert not any("shift" in name or "crew" in name for name in named(trace))
    assert "night" not in (trace.start or "")


def test_lot_by_time_alone_is_no_cause(ask: Ask) -> None:
    """S8: the clip lot is plain when taken crudely, nothing within shift and model, and not named."""
    trace = ask("WL-SEAM", zone="RR-QTR")
    lots = factor(trace, "clip lot")
    bad = next(level for level in lots.levels if level.level == "C-4471")
    assert lots.crude_p < 0.01
    assert bad.crude_p < 0.01
    assert (lots.within_p or 0) > 0.05
    assert (bad.within_p or 0) > 0.05
    assert lots.verdict == "time alone"
    assert "clip lot" not in named(trace)


def test_lot_and_element(ask: Ask) -> None:
    """S4: the lot C-4471 and the element joints, about 73 of 1,105 against 15 of 2,095."""
    trace = ask("SR-TAILTRIM")
    assert named(trace) == {"clip lot"}
    assert factor(trace, "clip lot").level == "C-4471"
    assert 6 < (factor(trace, "clip lot").odds_ratio or 0) < 15
    assert [step.name for step in trace.steps] == ["joints"]
    assert (trace.start or "").startswith("clip lot C-4471, on joints: 73 of 1,10")


def test_false_bench(ask: Ask) -> None:
    """S5: bench E2-2, and nothing else."""
    trace = ask("EL-CHARGE")
    assert named(trace) == {"station"}
    assert (trace.start or "").startswith("station E2-2")


def test_evaluator_without_figures_about_persons(ask: Ask) -> None:
    """S6: without them only that one evaluator differs; no pseudonym is in the answer (rule 18)."""
    trace = ask("SR-CREAK")
    assert trace.evaluator_differs
    assert trace.causes == ()
    assert "p-" not in str([one.levels for one in trace.factors])
    assert any("One evaluator" in sentence for sentence in sentences(trace))


def test_evaluator_with_figures_about_persons(ask: Ask, demo_plant: DemoResult) -> None:
    """S6: with them the keen one as a pseudonym; never in the line that a page prints (rule 18)."""
    trace = ask("SR-CREAK", persons=True)
    key = read_pseudonym_key(demo_plant.folder.pseudonym_key)
    assert factor(trace, "evaluator").level == pseudonym(key, KEEN_EVALUATOR)
    assert named(trace) == {"evaluator"}
    assert trace.start is None


def test_an_attribute_that_every_unit_has(ask: Ask) -> None:
    """S7: only opening roofs can have the code: the roof is the same on all, and nothing is named."""
    trace = ask("WL-DRAIN")
    assert "roof" in trace.same
    assert trace.causes == ()
    assert trace.units < 6000


@pytest.mark.slow
@pytest.mark.parametrize("code", ["SR-SEAT", "AL-TOE", "EL-MIRROR", "EL-CAM", "WL-DOOR", "SR-POST"])
def test_quiet_codes_have_no_cause(ask: Ask, code: str) -> None:
    """S8 and what no story planted: no cause."""
    assert ask(code).causes == ()


def test_a_shift_that_glass_leads_has_no_cause(ask: Ask) -> None:
    """S8: chance lets glass lead one shift: no cause, and no stretch."""
    trace = ask("WL-GLASS")
    assert (trace.causes, trace.start) == ((), None)
    assert not any(order.crowds for order in trace.orders)


def test_one_shift(ask: Ask) -> None:
    """A span of shifts bounds the units by when they were tested."""
    trace = ask("WL-SEAM", since="2026-09-14/night", until="2026-09-14/night")
    assert trace.units < 400
    assert "sealer robot" in named(trace)


def test_zone_without_the_code(ask: Ask) -> None:
    """Zero counts: a sentence, no factor and no cause."""
    trace = ask("EL-MIRROR", zone="TAIL")
    assert (trace.defects, trace.factors, trace.start) == (0, (), None)
    assert "nothing to compare" in sentences(trace)[0]


@pytest.mark.parametrize(
    ("code", "more", "match"),
    [
        ("WL-SEM", {}, "Nearest: WL-SEAM"),
        ("WL-SEAM", {"zone": "ROOFF"}, "no zone is named ROOFF"),
        ("WL-SEAM", {"test": "electrical"}, "is none of the test electrical"),
        ("WL-SEAM", {"since": "2026-09-15/day", "until": "2026-09-14/day"}, "empty"),
        ("BENCH_COMM", {}, "fault of the bench"),
    ],
)
def test_what_cannot_be_asked(ask: Ask, code: str, more: dict[str, str], match: str) -> None:
    """A wrong code, zone, test or span: what is wrong and what there is."""
    with pytest.raises(UsageError, match=match):
        ask(code, **more)


@pytest.mark.slow
def test_many_attributes(tmp_path: Path) -> None:
    """One value of one of forty attributes of twenty thousand units: that one is named, and no other."""
    traced_plant(tmp_path / "plant.duckdb", attributes=40, units=20_000, share=0.002)
    with open_read_only(tmp_path / "plant.duckdb") as copy:
        trace = trace_code(copy, "LEAK")
    (cause,) = trace.causes
    assert (cause.lead.name, cause.lead.level) == GUILTY


def test_small_plant(small_plant: PlantFolder) -> None:
    """One unit with the defect among three: words, no exception."""
    with open_copy(small_plant) as copy:
        trace = trace_code(copy, "LEAK")
    assert trace.causes == ()
    assert sentences(trace)


def test_every_unit_has_it(folder: PlantFolder) -> None:
    """All failed: there is no unit to compare with."""
    units = [b.unit(vin, build_seq=n) for n, vin in enumerate(["U1", "U2"])]
    runs = [row for vin in ("U1", "U2") for row in b.run(vin, "08:00", "fail", "LEAK/RRQ")]
    plants.load(folder, b.file("units", units), b.file("water", runs))
    with open_copy(folder) as copy:
        trace = trace_code(copy, "LEAK")
    assert (trace.units, trace.defects, trace.factors) == (2, 2, ())
    assert "Every unit had it" in sentences(trace)[0]
