"""The title of each panel: the finding in one line, made by rule from the facts."""

from __future__ import annotations

from collections.abc import Sequence

from eol.facts.bay_signals import BaySignal
from eol.facts.bays import Bay
from eol.facts.changed import Changed
from eol.facts.ftt import FttSeries
from eol.facts.pareto import Pareto, ParetoRow
from eol.facts.ranks import RankedCode
from eol.facts.signals import Signals
from eol.facts.units import OpenUnit, SafetyUnit
from eol.facts.zones import Zones
from eol.report.formats import in_words, listed, percent, period_noun, plain, sentence
from eol.words import counted

STANDS_OUT = 1 / 4
"""Share of the placed defects from which one zone is named in the title."""

NO_SIGNALS = Signals()

FEWEST = 5
"""Defects under which no zone is said to stand out."""


def ftt_title(tests: Sequence[FttSeries]) -> str:
    """Return what the tests' first-time-through says beside its usual range."""
    tested = [series for series in tests if series.now.tested]
    if not tested:
        return f"No unit was tested in this {period_noun()}"
    missing = [series for series in tests if series.required and not series.now.tested]
    if missing:
        return (
            f"No unit had its {listed([title_within(s) for s in missing])} in this {period_noun()}"
        )
    below = [series for series in tested if series.now.below]
    above = [series for series in tested if series.now.above]
    if below or above:
        return _outside(tested, below, above)
    if not any(series.limits_known for series in tested):
        shares = [f"{title_within(s)} {percent(s.now.ftt)}" for s in tested]
        return sentence(listed(shares)) + f": too few {period_noun()}s for a usual range"
    everyone = {1: "The test is in its", 2: "Both tests are in their"}
    start = everyone.get(len(tested), f"All {in_words(len(tested))} tests are in their")
    return f"{start} usual range"


def title_within(series: FttSeries) -> str:
    """Return a test's title as it stands within a sentence."""
    return series.title[:1].lower() + series.title[1:]


def _outside(
    tested: Sequence[FttSeries], below: Sequence[FttSeries], above: Sequence[FttSeries]
) -> str:
    parts = [f"{listed([title_within(s) for s in below])} fell below usual"] if below else []
    if above:
        parts.append(f"{listed([title_within(s) for s in above])} rose above usual")
    rest = len(tested) - len(below) - len(above)
    end = f"; the other{' ' + in_words(rest) if rest > 1 else ''} did not move" if rest else ""
    return sentence(", ".join(parts)) + end


def code_words(row: ParetoRow) -> str:
    """Return a code's title, or what to call it without one."""
    if row.code == "UNSPECIFIED":
        return "Failed, no finding"
    return row.title or row.code


def code_title(pareto: Pareto, test: str, code: str) -> str:
    """Return what to call a code of a test."""
    row = _row_of(pareto, test, code)
    return code_words(row) if row else code


def _row_of(pareto: Pareto, test: str, code: str) -> ParetoRow | None:
    return next((row for row in pareto.rows if (row.test, row.code) == (test, code)), None)


def about(number: float) -> str:
    """Return an expected count: with a digit where it is small.

    Example:
        >>> about(0.83), about(24.2)
        ('0.8', '24')
    """
    return f"{number:.1f}" if number < 10 else f"{number:.0f}"


def change_words(pareto: Pareto, changed: Changed) -> str:
    """Return how a code changed, in one line."""
    title = code_title(pareto, changed.test, changed.code)
    if changed.kind == "new":
        return f"New code: {title}, {changed.defects} in this {period_noun()} and never before"
    if changed.kind == "sooner":
        return f"{title} again after {counted(changed.gap or 0, 'unit')}, sooner than usual"
    if changed.shifts > 1:
        came = f"{changed.defects} in {counted(changed.shifts, period_noun())}"
        return f"{title}: {came}, usually about {about(changed.usual or 0)}"
    row = _row_of(pareto, changed.test, changed.code)
    # Within the range of single shifts the mean says why it is named: a range that holds the count would not.
    if row is None or row.usual is None or row.defects <= row.usual.high:
        return f"{title}: {changed.defects}, usually about {about(changed.usual or 0)}"
    return f"{title}: {row.defects}, usually {plain(row.usual.low)} to {plain(row.usual.high)}"


def bay_words(one: BaySignal) -> str:
    """Return how a bay differs from its neighbours over the last shifts, in one line."""
    if one.code is None:
        more = "more" if one.kind == "fewer" else "fewer"
        return f"Bay {one.name} passes {more} than its neighbours"
    often = "more often" if one.kind == "more" else "less often"
    return f"{one.name} finds {one.code} {often} than its neighbours"


def zones_told(zones: Zones, signals: Signals) -> list[Changed]:
    """Return the zones with more than usual, but those that have it from a mix alone."""
    mixed = {mix.code for mix in signals.mix_alone}
    leading = {zone.zone: zone.leading for zone in (*zones.placed, *zones.unplaced)}
    return [zone for zone in signals.zones if leading.get(zone.code) not in mixed]


