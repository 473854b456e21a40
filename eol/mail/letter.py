"""The facts of a shift in, its mail out: the page's figures and lines, as text, as HTML, with pictures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any

import jinja2

from eol.facts.shift import ShiftFacts
from eol.figures.png import svg_png
from eol.mail.changes import Change
from eol.mail.message import Attachment, Letter, Picture
from eol.mail.words import picture_words, preheader, shift_words, subject, tag
from eol.report.cells import strip_cells
from eol.report.formats import moment_words, time_words
from eol.report.look import Look
from eol.report.needs_a_look import SHOWN, needs_a_look
from eol.report.page import command, completeness, page_title
from eol.report.panels import panels
from eol.words import CAUTION, counted

PICTURES = ("p-ftt", "p-pareto", "p-zones", "p-bays")
SHOWN_UNITS = 8
NOT_PROTECTIVE = "Mail may not arrive: this is not a protective system."
"""Printed on every mail and alarm."""


@dataclass(frozen=True, slots=True)
class Occasion:
    """Why and when a mail is made.

    Attributes:
        message_id: the same on every try.
        made_at: the wall clock, in the plant's zone.
        late: a sentence where the report is later than the schedule asks; else empty.
        changes: for a second mail, the figures that a late file moved.
        reason: for a second mail, why they moved, in a few words.
    """

    message_id: str
    sender: str
    recipients: tuple[str, ...]
    made_at: datetime
    late: str = ""
    changes: tuple[Change, ...] = ()
    reason: str = ""


@dataclass(frozen=True, slots=True)
class _Shown:
    """One picture with its place in the mail."""

    picture: Picture
    title: str
    words: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class _Unit:
    """A unit by VIN, with the words of handling where the catalogue has some."""

    vin: str
    words: str
    handling: str


def shift_letters(facts: ShiftFacts, occasion: Occasion, page: Attachment) -> tuple[Letter, Letter]:
    """Return the mail of a shift, with its page and without.

    Args:
        facts: the page's own; nothing is computed anew.
        occasion: why and when.
        page: the page as it lies in `reports`.

    Raises:
        ReportError: a picture cannot be drawn.
    """
    context = _context(facts, occasion)
    pictures = tuple(one.picture for one in context["pictures"])
    whole, small = (
        Letter(
            message_id=occasion.message_id,
            sender=occasion.sender,
            recipients=occasion.recipients,
            subject=context["subject"],
            made_at=occasion.made_at,
            text=rendered("shift.txt", context | {"attached": attached}),
            html=rendered("shift.html", context | {"attached": attached}),
            pictures=pictures,
            attachment=page if attached else None,
        )
        for attached in (True, False)
    )
    return whole, small


def rendered(template: str, context: dict[str, Any]) -> str:
    """Fill a template of mails; text of files stays text in HTML."""
    return _templates().get_template(template).render(**context)


def _context(facts: ShiftFacts, occasion: Occasion) -> dict[str, Any]:
    looks, header = needs_a_look(facts), facts.header
    return {
        "subject": _subject(facts, occasion),
        "preheader": ". ".join([*(one.words for one in occasion.changes), preheader(looks)]),
        "title": page_title(header),
        "plant": header.plant,
        "data_clock": moment_words(header.data_clock),
        "completeness": completeness(header),
        "late": occasion.late,
        "changes": [f"{one.words}." for one in occasion.changes],
        "reason": occasion.reason,
        "cells": strip_cells(facts),
        "looks": [_in_a_mail(look) for look in looks[:SHOWN]],
        "more_looks": len(looks[SHOWN:]),
        "escapes": _escapes(facts),
        "safety": _safety(facts),
        "pictures": _pictures(facts),
        "command": command(header),
        "received": f"From data received up to {time_words(header.data_clock)}.",
        "caution": CAUTION.replace("This page", "This mail"),
        "not_protective": NOT_PROTECTIVE,
    }


def _in_a_mail(look: Look) -> Look:
    """A line of the page whose "below" is elsewhere in a mail."""
    return replace(look, start=look.start.replace("listed below", "listed on the page"))


def _subject(facts: ShiftFacts, occasion: Occasion) -> str:
    if occasion.changes:
        mark = "stop" if tag(needs_a_look(facts)) == "stop" else "look"
        first = occasion.changes[0].news
        return f"[{mark}] {shift_words(facts)}, changed: {first}, {occasion.reason}"
    late = ", late report" if occasion.late else ""
    return subject(facts, needs_a_look(facts)) + late


def _pictures(facts: ShiftFacts) -> list[_Shown]:
    drawn = [panel for panel in panels(facts) if panel.place in PICTURES and panel.svg]
    shown = []
    for panel in drawn:
        png = svg_png(panel.svg, name=panel.place)
        picture = Picture(panel.place.removeprefix("p-"), png.content)
        words = picture_words(panel, facts)
        shown.append(_Shown(picture, panel.title, words, png.width, png.height))
    return shown


def _escapes(facts: ShiftFacts) -> dict[str, Any]:
    handling = _handling(facts)
    units = [
        _Unit(
            one.vin,
            f"{one.reason.replace('_', ' ')} in the {one.title.lower()}, "
            f"{one.event.replace('_', ' ')} {moment_words(one.event_at)}",
            handling.get(one.vin, ""),
        )
        for one in facts.escapes
    ]
    return _first_of(units, "escape")


def _safety(facts: ShiftFacts) -> dict[str, Any]:
    units = [
        _Unit(
            one.vin,
            " ".join([one.code, one.code_title, one.zone or ""]).strip()
            + f", {one.status}"
            + (f", {one.place}" if one.place else ""),
            one.handling,
        )
        for one in facts.safety_units
    ]
    return _first_of(units, "safety-related finding")


def _first_of(units: Sequence[_Unit], thing: str) -> dict[str, Any]:
    more = len(units) - SHOWN_UNITS
    return {
        "units": units[:SHOWN_UNITS],
        "more": f"{counted(more, 'more ' + thing)} on the page." if more > 0 else "",
    }


def _handling(facts: ShiftFacts) -> dict[str, str]:
    """The words of handling of each VIN that has some."""
    told: list[tuple[str, str | None]] = [(u.vin, u.handling) for u in facts.open_units]
    told += [(unit.vin, unit.handling) for unit in facts.safety_units]
    return {vin: words for vin, words in told if words}


@cache
def _templates() -> jinja2.Environment:
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=jinja2.select_autoescape(["html"]),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
