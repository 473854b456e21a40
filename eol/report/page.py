"""Lays the facts of a shift out as one self-contained HTML page: no script, no outside address."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import AbstractContextManager, nullcontext
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from eol.facts.header import Header
from eol.facts.shift import ShiftFacts
from eol.report.cells import Cell, strip_cells
from eol.report.formats import (
    Form,
    day_words,
    listed,
    moment_words,
    percent,
    period_noun,
    sentence,
    short_day,
    time_words,
    written_as,
)
from eol.report.needs_a_look import SHOWN, Look, needs_a_look
from eol.report.panels import Panel, panels
from eol.report.tables import code_lists, tables, zone_lists
from eol.report.titles import safety_title
from eol.report.type_width import lines_of
from eol.words import CAUTION, counted

PAPERS = ("A4", "A3", "letter")
SHOWN_SAFETY = 3
SHOWN_SILENT = 3
ABOUT = (
    "FTT: first-time-through, passed at the first counted run. RTY: product of the tests' FTT. "
    "A defect is a code and zone at the first counted run; retests never change it."
)
LOOKS_WIDE, LOOKS_HIGH = 26.6, 27.5
"""The place of the lines that need a look beside their tags, in rem."""

OPTIONAL = {"window", "actions"}
"""Panels whose places the others take where a page has none of them."""
POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; "
    "base-uri 'none'; form-action 'none'"
)


def build_page(
    facts: ShiftFacts, *, paper: str = "A4", form: Form | None = None, interactive: bool = False
) -> str:
    """Return the page of a shift as HTML.

    Args:
        facts: what the page says.
        paper: A4, A3 or letter: the sheet it prints on, always one.
        form: how the plant writes dates and numbers; day before month and a point where None.
        interactive: True for figures that answer to the pointer, at some 900 kB of script; the
            policy in the page then allows its two scripts and no other.

    Returns:
        The same text for the same facts, in every process and at every time of day.

    Raises:
        ReportError: a figure cannot be drawn.
    """
    page = template("page.html")
    with written_as(form or Form(), period=facts.header.kind):
        if not interactive:
            return page.render(**page_words(facts, paper=paper))
        from eol.figures.svg import specs_kept
        from eol.report.live import live_scripts, script_sources

        with specs_kept() as specs:
            words = page_words(facts, paper=paper)
        scripts = live_scripts(specs)
        words["policy"] += "; " + script_sources(scripts)
        return page.render(**words | {"scripts": [Markup(script) for script in scripts]})


def build_pdf(facts: ShiftFacts, *, paper: str = "A4", form: Form | None = None) -> bytes:
    """Return the page of a shift as a PDF of one sheet, made without a browser.

    Args:
        facts: what the page says.
        paper: A4, A3 or letter.
        form: how the plant writes dates and numbers.

    Returns:
        The same bytes for the same facts; the lists of units and the tables are on the page alone.

    Raises:
        ReportError: a figure or the sheet cannot be drawn.
    """
    from eol.report.sheet import sheet_pdf

    with written_as(form or Form(), period=facts.header.kind):
        return sheet_pdf(page_words(facts, paper=paper), template("sheet.svg"))


def page_title(header: Header) -> str:
    """Return what the page is of: the day and the shift with its hours, a day, or a week."""
    first, last = header.production_date, header.last_date or header.production_date
    if header.kind == "week":
        week = f"week {first.isocalendar().week}"
        return " · ".join(["Final line", week, f"{short_day(first)} to {day_words(last)}"])
    what = "the whole day" if header.kind == "day" else _shift_words(header)
    return " · ".join(["Final line", day_words(first), what])


def command(header: Header) -> str:
    """Return the command that makes this page again."""
    day = header.production_date
    if header.kind == "week":
        return f"eol report --week {week_name(day)}"
    if header.kind == "day":
        return f"eol report --day {day.isoformat()}"
    return f"eol report --shift {day.isoformat()}/{header.shift or 'between'}"


def week_name(day: date) -> str:
    """Return the week of a day as ISO 8601 writes it.

    Example:
        >>> week_name(date(2026, 9, 14))
        '2026-W38'
    """
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02}"


def page_words(facts: ShiftFacts, *, paper: str) -> dict[str, Any]:
    """Return what page and sheet say, by the names that their templates use."""
    with _drawing(facts):
        drawn = panels(facts)
        cells = [(cell, _scale(cell)) for cell in strip_cells(facts)]
    looks = needs_a_look(facts)
    header = facts.header
    return {
        "policy": POLICY,
        "scripts": (),
        "paper": paper,
        "title": page_title(header),
        "news": _news(facts, looks),
        "header": header,
        "whole": header.complete and not header.running,
        "completeness": completeness(header),
        "settled": _settled(header),
        "from_plant": header.plant + (f", crew {header.crew}" if header.crew else ""),
        "data_clock": moment_words(header.data_clock),
        "received": f"From data received up to {time_words(header.data_clock)}.",
        "caution": CAUTION,
        "about": f"{ABOUT} · {command(header)} · data clock {moment_words(header.data_clock)}",
        "cells": cells,
        "looks": looks[:SHOWN],
        "roomy": _looks_high(looks[:SHOWN]) < LOOKS_HIGH,
        "more_looks": looks[SHOWN:],
        "panels": [(panel, Markup(panel.svg)) for panel in drawn],
        "without": sorted(OPTIONAL - {panel.place.removeprefix("p-") for panel in drawn}),
        "safety_title": safety_title(facts.safety_units),
        "safety": facts.safety_units[:SHOWN_SAFETY],
        "safety_more": max(0, len(facts.safety_units) - SHOWN_SAFETY),
        "safety_note": _safety_note(len(facts.safety_units) - SHOWN_SAFETY),
        "tables": tables(facts),
        "code_lists": code_lists(facts),
        "zone_lists": zone_lists(facts),
    }


def _drawing(facts: ShiftFacts) -> AbstractContextManager[None]:
    """Charts are built without a check of each part; where none is drawn the library is not loaded."""
    if not (facts.tested or facts.open_units or facts.actions):
        return nullcontext()
    from eol.figures.theme import built_quickly

    return built_quickly()


def _looks_high(looks: Sequence[Look]) -> float:
    """How high the lines that need a look stand on the screen with nothing of them cut, in rem."""
    heads = [1.49 * len(lines_of(look.head, LOOKS_WIDE, 1.28, bold=True)) for look in looks]
    starts = [1.28 * len(lines_of(look.start, LOOKS_WIDE, 1.06)) for look in looks]
    return sum(heads) + sum(starts) + 0.82 * len(looks)


def _news(facts: ShiftFacts, looks: Sequence[Look]) -> str:
    """What the list of pages tells of this one: the line's FTT and the first line that needs a look."""
    parts = (percent(facts.strip.line_ftt.value), f"{looks[0].kind}: {looks[0].head}")
    return " | ".join(part.replace("|", "/") for part in parts)


