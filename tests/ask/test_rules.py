"""The counting rules as text."""

from __future__ import annotations

from eol.ask.rules import counting_rules, rules_cited


def test_rules_are_those_of_the_document() -> None:
    """All eighteen, by number, each with its first words and its text whole."""
    rules = counting_rules()
    assert list(rules) == list(range(1, 19))
    assert rules[7].title == "Attempt"
    assert rules[7].text.startswith("Attempt numbers the counted runs")
    assert rules[1].text.endswith("(only `loaded_at` and a file's counts differ).")


def test_numbers_cited() -> None:
    """One rule, several, and none."""
    assert rules_cited("day of the run's shift (rule 3).") == (3,)
    assert rules_cited("of production units (rules 9, 11, 13, 16)") == (9, 11, 13, 16)
    assert rules_cited("the unit.") == ()
