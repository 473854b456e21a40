"""The words of a report's mail: subject, what shows beside it in a list, and each picture in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from eol.facts.shift import ShiftFacts
from eol.report.formats import percent, plain, short_day
from eol.report.needs_a_look import Look
from eol.report.panels import Panel
from eol.report.titles import code_words, title_within
from eol.words import counted

SHOWN_ITEMS = 12
_PREHEADER = 160
_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_TAGS = {"stop": "stop", "look": "look", "ask": "look", "data": "look"}


def subject(facts: ShiftFacts, looks: Sequence[Look]) -> str:
    """Return the news in one line: a tag for what is worst, the shift, its figure, its escapes."""
    return f"[{tag(looks)}] {shift_words(facts)}: " + ", ".join(_news(facts))


def tag(looks: Sequence[Look]) -> str:
    """Return stop, look or quiet: the gravest of some lines."""
    tags = {_TAGS.get(look.kind, "quiet") for look in looks}
    return next((one for one in ("stop", "look") if one in tags), "quiet")


def shift_words(facts: ShiftFacts) -> str:
    """Return the shift as a subject names it."""
    day = facts.header.production_date
    name = facts.header.shift or "between shifts"
    return f"Final line {_WEEKDAYS[day.weekday()]} {short_day(day)} {name}"


def preheader(looks: Sequence[Look]) -> str:
    """Return what a list of mails shows beside the subject: the first lines that need a look."""
    words = " ".join(f"{look.head}. {look.start}" for look in looks)
    return words if len(words) <= _PREHEADER else words[:_PREHEADER].rsplit(" ", 1)[0] + " …"


def picture_words(panel: Panel, facts: ShiftFacts) -> str:
    """Return what a picture shows, with its numbers, for those who do not see it."""
    items = _ITEMS[panel.place](facts) if panel.place in _ITEMS else []
    shown = items[:SHOWN_ITEMS]
    if len(items) > len(shown):
        shown = [*shown, f"{len(items) - len(shown)} more in the table of the page"]
    return f"{panel.title}. " + "; ".join(shown) if shown else f"{panel.title}. {panel.caption}"


def _news(facts: ShiftFacts) -> Iterable[str]:
    yield _figure(facts)
    fresh = len({escape.vin for escape in facts.escapes if escape.in_shift})
    still = len({escape.vin for escape in facts.escapes})
    if fresh:
        yield counted(fresh, "escape")
    elif still:
        yield f"{counted(still, 'escape')} open"
    if safety := len({unit.vin for unit in facts.safety_units if unit.in_shift}):
        yield f"{safety} safety-related"


def _figure(facts: ShiftFacts) -> str:
    """The line's first-time-through, else that of the lowest test while the line's is not known."""
    ftt = facts.strip.line_ftt
    if ftt.value is not None:
        target = f" (target {percent(ftt.target, 0)})" if ftt.target is not None else ""
        return f"line FTT {percent(ftt.value)}{target}"
    tested = [series for series in facts.tests if series.now.ftt is not None]
    if not tested:
        return "no unit tested"
    lowest = min(tested, key=lambda series: series.now.ftt or 0.0)
    return f"{title_within(lowest)} FTT {percent(lowest.now.ftt)}"


def _ftt(facts: ShiftFacts) -> list[str]:
    items = []
    for series in facts.tests:
        now = series.now
        text = f"{series.title} {percent(now.ftt)}, {now.passed_first} of {now.tested}"
        if now.usual:
            text += f", usual {percent(now.usual.low)} to {percent(now.usual.high)}"
        items.append(text)
    return items


def _pareto(facts: ShiftFacts) -> list[str]:
    items = []
    for row in facts.pareto.rows:
        usual = f", usual {plain(row.usual.low)} to {plain(row.usual.high)}" if row.usual else ""
        items.append(f"{code_words(row)} {row.defects}{usual}")
    return items


def _zones(facts: ShiftFacts) -> list[str]:
    zones = (*facts.zones.placed, *facts.zones.unplaced)
    return [f"{zone.title or zone.zone} {zone.defects}" for zone in zones if zone.defects]


def _bays(facts: ShiftFacts) -> list[str]:
    return [
        f"{bay.name} {bay.title} {bay.passed_first} of {bay.tested} passed"
        + (f", {bay.differs} than its neighbours" if bay.differs else "")
        for bay in facts.bays
    ]


_ITEMS: dict[str, Callable[[ShiftFacts], list[str]]] = {
    "p-ftt": _ftt,
    "p-pareto": _pareto,
    "p-zones": _zones,
    "p-bays": _bays,
}