def _safety_note(more: int) -> str:
    """What stands under the title of the safety-related findings on paper."""
    rest = f"{more} more on the page itself, each with its handling words. " if more > 0 else ""
    return f"{rest}Listed by VIN until a release. Local law and licensed practice go first."


def completeness(header: Header) -> str:
    """Return how many of the stations that ran were heard from after the shift's end."""
    if not header.stations:
        return "no station ran"
    stations, silent = len(header.stations), header.silent
    if header.running:
        return f"provisional: the {period_noun()} is still running"
    heard = f"{stations - len(silent)} of {counted(stations, 'station')} in"
    if header.complete:
        return f"complete: {heard}"
    if len(silent) > SHOWN_SILENT:
        return f"provisional: {heard}"
    return f"provisional: {heard}, not {listed([each.station for each in silent])}"


def _settled(header: Header) -> str:
    """Whether the figures can still change by what is waited for (rule 11)."""
    if not header.stations or header.running:
        return ""
    return "settled" if header.settled else "not settled yet"


def _shift_words(header: Header) -> str:
    if header.shift is None:
        return "between shifts"
    words = f"{header.shift} shift"
    if header.starts_at and header.ends_at:
        words += f" ({time_words(header.starts_at)}–{time_words(header.ends_at)})"
    return words + (", cancelled" if header.cancelled else "")


def _scale(cell: Cell) -> Markup:
    """The small scale of a cell that asks for one."""
    if cell.scale is None or cell.scale.value is None:
        return Markup("")
    from eol.figures.scale import interval_scale
    from eol.figures.svg import chart_svg

    chart = interval_scale(cell.scale, percent=cell.share)
    name = "scale-" + ("ftt" if cell.share else "dphu")
    return Markup(chart_svg(chart, name=name, label=f"{cell.label}: {cell.note}"))


def template(name: str) -> jinja2.Template:
    """Return one of the templates, whatever is put into it escaped."""
    return _templates().get_template(name)


@cache
def _templates() -> jinja2.Environment:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["sentence"] = sentence
    environment.filters["moment"] = moment_words
    return environment


__all__ = ["PAPERS", "Panel", "build_page", "build_pdf", "command", "completeness", "page_title"]
