import re

from eol.demo.catalogue import CODES, TESTS, ZONES

CELL = re.compile(r"(front|mid|rear)-(left|centre|right)-(low|mid|high)")


def test_each_code_names_places_and_steps_that_exist() -> None:
    """Zones are those of the catalogue, steps those of the code's test."""
    zones = {zone for zone, *_ in ZONES}
    steps = {test.name: set(test.steps) for test in TESTS}
    for code in CODES:
        assert set(code.places) <= zones
        assert code.test is None or set(code.steps) <= steps[code.test]


def test_safety_codes_carry_words_of_caution() -> None:
    """Codes of the gravest class tell how such a unit is handled."""
    assert {code.code for code in CODES if code.handling} == {"EL-ISO", "EL-BELT"}
    assert all(bool(code.handling) == (code.severity == "A") for code in CODES)


def test_zones_lie_on_the_map() -> None:
    """24 zones with a cell and a polygon within 100 by 40, left side at 40."""
    assert len(ZONES) == 24
    for zone, _, cell, outline, _ in ZONES:
        assert CELL.fullmatch(cell), zone
        points = [tuple(map(float, pair.split(","))) for pair in outline.split()]
        assert all(0 <= x <= 100 and 0 <= y <= 40 for x, y in points)
        middle = sum(y for _, y in points) / len(points)
        assert ("left" in cell, "right" in cell) == (middle > 25, middle < 15), zone


def test_about_twenty_codes_in_four_tests() -> None:
    """And one of the bench itself."""
    assert len(CODES) == 21
    assert [code.code for code in CODES if code.owner_area == "equipment"] == ["BENCH_COMM"]
