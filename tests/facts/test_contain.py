"""How far a fault reaches: the worked example, the stories of the demo, and what cannot be asked."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import builders as b
import plants
import pytest

from eol.demo.build import DemoResult
from eol.errors import UsageError
from eol.facts.contain import SuspectList, suspect_list
from eol.facts.contain_evidence import PASSED, UNTESTED, VOID
from eol.facts.contain_question import ContainQuestion
from eol.facts.reader import Reader
from eol.plant.folder import PlantFolder
from eol.sqlfiles import demo_folder
from eol.store.connect import open_copy

LEAKS = (1034, 1041, 1052)
LEAK = ContainQuestion("LEAK", vins=tuple(plants.vin(f"U{seq}") for seq in LEAKS))


@pytest.fixture(scope="module")
def line(blank_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Reader]:
    """A plant of two hundred units from build 1000 on; three leak, the last ten are not tested yet."""
    plant = plants.made(tmp_path_factory.mktemp("line") / "plant")
    units = [b.unit(f"U{seq}", build_seq=seq, roof="fixed") for seq in range(1000, 1200)]
    runs = [
        row
        for seq in range(1000, 1190)
        for row in (
            b.run(f"U{seq}", "08:00", "fail", "LEAK/RRQ")
            if seq in LEAKS
            else b.run(f"U{seq}", "08:00")
        )
    ]
    events = [b.event(f"U{seq}", "line_off", "07:00") for seq in range(1000, 1200)]
    plants.load(
        plant,
        b.file("units", units),
        b.file("events", [*events, b.event("U1035", "ship", "13:00", place="on the road")]),
        b.file(
            "defect_codes",
            [b.code("LEAK", handling="Dry it."), b.code("BURN", safety_related=True)],
        ),
        b.file("water", runs),
    )
    with open_copy(plant) as copy:
        yield copy


@pytest.fixture(scope="module")
def demo(demo_plant: DemoResult) -> Iterator[Reader]:
    """The demo plant's copy."""
    with open_copy(demo_plant.folder) as copy:
        yield copy


@pytest.fixture(scope="module")
def truth() -> dict[str, Any]:
    """The demo's stories."""
    told: dict[str, Any] = json.loads((demo_folder() / "truth.json").read_text("utf-8"))["stories"]
    return told


def ends(found: SuspectList) -> list[tuple[int | None, int | None, int]]:
    """First and last build sequence and units of each edge."""
    return [(edge.first_seq, edge.last_seq, edge.units) for edge in found.edges]


def test_margin(line: Reader) -> None:
    """Leaks at 1034, 1041 and 1052: p 3/19, a margin of 18, suspect 1016 to 1070, 55 units."""
    found = suspect_list(line, LEAK)
    (edge,) = found.edges
    assert edge.share == pytest.approx(3 / 19)
    assert edge.margin == 18
    assert ends(found) == [(1016, 1070, 55)]
    assert edge.first_reason == edge.last_reason == "margin of 18 units at risk"
    assert dict(found.by_evidence) == {"confirmed": 3, PASSED: 52}


def test_known_change(line: Reader) -> None:
    """With a nozzle change at 1058 that unit is the last suspect one: 43 units."""
    found = suspect_list(line, replace(LEAK, change_after=1058))
    assert ends(found) == [(1016, 1058, 43)]
    assert found.edges[0].last_reason == "known change"


@pytest.mark.parametrize(("sensitivity", "risk"), [(0.95, 0.0093), (0.35, 0.109)])
def test_risk_after_a_pass(line: Reader, sensitivity: float, risk: float) -> None:
    """0.93 % is left where the test finds 95 of 100, 10.9 % where it finds 35."""
    found = suspect_list(line, replace(LEAK, sensitivity=sensitivity))
    risks = {unit.residual_risk for unit in found.units if unit.evidence == PASSED}
    assert list(risks) == [pytest.approx(risk, rel=0.01)]


def test_a_pass_without_a_check_is_not_credited(line: Reader) -> None:
    """No reference check: the risk stays p; words of caution and the place stand beside each unit."""
    found = suspect_list(line, LEAK)
    unit = next(one for one in found.units if one.build_seq == 1035)
    assert unit.residual_risk == pytest.approx(3 / 19)
    assert unit.place == "shipped, on the road"
    assert unit.handling == "Dry it."
    assert "not credited" in found.sensitivity[0]


