import json
from pathlib import Path

import pytest
from demo_recount import recount

from eol.demo.truth import Truth


@pytest.mark.slow
def test_figures_equal_a_recount_of_the_files(truth: Truth, committed: Path) -> None:
    """Counted as it happened and counted again from the files: the same, shift by shift."""
    told = {
        (shift["production_date"], shift["shift"], test): (
            figures["tested"],
            figures["passed_first"],
            figures["defects"],
        )
        for shift in truth.shifts
        for test, figures in shift["tests"].items()
    }
    assert recount(committed) == told


def test_line_passes_about_nine_in_ten(truth: Truth) -> None:
    """Line FTT is about 90 %, electrical 96.5, track 96.0; water 92.8 to 99.3 but for two shifts."""
    went = sum(shift["line"]["went_through"] for shift in truth.shifts)
    failed = sum(shift["line"]["failed_one"] for shift in truth.shifts)
    assert 0.88 < went / (went + failed) < 0.92
    assert 0.955 < share_passed(truth, "electrical") < 0.975
    assert 0.955 < share_passed(truth, "squeak_rattle") < 0.97
    assert 0.955 < share_passed(truth, "water") < 0.98


def share_passed(truth: Truth, test: str) -> float:
    """FTT of a test over the whole record."""
    figures = [shift["tests"][test] for shift in truth.shifts]
    return sum(one["passed_first"] for one in figures) / sum(one["tested"] for one in figures)


def test_every_cohort_has_400_units(truth: Truth) -> None:
    """Each shift builds 400 units, and each of them is in just one state."""
    for shift in truth.shifts:
        line = shift["line"]
        assert line["built"] == 400
        assert line["went_through"] + line["failed_one"] + line["undecided"] == 400


def test_telling_shift_has_several_stories(truth: Truth) -> None:
    """In the most telling shift the bay is blind, the seams leak and the clips rattle."""
    key = "{production_date}/{shift}".format(**truth.telling_shift)
    assert key == "2026-09-14/night"
    assert truth.stories["S2"]["void_by_shift"][key] > 100
    assert truth.stories["S1"]["by_test_shift"][key] > 10


def test_record_has_the_size_it_should(truth: Truth) -> None:
    """16,000 units, some 66,000 runs, 1,700 to 2,100 findings."""
    assert truth.record["units"]["production"] == 16_000
    assert 66_000 < sum(truth.record["runs"].values()) < 67_500
    assert 1_600 < truth.record["findings"] < 2_200


def test_json_holds_all_of_it(truth: Truth, committed: Path) -> None:
    """truth.json is the whole truth, in plain JSON."""
    held = json.loads((committed / "truth.json").read_text(encoding="utf-8"))
    assert held == json.loads(truth.as_json())
