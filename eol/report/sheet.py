"""Lays a page's own words and figures out as one sheet of paper in SVG, for a PDF without a browser.

All measures are in rem, of which the sheet is 117.5 wide, as in print from a browser.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

from eol.figures.pdf import svg_pdf
from eol.report.cells import Cell
from eol.report.type_width import lines_of, shortened, text_width

INK, MUTED, ALERT, LINE, BAR = "#1B1F24", "#50565E", "#A84300", "#CBD1D8", "#D55E00"
WIDE = 117.5
SIZES = {"A4": (841.89, 595.28), "A3": (1190.55, 841.89), "letter": (792.0, 612.0)}
"""Points of each paper, landscape."""

MARGIN = 22.68
"""Points, 8 mm."""

_GAP, _COLUMNS = 1.4, 24
_ROWS = (0.76, 1.1, 1.0)
_STRIP = (13.0, 11.5, 10.5, 29.0, 13.5, 25.0, 16.0)
_STRIP_HIGH = 6.4
_HEAD_HIGH = 3.1
_SCALE_WIDE = 10.5
_LEADING = 1.18
_SVG = re.compile(
    r"<svg xmlns[^>]*?viewBox=\"(?P<box>[^\"]*)\"[^>]*>(?P<inside>.*?)</svg>", re.DOTALL
)
_LINKS = re.compile(r"</?a\b[^>]*>")

_PLACES: dict[str, tuple[int, int, int]] = {
    "p-ftt": (0, 7, 24),
    "p-pareto": (1, 7, 13),
    "p-window": (1, 13, 19),
    "p-bays": (1, 19, 24),
    "p-zones": (2, 0, 8),
    "p-open": (2, 8, 16),
    "p-actions": (2, 16, 24),
}
"""Row, first and last column of each panel."""

_WIDER: dict[str, dict[str, tuple[int, int, int]]] = {
    "window": {"p-pareto": (1, 7, 16), "p-bays": (1, 16, 24)},
    "actions": {"p-zones": (2, 0, 12), "p-open": (2, 12, 24)},
}
"""The same where a panel is not on the page."""


@dataclass(slots=True)
class Sheet:
    """What is drawn so far, each with its place."""

    texts: list[dict[str, Any]] = field(default_factory=list)
    lines: list[dict[str, Any]] = field(default_factory=list)
    boxes: list[dict[str, Any]] = field(default_factory=list)
    marks: list[dict[str, Any]] = field(default_factory=list)
    figures: list[Markup] = field(default_factory=list)

    def text(
        self,
        words: str,
        x: float,
        y: float,
        size: float,
        *,
        colour: str = INK,
        bold: bool = False,
        anchor: str = "start",
    ) -> None:
        """Set one line; y is its base line."""
        place = {"x": _short(x), "y": _short(y), "size": size, "anchor": anchor}
        self.texts.append({"words": words, "colour": colour, "bold": bold, **place})

    def paragraph(self, lines: Sequence[str], x: float, y: float, size: float, **how: Any) -> float:
        """Set lines under each other from the upper edge y on; return their lower edge."""
        for at, line in enumerate(lines):
            self.text(line, x, y + size * (0.93 + _LEADING * at), size, **how)
        return y + size * _LEADING * len(lines)

    def line(self, x: float, y: float, x2: float, y2: float, **look: Any) -> None:
        """Draw a line."""
        ends = {"x": _short(x), "y": _short(y), "x2": _short(x2), "y2": _short(y2)}
        self.lines.append({**ends, "colour": LINE, "width": 0.07, **look})

    def mark(self, name: str, x: float, y: float, size: float) -> None:
        """Draw one of the page's small marks; y is its upper edge."""
        self.marks.append({"name": name, "x": _short(x), "y": _short(y), "size": size})

    def figure(self, svg: str, x: float, y: float, wide: float, high: float) -> None:
        """Nest drawn figures in a place, side by side."""
        found = list(_SVG.finditer(svg))
        each = (wide - _GAP * (len(found) - 1)) / max(1, len(found))
        for at, one in enumerate(found):
            place = f'x="{_short(x + at * (each + _GAP))}" y="{_short(y)}"'
            size = f'width="{_short(each)}" height="{_short(high)}"'
            opening = (
                f'<svg {place} {size} viewBox="{one["box"]}" preserveAspectRatio="xMinYMin meet">'
            )
            self.figures.append(Markup(opening + _LINKS.sub("", one["inside"]) + "</svg>"))


