"""The languages of applies_when (rule 10) and defect_when (rule 8)."""

import pytest

from eol.plant.clauses import Clause, Comparison, parse_applies_when, parse_defect_when


def test_clauses_are_numbered_and_their_values_listed() -> None:
    """All clauses must hold, one value of each will do."""
    assert parse_applies_when("roof=opening & model=WAG|VAN") == (
        Clause(1, "roof", ("opening",)),
        Clause(2, "model", ("WAG", "VAN")),
    )


def test_an_empty_applies_when_is_for_every_unit() -> None:
    """No clause leaves no unit out."""
    assert parse_applies_when("") == parse_applies_when("  ") == ()


def test_a_value_in_quotes_may_hold_signs() -> None:
    """Quotes keep & and | of a value out of the language."""
    assert parse_applies_when('trim="S & R"|"a|b" & drive=electric') == (
        Clause(1, "trim", ("S & R", "a|b")),
        Clause(2, "drive", ("electric",)),
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("roof", "'roof' is no clause; write name=value"),
        ("=opening", "'=opening' is no clause"),
        ("roof=", "'roof=' has no value"),
        ("roof=a|", "'roof=a|' has no value"),
        ("roof=a & ", "'' is no clause"),
        ("roof!=a", "'roof!=a' is no clause"),
        ("roof==a", "'roof==a' has a stray ="),
        ("roof=a & roof=b", "names roof twice; put its values into one clause, roof=a|b"),
    ],
)
def test_a_wrong_applies_when_says_what_is_wrong(text: str, words: str) -> None:
    """The sentence names the clause and how one is written."""
    with pytest.raises(ValueError) as caught:  # noqa: PT011
        parse_applies_when(text)
    assert words in str(caught.value)


def test_comparisons_hold_a_number_or_a_text() -> None:
    """Rating and quantity are numbers, the other fields of a finding are texts."""
    assert parse_defect_when("rating <= 6 & severity != D & code = 007") == (
        Comparison("rating", "<=", 6.0, None),
        Comparison("severity", "!=", None, "D"),
        Comparison("code", "=", None, "007"),
    )


@pytest.mark.parametrize("sign", ["<=", "<", ">=", ">", "=", "!="])
def test_every_comparison_needs_no_blanks(sign: str) -> None:
    """The longest sign is read, with or without blanks."""
    assert parse_defect_when(f"quantity{sign}2.5") == (Comparison("quantity", sign, 2.5, None),)


def test_an_empty_defect_when_makes_every_finding_a_defect() -> None:
    """No comparison leaves no finding out."""
    assert parse_defect_when("") == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("rating", "'rating' is no comparison; write one such as rating <= 6"),
        ("rating <= six", "compares rating with 'six', which is no number"),
        ("rating <= nan", "which is no number"),
        ("rating <=", "'rating <=' has no value"),
        ("severity <= B", "compares severity by <=; a text is compared by = or != alone"),
        (
            "ratng <= 6",
            "compares ratng, which a finding does not have; the nearest right one is rating",
        ),
        ("colour = red", "it has rating, quantity, severity, code, zone, step"),
        ("severity = A|B", "has a stray |"),
        ("rating <= 6 &", "'' is no comparison"),
    ],
)
def test_a_wrong_defect_when_says_what_is_wrong(text: str, words: str) -> None:
    """The sentence names the comparison and what is right."""
    with pytest.raises(ValueError) as caught:  # noqa: PT011
        parse_defect_when(text)
    assert words in str(caught.value)
