"""The panels of the page: a finding as title, a caption, and a figure or words in its place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from eol.facts.shift import ShiftFacts
from eol.report import titles
from eol.report.actions import actions_title
from eol.report.formats import percent, period_noun, short_day, time_words
from eol.report.seeing import queue_words
from eol.words import counted

A_SHIFT = timedelta(hours=12)
"""How long after its end a shift's page may be made without saying that what waits is of later."""


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel: its figures in `svg`, side by side; where there are none, `words` say why.

    `more` goes on where the caption ends, in the enlarged view and on paper.
    """

    place: str
    title: str
    caption: str
    table: str
    svg: str
    words: str
    severities: bool = False
    more: str = ""


def panels(facts: ShiftFacts) -> tuple[Panel, ...]:
    """Return the panels with figures, in reading order."""
    window = (_window(facts),) if facts.signals.window else ()
    actions = (_actions(facts),) if facts.actions else ()
    first = (_ftt(facts), _pareto(facts), *window, _bays(facts))
    return (*first, _zones(facts), _open(facts), *actions)


def _ftt(facts: ShiftFacts) -> Panel:
    title = titles.ftt_title(facts.tests)
    shifts = max((len(series.points) for series in facts.tests), default=0)
    known = any(series.limits_known for series in facts.tests)
    caption = f"Share passed at the first counted run, last {counted(shifts, period_noun())}. "
    caption += (
        f"Shaded: the usual range, p′ limits for each {period_noun()}'s own units. Triangle: outside it."
        if known
        else f"No usual range: fewer than 12 settled {period_noun()}s so far."
    )
    svg = ""
    if any(point.tested for series in facts.tests for point in series.points):
        from eol.figures.ftt_history import ftt_charts
        from eol.figures.svg import chart_svg

        svg = "".join(
            chart_svg(chart, name=f"ftt-{at}", label=f"{series.title}: {percent(series.now.ftt)}")
            for at, (series, chart) in enumerate(
                zip(facts.tests, ftt_charts(facts.tests), strict=True)
            )
        )
    return Panel(
        "p-ftt", title, caption, "t-history", svg, f"No unit was tested in this {period_noun()}"
    )


def _pareto(facts: ShiftFacts) -> Panel:
    title = titles.pareto_title(facts.pareto, facts.signals)
    caption = "Shaded: usual. Severity:"
    svg = ""
    if facts.pareto.rows:
        from eol.figures.pareto import pareto_chart
        from eol.figures.svg import chart_svg

        svg = chart_svg(pareto_chart(facts.pareto), name="pareto", label=title, linked=True)
    words = "No defect was found" if facts.tested else f"No unit was tested in this {period_noun()}"
    return Panel("p-pareto", title, caption, "t-pareto", svg, words, severities=True)


def _window(facts: ShiftFacts) -> Panel:
    """The 20 shifts that end with this one beside its own defects."""
    from eol.figures.ranks import rank_chart
    from eol.figures.svg import chart_svg

    title = titles.window_title(facts.signals.window)
    caption = "Per 100 at risk. Right: 90% range of ranks."
    more = "95% interval; tick: the rate drawn toward the test's other codes."
    svg = chart_svg(rank_chart(facts.signals.window), name="window", label=title)
    return Panel("p-window", title, caption, "t-window", svg, "", more=more)


def _zones(facts: ShiftFacts) -> Panel:
    title = titles.zones_title(facts.zones, facts.signals)
    caption = "All tests, seen from above; darker is more."
    if facts.zones.off_map:
        caption += f" {counted(facts.zones.off_map, 'defect')} not on the map."
    svg = ""
    if facts.zones.placed and facts.tested:
        from eol.figures.svg import chart_svg
        from eol.figures.zone_map import zone_map

        svg = chart_svg(zone_map(facts.zones), name="zones", label=title, linked=True)
    words = "No zone with a place on the unit is in the catalogue"
    if not facts.tested:
        words = f"No unit was tested in this {period_noun()}"
    return Panel("p-zones", title, caption, "t-zones", svg, words)


def _bays(facts: ShiftFacts) -> Panel:
    title = titles.bays_title(facts.bays, facts.signals)
    caption = "95% interval; tick: other bays."
    svg = more = ""
    if any(bay.low is not None for bay in facts.bays):
        from eol.figures.bays import bay_chart, shown_bays
        from eol.figures.svg import chart_svg

        left_out = len(facts.bays) - len(shown_bays(facts.bays))
        more = f"{counted(left_out, 'bay')} in the table only." if left_out else ""
        svg = chart_svg(bay_chart(facts.bays), name="bays", label=title)
    words = f"No unit was tested in this {period_noun()}"
    return Panel("p-bays", title, caption, "t-bays", svg, words, more=more)


def _open(facts: ShiftFacts) -> Panel:
    title = titles.open_title(facts.open_units)
    caption = f"{_as_of(facts)}{queue_words(facts.queue)}".strip()
    more = "One mark a unit and test, by time waited. Diamond: over a day."
    if not caption:
        caption, more = more, ""
    svg = ""
    if facts.open_units:
        from eol.figures.open_units import open_unit_chart
        from eol.figures.svg import chart_svg

        svg = chart_svg(open_unit_chart(facts.open_units), name="open", label=title)
    return Panel("p-open", title, caption, "t-open", svg, "No unit waits", more=more)


def _actions(facts: ShiftFacts) -> Panel:
    from eol.figures.actions import action_chart, shown_actions

    title = actions_title(facts.actions)
    caption = "Units with the code per 100: ○ before, ● after."
    more = "95% interval, by build sequence."
    svg = ""
    if shown := shown_actions(facts.actions):
        from eol.figures.svg import chart_svg

        left_out = len(facts.actions) - len(shown)
        more += f" {counted(left_out, 'action')} in the table only." if left_out else ""
        svg = chart_svg(action_chart(facts.actions), name="actions", label=title)
    words = "No action has cut in yet"
    return Panel("p-actions", title, caption, "t-actions", svg, words, more=more)


def _as_of(facts: ShiftFacts) -> str:
    """Say so where the page is of a shift long past: what waits is told as it is by now."""
    clock, end = facts.header.data_clock, facts.header.ends_at
    if clock is None or end is None or clock - end <= A_SHIFT:
        return ""
    return (
        f"As of {short_day(clock.date())} {time_words(clock)}, not at the {period_noun()}'s end. "
    )
