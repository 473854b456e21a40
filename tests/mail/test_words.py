"""The words of a report's mail, made by rule: a loud shift, a quiet one, one whose line is not known yet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_shift import empty_shift, loud_shift, quiet_shift

from eol.facts.shift import ShiftFacts
from eol.facts.strip import Figure
from eol.mail.words import picture_words, preheader, subject, tag
from eol.report.needs_a_look import Look, needs_a_look
from eol.report.panels import Panel


def news(facts: ShiftFacts) -> str:
    """The subject of a shift's mail."""
    return subject(facts, needs_a_look(facts))


def test_subject_tells_the_news() -> None:
    """Tag, shift, figure with its target, escapes and safety-related findings."""
    told = (
        "[stop] Final line Fri 18 Sep day: line FTT 82.2% (target 90%), 1 escape, 1 safety-related"
    )
    assert news(loud_shift()) == told


def test_quiet_subject() -> None:
    """A quiet shift says so."""
    assert news(quiet_shift()).startswith("[quiet] Final line Fri 18 Sep day: line FTT 88.8%")
    assert news(empty_shift()).endswith("no unit tested")


def test_subject_before_the_line_is_known() -> None:
    """While more than 5 % of the cohort are undecided, the lowest test speaks (rule 11)."""
    shift = quiet_shift()
    facts = replace(shift, strip=replace(shift.strip, line_ftt=Figure(None)))
    assert "squeak and rattle track FTT 94.0%" in news(facts)


def test_escapes_of_before() -> None:
    """Escapes that are open from before are told as such."""
    shift = loud_shift()
    before = tuple(replace(one, in_shift=False) for one in shift.escapes)
    assert "1 escape open" in news(replace(shift, escapes=before))


@pytest.mark.parametrize(
    ("kinds", "expected"),
    [
        (["data", "stop"], "stop"),
        (["look"], "look"),
        (["ask"], "look"),
        (["quiet"], "quiet"),
        ([], "quiet"),
    ],
)
def test_tag_is_the_gravest(kinds: list[str], expected: str) -> None:
    """Three tags: what asks or lacks data wants a look."""
    assert tag([Look(kind, 1, "", "", "") for kind in kinds]) == expected


def test_preheader_is_cut_at_a_word() -> None:
    """Beside the subject stand the first lines, no longer than a list of mails shows."""
    words = preheader(needs_a_look(loud_shift()))
    assert words.startswith("1 escape. 0ZZKW1AB7T0100214")
    assert len(words) <= 162


@pytest.mark.parametrize(
    ("place", "number"),
    [
        ("p-ftt", "Water test 92.0%, 368 of 400, usual"),
        ("p-pareto", "Leak, rear quarter seam 19, usual 0 to 6"),
        ("p-zones", "Rear quarter, right 19"),
        ("p-bays", "W1 B Water test 111 of 136 passed, fewer than its neighbours"),
    ],
)
def test_picture_in_words_has_its_numbers(place: str, number: str) -> None:
    """Where pictures are blocked, their words carry the numbers."""
    panel = Panel(place, "The finding", "How to read it.", "", "<svg>", "")
    assert number in picture_words(panel, loud_shift())


def test_unknown_picture_has_its_caption() -> None:
    """A panel that has no words of its own here is told by title and caption."""
    panel = Panel("p-new", "The finding", "How to read it.", "", "<svg>", "")
    assert picture_words(panel, loud_shift()) == "The finding. How to read it."
