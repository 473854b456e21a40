from eol.demo.truth import Truth


def test_odd_files_bring_runs(truth: Truth) -> None:
    """S9: each of them holds some, of the shift it is about."""
    story = truth.stories["S9"]
    assert story["sent_twice"]["runs"] > 80
    assert story["one_hour_on"]["runs"] > 80
    assert story["late"]["shift"] == {"production_date": "2026-09-16", "shift": "night"}
    assert story["renamed"]["shift"] == {"production_date": "2026-09-09", "shift": "day"}
    assert story["nul_tail"]["runs"] > 100
    assert story["by_hand"]["runs"] > 10


def test_units_with_a_fate_are_named(truth: Truth) -> None:
    """S9: by VIN."""
    units = truth.stories["S9"]["units"]
    counts = {name: len(vins) for name, vins in units.items()}
    assert counts == {
        "abort": 9,
        "scrap": 3,
        "hold": 5,
        "bypass_released": 1,
        "bypass_retested": 1,
        "bypass_waits": 1,
        "bypass_shipped": 1,
    }


def test_slow_clock_touched_many_runs(truth: Truth) -> None:
    """S9: four shifts of two places."""
    assert 700 < truth.stories["S9"]["clock_slow"]["runs"] < 900
