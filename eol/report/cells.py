"""The strip of headline figures: what stands in each place, and when it speaks up."""

from __future__ import annotations

from dataclasses import dataclass

from eol.facts.shift import ShiftFacts
from eol.facts.strip import Figure
from eol.figures.wording import hours_words
from eol.report.formats import percent, period_noun, plain
from eol.words import counted

_LONG = 10
"""Signs that a place has room for in large type."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One place of the strip; `mark` is up or down where it speaks up, else empty.

    `place` names the table behind the figure; `scale` is drawn beside it where
    asked for, in percent where the figure is a `share`.
    """

    label: str
    value: str
    beside: str
    note: str
    mark: str
    place: str
    scale: Figure | None = None
    share: bool = True

    @property
    def long(self) -> bool:
        """True where value and what stands beside it need smaller type."""
        return len(self.value) + len(self.beside) > _LONG - 2 * bool(self.mark)


def strip_cells(facts: ShiftFacts) -> tuple[Cell, ...]:
    """Return the seven places of the strip, always the same ones in the same order."""
    return (
        _tested(facts),
        _escapes(facts),
        _void(facts.strip.void_tests),
        _line_ftt(facts),
        _rty(facts.strip.rty),
        _dphu(facts.strip.dphu),
        _open(facts),
    )


def _tested(facts: ShiftFacts) -> Cell:
    strip = facts.strip
    lacking = strip.built - strip.tested_in_full
    note = "every unit built" if not lacking else f"{lacking} not tested in full"
    if not strip.built:
        note = "no unit left the line"
    value, beside = str(strip.tested_in_full), f"of {strip.built}" if strip.built else ""
    return Cell("Tested in full", value, beside, note, "", "t-ftt")


def _escapes(facts: ShiftFacts) -> Cell:
    fresh = len({escape.vin for escape in facts.escapes if escape.in_shift})
    before = len({escape.vin for escape in facts.escapes}) - fresh
    note = "none known"
    if fresh or before:
        note = f"{fresh or 'none'} in this {period_noun()}"
    mark = "up" if fresh or before else ""
    return Cell("Escapes open", str(fresh + before), "", note, mark, "t-escapes")


def _void(figure: Figure) -> Cell:
    mark = "up" if figure.beyond_usual else ""
    value = plain(figure.value, 0)
    return Cell("Void tests", value, "", _usual(figure, digits=0), mark, "t-ftt")


def _line_ftt(facts: ShiftFacts) -> Cell:
    figure = facts.strip.line_ftt
    undecided = facts.strip.undecided
    if figure.value is None:
        # Rule 11: no line FTT while more than 5 % of the cohort are undecided.
        reach = f"{percent(figure.worst)} to {percent(figure.best)} possible"
        note = (
            f"{counted(undecided, 'unit')} undecided; {reach}" if undecided else "no unit to tell"
        )
        return Cell("Line FTT", "–", "", note, "", "t-line")
    beside = f"{figure.part} of {figure.n}"
    mark = "down" if figure.misses_target or figure.beyond_usual else ""
    note = _ftt_note(figure)
    return Cell(f"Line FTT, {beside}", percent(figure.value), "", note, mark, "t-line", figure)


def _ftt_note(figure: Figure) -> str:
    usual, target = figure.usual, percent(figure.target, 0)
    if figure.misses_target:
        return f"below target {target}" + (" and usual" if figure.beyond_usual else "")
    if usual is None:
        words = f"too few {period_noun()}s for a usual range"
        return _beside_target(figure) if figure.target is not None else words
    reach = f"usual {percent(usual.low, 0)} to {percent(usual.high, 0)}"
    if figure.beyond_usual:
        return f"below {reach}"
    return _beside_target(figure) if figure.target is not None else reach


def _beside_target(figure: Figure) -> str:
    """Where a share stands to a target that it does not miss."""
    target = percent(figure.target, 0)
    met = (figure.value or 0.0) >= (figure.target or 0.0)
    return f"target {target} met" if met else f"not clearly below target {target}"


def _rty(figure: Figure) -> Cell:
    mark = "down" if figure.beyond_usual or figure.misses_target else ""
    note = _usual(figure, share=True) if figure.value is not None else "not yet known"
    if figure.misses_target:
        note = f"below target {percent(figure.target, 0)}"
    return Cell("RTY", percent(figure.value), "", note, mark, "t-line")


def _dphu(figure: Figure) -> Cell:
    if figure.value is None:
        return Cell("Defects per 100 units", "–", "", "not yet known", "", "t-line")
    mark = "up" if figure.beyond_usual or figure.misses_target else ""
    value, note = plain(figure.value), _dphu_note(figure)
    return Cell("Defects per 100 units", value, "", note, mark, "t-line", figure, share=False)


def _dphu_note(figure: Figure) -> str:
    if figure.misses_target:
        both = " and usual" if figure.beyond_usual else ""
        return f"above target {plain(figure.target)}{both}"
    if figure.beyond_usual:
        return f"above {_usual(figure, digits=0)}"
    return _usual(figure, digits=0)


def _usual(figure: Figure, *, share: bool = False, digits: int = 1) -> str:
    usual = figure.usual
    if usual is None:
        return "usual not known"
    if share:
        return f"usual {percent(usual.low, 0)} to {percent(usual.high, 0)}"
    return f"usual {plain(usual.low, digits)} to {plain(usual.high, digits)}"


def _open(facts: ShiftFacts) -> Cell:
    units = facts.open_units
    vins = {unit.vin for unit in units}
    old = {unit.vin for unit in units if unit.over_a_day}
    if not vins:
        return Cell("Open units now", "0", "", "no unit waits", "", "t-open")
    oldest = hours_words(max(unit.hours or 0.0 for unit in units))
    note = f"{len(old)} over a day, oldest {oldest}" if old else "none over a day"
    return Cell("Open units now", str(len(vins)), "", note, "", "t-open")