def sheet_pdf(words: dict[str, Any], template: Any) -> bytes:
    """Return a page as a PDF of one sheet.

    Args:
        words: what the page's own template is filled with.
        template: `sheet.svg`.

    Raises:
        ReportError: the sheet cannot be drawn.
    """
    return svg_pdf(template.render(**laid_out(words)))


def laid_out(words: dict[str, Any]) -> dict[str, Any]:
    """Return the sheet with everything in its place, for the template."""
    width, height = SIZES[words["paper"]]
    rem = (width - 2 * MARGIN) / WIDE
    high = (height - 2 * MARGIN) / rem
    sheet = Sheet()
    _head(sheet, words)
    top = _strip(sheet, words["cells"], _HEAD_HIGH + 0.5) + 0.8
    bottom = _foot(sheet, words, high)
    bottom = _safety(sheet, words, bottom) - 0.8
    _body(sheet, words, top, bottom)
    return {
        "width": width,
        "height": height,
        "margin": MARGIN,
        "rem": round(rem, 6),
        "lines": sheet.lines,
        "boxes": sheet.boxes,
        "texts": sheet.texts,
        "marks": sheet.marks,
        "figures": sheet.figures,
    }


def _head(sheet: Sheet, words: dict[str, Any]) -> None:
    title = words["title"]
    sheet.text(title, 0, 1.9, 1.9, bold=True)
    settled = f" · {words['settled']}" if words["settled"] else ""
    state, said = words["completeness"], f"{words['from_plant']} · data to {words['data_clock']} ·"
    whole = words["whole"]
    state_wide = text_width(state, 1.2, bold=not whole)
    settled_wide = text_width(settled, 1.2)
    sheet.text(settled, WIDE, 1.9, 1.2, colour=MUTED, anchor="end")
    at = WIDE - settled_wide - state_wide
    sheet.text(state, at, 1.9, 1.2, colour=INK if whole else ALERT, bold=not whole)
    if not whole:
        at -= 1.3
        sheet.mark("up", at, 1.0, 1.0)
    at -= 0.35
    room = at - text_width(title, 1.9, bold=True) - 2
    sheet.text(shortened(said, room, 1.2), at, 1.9, 1.2, colour=MUTED, anchor="end")
    sheet.line(0, 2.6, WIDE, 2.6, colour=INK, width=0.13)


def _strip(sheet: Sheet, cells: Sequence[tuple[Cell, str]], top: float) -> float:
    scale, x = WIDE / sum(_STRIP), 0.0
    for (cell, drawn), part in zip(cells, _STRIP, strict=True):
        wide = part * scale
        pad = 0.9 if x else 0.0
        _cell(sheet, cell, drawn, (x + pad, top, wide - pad - 0.7))
        if cell.mark:
            sheet.line(x, top, x + wide, top, colour=BAR, width=0.3)
        if x:
            sheet.line(x, top, x, top + _STRIP_HIGH)
        x += wide
    sheet.line(0, top + _STRIP_HIGH, WIDE, top + _STRIP_HIGH)
    return top + _STRIP_HIGH


