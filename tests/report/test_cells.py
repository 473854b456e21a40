"""The strip of headline figures."""

from __future__ import annotations

from dataclasses import replace

from made_up_shift import empty_shift, loud_shift, quiet_shift

from eol.facts.strip import Figure
from eol.report.cells import strip_cells


def test_places_are_fixed() -> None:
    """The same figures stand in the same places in every shift."""
    labels = [
        [cell.label for cell in strip_cells(make())]
        for make in (loud_shift, quiet_shift, empty_shift)
    ]
    places = [[label.split(",")[0] for label in each] for each in labels]
    assert places[0] == places[1] == places[2]
    assert places[0][3] == "Line FTT"


def test_loud_cells_speak_up() -> None:
    """An alarm is a mark and words, at every figure beyond its range."""
    assert [cell.mark for cell in strip_cells(loud_shift())] == [
        "",
        "up",
        "up",
        "down",
        "down",
        "up",
        "",
    ]


def test_quiet_cells_are_plain() -> None:
    """A good day is plain ink."""
    assert {cell.mark for cell in strip_cells(quiet_shift())} == {""}


def test_line_ftt_tells_its_parts() -> None:
    """The share stands with its count, and says whether it misses its target."""
    cell = strip_cells(loud_shift())[3]
    assert (cell.label, cell.value) == ("Line FTT, 338 of 411", "82.2%")
    assert cell.note == "below target 90% and usual"


def test_undecided_line_says_what_is_possible() -> None:
    """While too many units are undecided the strip gives the reach instead of a value (rule 11)."""
    facts = quiet_shift()
    open_ftt = Figure(None, n=310, part=300, worst=0.73, best=0.97)
    cell = strip_cells(
        replace(facts, strip=replace(facts.strip, undecided=102, line_ftt=open_ftt))
    )[3]
    assert (cell.value, cell.note) == ("–", "102 units undecided; 73.0% to 97.0% possible")


def test_empty_cells() -> None:
    """Where nothing was built there is no figure, and that is said."""
    notes = [cell.note for cell in strip_cells(empty_shift())]
    assert notes[0] == "no unit left the line"
    assert notes[3] == "no unit to tell"