def zone_words(zones: Zones, changed: Changed) -> str:
    """Return how many defects a zone has, beside what is usual for it."""
    every = (*zones.placed, *zones.unplaced)
    zone = next((zone for zone in every if zone.zone == changed.code), None)
    title = zone.title if zone else changed.code
    if changed.shifts > 1:
        came = f"{changed.defects} defects in {counted(changed.shifts, period_noun())}"
        return f"{title}: {came}, usually about {about(changed.usual or 0)}"
    came = f"{changed.defects} of {zones.defects} placed defects"
    return f"{title}: {came}, usually about {about(changed.usual or 0)}"


def pareto_title(pareto: Pareto, signals: Signals = NO_SIGNALS) -> str:
    """Return which code has changed, else which rise is mix, else which code leads."""
    if not pareto.rows:
        return f"No defect was found in this {period_noun()}"
    defects = counted(pareto.defects, "defect")
    changed = sorted(signals.changed, key=lambda one: one.kind == "new")
    if changed:
        more = len(changed) - 1
        end = f"; {in_words(more)} more changed" if more else ""
        return change_words(pareto, changed[0]) + end
    for mix in signals.mix_alone:
        return f"{code_title(pareto, mix.test, mix.code)} up: mix, not process"
    if any(row.usual for row in pareto.rows):
        return f"No code has changed beyond chance: {defects}"
    first = pareto.rows[0]
    if len(pareto.rows) > 1 and pareto.rows[1].defects == first.defects:
        return f"No code leads: {defects}"
    return f"{code_words(first)} leads: {first.defects} of {defects}"


def window_title(ranked: Sequence[RankedCode]) -> str:
    """Return which code leads the last 20 shifts, and how sure that is."""
    if not ranked:
        return "No defect in the last 20 shifts"
    first = ranked[0]
    rivals = [code for code in ranked if code.place_range and code.place_range.low == 1]
    title = first.title or first.code
    if len(rivals) <= 1:
        return f"{title} leads the last 20 shifts"
    return sentence(f"{in_words(len(rivals))} codes may lead the last 20 shifts")


def zones_title(zones: Zones, signals: Signals = NO_SIGNALS) -> str:
    """Return the zone that has more than usual, else the one in which the defects gather."""
    if not zones.placed:
        return "No zone of the unit is known"
    if not zones.defects:
        return "No defect has a place on the map"
    told = zones_told(zones, signals)
    if told:
        return zone_words(zones, told[0])
    first = zones.placed[0]
    if first.defects >= FEWEST and first.defects >= STANDS_OUT * zones.defects:
        return f"{first.defects} of {zones.defects} placed defects: {first.title}"
    return "No zone stands out"


def bays_title(bays: Sequence[Bay], signals: Signals = NO_SIGNALS) -> str:
    """Return the bay that differs most from its test's others, if one does."""
    tested = [bay for bay in bays if bay.tested]
    void = [bay for bay in bays if bay.mostly_void]
    if void:
        return f"Bay {void[0].name}: {counted(void[0].void_runs, 'void run')}"
    names = {(one.test, one.name) for one in signals.bays}
    differing = sorted((bay for bay in tested if bay.differs), key=lambda bay: bay.by_luck)
    more = len(names | {(bay.test, bay.name) for bay in differing}) - 1
    end = f", {in_words(more)} more {'differs' if more == 1 else 'differ'}" if more > 0 else ""
    if signals.bays:
        return bay_words(signals.bays[0]) + end
    if differing:
        return f"Bay {differing[0].name} passes {differing[0].differs} than its neighbours{end}"
    if not tested:
        return f"No bay tested a unit in this {period_noun()}"
    if not any(bay.others_ftt is not None for bay in tested):
        return "Each test ran in one bay"
    return "No bay differs from its neighbours"


def open_title(units: Sequence[OpenUnit]) -> str:
    """Return how many units wait, and how many for more than a day."""
    if not units:
        return "No unit waits"
    waiting = len({unit.vin for unit in units})
    old = len({unit.vin for unit in units if unit.over_a_day})
    verb = "waits" if waiting == 1 else "wait"
    end = "none over a day" if not old else f"{old} of them over a day"
    return f"{counted(waiting, 'unit')} {verb}, {end}"


def safety_title(units: Sequence[SafetyUnit]) -> str:
    """Return how many units have a safety-related finding and no release."""
    vins = len({unit.vin for unit in units})
    if not vins:
        return "No safety-related finding without a release"
    fresh = len({unit.vin for unit in units if unit.in_shift})
    verb = "has" if vins == 1 else "have"
    end = f", {fresh or 'none'} from this {period_noun()}" if fresh != vins else ""
    return f"{counted(vins, 'unit')} {verb} a safety-related finding{end}"