def test_few_confirmed_units_are_taken_cautiously(line: Reader) -> None:
    """One confirmed unit: the margin rests on the lower bound of its share."""
    found = suspect_list(line, replace(LEAK, vins=LEAK.vins[:1]))
    (edge,) = found.edges
    assert edge.cautious
    assert edge.risk_share is None
    assert (edge.margin, edge.units) == (59, 94)
    assert edge.first_reason == "first unit on record"


def test_untested_units_are_suspect(line: Reader) -> None:
    """Units not yet through the test keep the whole risk."""
    vins = tuple(plants.vin(f"U{seq}") for seq in (1180, 1185))
    found = suspect_list(line, replace(LEAK, vins=vins, change_before=1175))
    untested = [unit for unit in found.units if unit.evidence == UNTESTED]
    assert [unit.build_seq for unit in untested] == list(range(1190, 1200))
    assert {unit.residual_risk for unit in untested} == {found.edges[0].risk_share}
    assert (found.edges[0].risk_share or 0) > 2 / 6


@pytest.mark.parametrize(
    ("question", "match"),
    [
        (ContainQuestion(None), "neither a code nor a bay"),
        (replace(LEAK, sensitivity=2), "between 0 and 1"),
        (replace(LEAK, change_before=1060, change_after=1010), "behind the change after"),
        (replace(LEAK, change_after=1040), "wrong side of the confirmed unit 1052"),
        (replace(LEAK, vins=("NOBODY",)), "no production unit of the span has the VIN NOBODY"),
        (replace(LEAK, where=("bead",)), "is no condition"),
        (replace(LEAK, where=("bead < 4",)), "no unit has an attribute bead"),
        (replace(LEAK, where=("roof < fixed",)), "no number to compare"),
        (replace(LEAK, lot="L"), "has the lot L"),
        (ContainQuestion("LEAK"), "crowd nowhere"),
        (ContainQuestion(None, bay="X1"), "no station"),
    ],
)
def test_what_cannot_be_asked(line: Reader, question: ContainQuestion, match: str) -> None:
    """What is wrong and what there is."""
    with pytest.raises(UsageError, match=match):
        suspect_list(line, question)


def test_nights_of_the_nozzle(demo: Reader, truth: dict[str, Any]) -> None:
    """S1: round each night a margin; every leak of the worn nozzle lies inside, with a place."""
    found = suspect_list(demo, ContainQuestion("WL-SEAM", zone="RR-QTR"))
    assert len(found.edges) == len(truth["S1"]["by_build_shift"])
    assert set(truth["S1"]["vins"]) <= {unit.vin for unit in found.units}
    assert len({unit.vin for unit in found.units}) == len(found.units)
    assert all(unit.place for unit in found.units)


def test_lot(demo: Reader, truth: dict[str, Any]) -> None:
    """S4: all units of the lot, and those of it not yet through the track."""
    found = suspect_list(demo, ContainQuestion("SR-TAILTRIM", lot="C-4471"))
    assert len(found.units) == truth["S4"]["lot_units"]
    untested = sorted(unit.vin for unit in found.units if unit.evidence == UNTESTED)
    assert untested == truth["S4"]["not_on_track"]
    assert found.edges[0].first_reason == "first unit with lot C-4471"


def test_attribute_range(demo: Reader, truth: dict[str, Any]) -> None:
    """S1: all units with a thin bead."""
    found = suspect_list(
        demo, ContainQuestion("WL-SEAM", zone="RR-QTR", where=("sealer_bead < 4.8",))
    )
    assert len(found.units) == truth["S1"]["thin_bead_units"]
    assert set(truth["S1"]["vins"]) <= {unit.vin for unit in found.units}


def test_blind_bay(demo: Reader, truth: dict[str, Any]) -> None:
    """S2: what bay B passed from its last good check to its next; void passes among them."""
    found = suspect_list(demo, ContainQuestion("WL-SEAM", bay="W/B"))
    (edge,) = found.edges
    vins = {unit.vin for unit in found.units}
    assert set(truth["S2"]["suspect_vins"]) <= vins
    assert edge.first_reason.startswith("last good check 2026-09-04")
    assert edge.last_reason.startswith("next good check 2026-09-15")
    void = {unit.vin for unit in found.units if unit.evidence == VOID}
    assert set(truth["S2"]["void_escapes"]) <= void
