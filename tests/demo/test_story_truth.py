from typing import Any

import pytest

from eol.demo.truth import Truth


def per_hundred(counts: dict[str, int]) -> float:
    """Defects per hundred units."""
    return 100 * counts["defects"] / counts["units"]


def test_nozzle(truth: Truth) -> None:
    """S1: about 43 of 785 units of R07, none of 815 of R08, and within the nights of days 9 to 12."""
    story = truth.stories["S1"]
    assert story["R07"]["units"] == pytest.approx(785, abs=5)
    assert story["R07"]["defects"] == pytest.approx(43, abs=6)
    assert story["R08"]["units"] == pytest.approx(815, abs=5)
    assert story["R08"]["defects"] == 0
    assert 106_801 <= story["leaking_seq"][0] <= story["leaking_seq"][1] <= 109_600
    assert all(key.endswith("/night") for key in story["by_build_shift"])


def test_blind_bay(truth: Truth) -> None:
    """S2: some 540 void passes, 1,011 of 1,022 passes before them, every check of those days missed."""
    story = truth.stories["S2"]
    assert story["void_passes"] == pytest.approx(540, abs=20)
    assert next(iter(story["void_by_shift"])) == "2026-09-11/day"
    assert story["slipping"]["tested"] == pytest.approx(1_022, rel=0.06)
    assert story["slipping"]["passed"] == pytest.approx(1_011, rel=0.06)
    assert story["missed_checks"] == 8
    assert len(story["suspect_vins"]) == story["slipping"]["passed"]


def test_blind_bay_passes_far_more_than_the_others(truth: Truth) -> None:
    """S2: too good to be true: the bay fails less than half of what its neighbours fail."""
    story = truth.stories["S2"]
    bay, others = story["slipping"], story["slipping_others"]
    failing = [1 - counts["passed"] / counts["tested"] for counts in (bay, others)]
    assert failing[0] < 0.5 * failing[1]


def test_blind_bay_units_shipped_are_escapes(truth: Truth) -> None:
    """S2: void passes beyond reach escaped; all others were called back."""
    story = truth.stories["S2"]
    escaped = {one.vin for one in truth.escapes if one.reason == "void"}
    assert escaped == set(story["void_escapes"])
    assert 90 < len(escaped) < 140
    assert story["recalled"] > 380


def test_mirror_worked(truth: Truth) -> None:
    """S3a: 1.8 per hundred before sequence 106401, 0.3 from there on."""
    story = truth.stories["S3a"]
    assert story["from_build_seq"] == 106_401
    assert per_hundred(story["before"]) == pytest.approx(1.8, abs=0.1)
    assert per_hundred(story["after"]) == pytest.approx(0.3, abs=0.05)


def test_felt_tape_did_not(truth: Truth) -> None:
    """S3b: with the bad shift kept out the ratio is about 1.14; from that shift alone it looks a third."""
    story = truth.stories["S3b"]
    assert story["ratio"] == pytest.approx(1.14, abs=0.06)
    assert story["trigger_tested"] == {"units": pytest.approx(400, abs=5), "defects": 12}
    assert per_hundred(story["after"]) < 0.5 * per_hundred(story["trigger_tested"])


def test_clip_lot(truth: Truth) -> None:
    """S4: 73 of 1,105 of the lot against 15 of 2,095, and three of the lot not yet on the track."""
    story = truth.stories["S4"]
    assert story["in_lot"]["units"] == pytest.approx(1_105, abs=5)
    assert story["in_lot"]["defects"] == pytest.approx(73, abs=3)
    assert story["other_lots"]["defects"] == pytest.approx(15, abs=2)
    assert per_hundred(story["in_lot"]) / per_hundred(story["other_lots"]) == pytest.approx(
        9.2, abs=1
    )
    assert len(story["not_on_track"]) == 3


def test_false_bench(truth: Truth) -> None:
    """S5: 4.3 % against 0.7 %, and four in five clear elsewhere without repair."""
    story = truth.stories["S5"]
    assert per_hundred(story["here"]) == pytest.approx(4.3, abs=0.5)
    assert per_hundred(story["elsewhere"]) == pytest.approx(0.7, abs=0.1)
    assert story["cleared_without_repair"] / story["cleared"] == pytest.approx(0.8, abs=0.05)


def test_evaluator(truth: Truth) -> None:
    """S6: E17 calls about 2.3 times what the others call, and nobody else stands out."""
    operators: dict[str, dict[str, Any]] = dict(truth.stories["S6"]["operators"])
    keen = per_hundred(operators.pop("E17"))
    others = {name: sum(one[name] for one in operators.values()) for name in ("units", "defects")}
    assert keen / per_hundred(others) == pytest.approx(2.3, abs=0.3)
    assert max(per_hundred(one) for one in operators.values()) < 1.5 * per_hundred(others)


def test_roof_mix(truth: Truth) -> None:
    """S7: opening roofs go from 19 to 52 %, drain leaks of those at risk stay at 2 per hundred."""
    story = truth.stories["S7"]
    before, after = story["before"], story["after"]
    assert before["opening"] / before["units"] == pytest.approx(0.19, abs=0.015)
    assert after["opening"] / after["units"] == pytest.approx(0.52, abs=0.02)
    rates = [100 * part["defects"] / part["opening"] for part in (before, after)]
    assert rates == [pytest.approx(2.0, abs=0.3)] * 2
    assert after["defects"] / after["units"] > 2 * before["defects"] / before["units"]


def test_glass_leads_one_shift(truth: Truth) -> None:
    """S8: glass is first in the shift, with a count that chance gives."""
    defects = dict(truth.stories["S8"]["glass"]["defects"])
    assert defects.pop("WL-GLASS") == 6
    assert max(defects.values()) < 6


def test_lot_goes_with_the_leaks_by_time_alone(truth: Truth) -> None:
    """S8: over the whole record the lot leaks more; within the nights both shared it does not."""
    story = truth.stories["S8"]["lot_by_time"]
    assert per_hundred(story["in_lot"]) > 2 * per_hundred(story["others"])
    within = story["same_nights"]
    assert 0.6 < per_hundred(within["in_lot"]) / per_hundred(within["others"]) < 1.6
