"""The counting rules by number, as DEVELOPERS.md states them; it lies beside the package or inside it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

_RULE = re.compile(r"^(\d+)\. \*\*(.+?)\*\*(.*)$", re.MULTILINE)
_CITED = re.compile(r"\brules? (\d+(?:(?:, | and |, and )\d+)*)")


@dataclass(frozen=True, slots=True)
class Rule:
    """A counting rule: its number, its first words and its text whole."""

    number: int
    title: str
    text: str


@cache
def counting_rules() -> dict[int, Rule]:
    """Return the counting rules by their numbers."""
    text = _file().read_text(encoding="utf-8")
    found = (
        Rule(int(n), title.rstrip("."), title + rest) for n, title, rest in _RULE.findall(text)
    )
    return {rule.number: rule for rule in found}


def rules_cited(comment: str) -> tuple[int, ...]:
    """Return the numbers of the rules that a comment cites, in order.

    Example:
        >>> rules_cited("units of production (rules 9, 13 and 16); see rule 3")
        (9, 13, 16, 3)
    """
    numbers = [n for cited in _CITED.findall(comment) for n in re.findall(r"\d+", cited)]
    return tuple(dict.fromkeys(int(n) for n in numbers))


def _file() -> Path:
    inside = Path(__file__).parent.parent / "DEVELOPERS.md"
    return inside if inside.is_file() else Path(__file__).parent.parent.parent / "DEVELOPERS.md"