def _cell(sheet: Sheet, cell: Cell, drawn: str, place: tuple[float, float, float]) -> None:
    x, y, wide = place
    room = wide - _SCALE_WIDE - 0.3 if drawn else wide
    sheet.text(shortened(cell.label, room, 1.2), x, y + 1.5, 1.2, colour=MUTED)
    size, at, colour = 2.2 if cell.long else 2.9, x, ALERT if cell.mark else INK
    if cell.mark:
        sheet.mark(cell.mark, x, y + 4.25 - 0.76 * size, 0.8 * size)
        at += size
    sheet.text(cell.value, at, y + 4.25, size, colour=colour, bold=True)
    beside = at + text_width(cell.value, size, bold=True) + 0.5
    sheet.text(cell.beside, beside, y + 4.25, 1.2, colour=MUTED)
    loud = bool(cell.mark)
    fits = min(1.2, 1.2 * room / max(room, text_width(cell.note, 1.2, bold=loud)))
    note_colour = ALERT if loud else MUTED
    sheet.text(cell.note, x, y + 5.8, round(fits, 3), colour=note_colour, bold=loud)
    if drawn:
        sheet.figure(drawn, x + wide - _SCALE_WIDE, y + 0.6, _SCALE_WIDE, _STRIP_HIGH - 0.8)


def _foot(sheet: Sheet, words: dict[str, Any], high: float) -> float:
    """The cautions and how the page was made, at the lower edge; return the upper edge."""
    left = lines_of(f"{words['received']} {words['caution']}", 0.47 * WIDE, 1.15, bold=True)
    right = lines_of(words["about"], 0.5 * WIDE, 1.0)
    top = high - max(len(left) * 1.15, len(right) * 1.0) * _LEADING - 0.4
    sheet.line(0, top, WIDE, top)
    sheet.paragraph(left, 0, top + 0.3, 1.15, bold=True)
    for at, line in enumerate(right):
        y = top + 0.3 + 0.93 + at * _LEADING
        sheet.text(line, WIDE, y, 1.0, colour=MUTED, anchor="end")
    return top - 0.5


def _safety(sheet: Sheet, words: dict[str, Any], bottom: float) -> float:
    """The units with a safety-related finding; return the band's upper edge."""
    units = words["safety"]
    if not units:
        sheet.line(0, bottom - 1.7, WIDE, bottom - 1.7)
        sheet.text(words["safety_title"], 0, bottom - 0.3, 1.15, colour=MUTED)
        return bottom - 1.7
    left, each = 0.29 * WIDE, (0.71 * WIDE - 1.8) / 3
    blocks = [_unit_lines(unit, each - 2.2) for unit in units]
    title = lines_of(words["safety_title"], left, 1.4, bold=True)
    note = lines_of(words["safety_note"], left, 1.1)
    high = max(
        1.4 * _LEADING * len(title) + 1.1 * _LEADING * len(note),
        *(1.15 * _LEADING * (len(what) + len(how)) for what, how in blocks),
    )
    top = bottom - high - 0.5
    sheet.line(0, top, WIDE, top, colour=INK, width=0.13)
    end = sheet.paragraph(title, 0, top + 0.3, 1.4, bold=True)
    sheet.paragraph(note, 0, end, 1.1, colour=MUTED)
    for at, (what, how) in enumerate(blocks):
        x = left + 1.8 + at * each
        sheet.line(x, top + 0.4, x, bottom)
        end = sheet.paragraph(what, x + 0.7, top + 0.3, 1.15)
        sheet.paragraph(how, x + 0.7, end, 1.15, colour=ALERT, bold=True)
    return top


def _unit_lines(unit: Any, width: float) -> tuple[list[str], list[str]]:
    """What is known of a unit, and its handling words, which are never cut."""
    parts = (
        f"{unit.vin} {unit.code} {unit.code_title}".strip(),
        unit.zone,
        unit.status,
        unit.place,
    )
    what = " · ".join(part for part in parts if part)
    return lines_of(what, width, 1.15), lines_of(unit.handling, width, 1.15, bold=True)


def _body(sheet: Sheet, words: dict[str, Any], top: float, bottom: float) -> None:
    gap = 0.9
    part = (bottom - top - gap * (len(_ROWS) - 1)) / sum(_ROWS)
    tops = [top + sum(_ROWS[:at]) * part + gap * at for at in range(len(_ROWS))]
    _looks(sheet, words, top, _across(7), tops[2] - gap)
    places = dict(_PLACES)
    for missing in words["without"]:
        places |= _WIDER[missing]
    for panel, _ in words["panels"]:
        if panel.place in places:
            row, first, last = places[panel.place]
            x = _across(first) + (_GAP if first else 0)
            _panel(sheet, panel, (x, tops[row], _across(last) - x, _ROWS[row] * part))


def _across(columns: int) -> float:
    """Where the given number of columns ends."""
    one = (WIDE - _GAP * (_COLUMNS - 1)) / _COLUMNS
    return max(0.0, columns * (one + _GAP) - _GAP)


def _looks(sheet: Sheet, words: dict[str, Any], top: float, wide: float, bottom: float) -> None:
    looks, more = words["looks"], len(words["more_looks"])
    sheet.text("What needs a look", 0, top + 1.5, 1.7, bold=True)
    if more:
        x = text_width("What needs a look", 1.7, bold=True) + 0.5
        sheet.text(f"{len(looks)} of {len(looks) + more}", x, top + 1.5, 1.15, colour=MUTED)
    y = top + 2.4
    for at, look in enumerate(looks):
        head = lines_of(look.head, wide - 6.2, 1.45, bold=True, most=2)
        start = lines_of(look.start, wide - 6.2, 1.2, most=3)
        end = y + _LEADING * (1.45 * len(head) + 1.2 * len(start))
        if end > bottom:
            break
        if at:
            sheet.line(0, y - 0.35, wide, y - 0.35)
        _tag(sheet, look.kind, y)
        end = sheet.paragraph(head, 6.2, y, 1.45, bold=True)
        y = sheet.paragraph(start, 6.2, end, 1.2) + 0.75


def _tag(sheet: Sheet, kind: str, y: float) -> None:
    loud, stop = kind in ("stop", "look"), kind == "stop"
    colour = ALERT if loud else INK if kind == "quiet" else MUTED
    box = {
        "x": 0.05,
        "y": _short(y + 0.1),
        "width": 5.2,
        "height": 1.6,
        "dashed": kind in ("ask", "data"),
    }
    sheet.boxes.append({**box, "fill": colour if stop else "#FFFFFF", "stroke": colour})
    size = text_width(kind, 1.15, bold=loud) + 1.4
    x = 0.05 + (5.2 - size) / 2
    sheet.mark(kind, x, y + 0.45, 0.95)
    sheet.text(kind, x + 1.4, y + 1.3, 1.15, colour="#FFFFFF" if stop else colour, bold=loud)


def _panel(sheet: Sheet, panel: Any, place: tuple[float, float, float, float]) -> None:
    x, y, wide, high = place
    below = sheet.paragraph(
        lines_of(panel.title, wide, 1.7, bold=True, most=2), x, y, 1.7, bold=True
    )
    caption = lines_of(
        f"{panel.caption} {panel.more}", wide - (9 if panel.severities else 0), 1.15, most=3
    )
    if panel.severities:
        at = x + text_width(caption[-1], 1.15) + 0.5
        for letter in "ABCD":
            sheet.mark(letter, at, below + (len(caption) - 1) * 1.15 * _LEADING + 0.15, 1.0)
            line = below + (len(caption) - 1) * 1.15 * _LEADING + 1.07
            sheet.text(letter, at + 1.2, line, 1.15, colour=MUTED)
            at += 2.5
    below = sheet.paragraph(caption, x, below + 0.05, 1.15, colour=MUTED) + 0.5
    if panel.svg:
        sheet.figure(panel.svg, x, below, wide, y + high - below)
    else:
        sheet.paragraph(lines_of(panel.words, wide, 1.4), x, below + 0.5, 1.4, colour=MUTED)


def _short(number: float) -> float:
    return round(number, 3)
