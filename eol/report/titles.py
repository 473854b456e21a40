"""The title of each panel: the finding in one line, made by rule from the facts."""

from __future__ import annotations

from collections.abc import Sequence

from eol.facts.bays import Bay
from eol.facts.ftt import FttSeries
from eol.facts.pareto import Pareto, ParetoRow
from eol.facts.units import OpenUnit, SafetyUnit
from eol.facts.zones import Zones
from eol.report.formats import count, in_words, listed, percent, plain, sentence

STANDS_OUT = 1 / 3
"""Share of the placed defects from which one zone is named in the title."""

FEWEST = 5
"""Defects under which no zone is said to stand out."""


def ftt_title(tests: Sequence[FttSeries]) -> str:
    """Return what the tests' first-time-through says beside its usual range."""
    tested = [series for series in tests if series.now.tested]
    if not tested:
        return "No unit was tested in this shift"
    missing = [series for series in tests if series.required and not series.now.tested]
    if missing:
        return f"No unit had its {listed([title_within(s) for s in missing])} in this shift"
    below = [series for series in tested if series.now.below]
    above = [series for series in tested if series.now.above]
    if below or above:
        return _outside(tested, below, above)
    if not any(series.limits_known for series in tested):
        shares = [f"{title_within(s)} {percent(s.now.ftt)}" for s in tested]
        return sentence(listed(shares)) + ": too few shifts for a usual range"
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


def pareto_title(pareto: Pareto) -> str:
    """Return which code stands out over its usual range, else which one leads."""
    if not pareto.rows:
        return "No defect was found in this shift"
    defects = count(pareto.defects, "defect")
    for row in pareto.rows:
        if row.above_usual and row.usual:
            usual = f"usually {plain(row.usual.low)} to {plain(row.usual.high)}"
            return f"{code_words(row)}: {row.defects}, {usual}"
    if any(row.usual for row in pareto.rows):
        return f"No code is above its usual count: {defects}"
    first = pareto.rows[0]
    if len(pareto.rows) > 1 and pareto.rows[1].defects == first.defects:
        return f"No code leads: {defects}"
    return f"{code_words(first)} leads: {first.defects} of {defects}"


def zones_title(zones: Zones) -> str:
    """Return the zone in which the defects gather, if one does."""
    if not zones.placed:
        return "No zone of the unit is known"
    if not zones.defects:
        return "No defect has a place on the map"
    first = zones.placed[0]
    if first.defects >= FEWEST and first.defects >= STANDS_OUT * zones.defects:
        return f"{first.defects} of {zones.defects} placed defects: {first.title}"
    return "No zone stands out"


def bays_title(bays: Sequence[Bay]) -> str:
    """Return the bay that differs most from its test's others, if one does."""
    tested = [bay for bay in bays if bay.tested]
    void = [bay for bay in bays if bay.mostly_void]
    if void:
        return f"Bay {void[0].name}: {count(void[0].void_runs, 'void run')}"
    differing = sorted((bay for bay in tested if bay.differs), key=lambda bay: bay.by_luck)
    if differing:
        first, more = differing[0], len(differing) - 1
        end = f", {in_words(more)} more {'differs' if more == 1 else 'differ'}" if more else ""
        return f"Bay {first.name} passes {first.differs} than its neighbours{end}"
    if not tested:
        return "No bay tested a unit in this shift"
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
    return f"{count(waiting, 'unit')} {verb}, {end}"


def safety_title(units: Sequence[SafetyUnit]) -> str:
    """Return how many units have a safety-related finding and no release."""
    vins = len({unit.vin for unit in units})
    if not vins:
        return "No safety-related finding without a release"
    fresh = len({unit.vin for unit in units if unit.in_shift})
    verb = "has" if vins == 1 else "have"
    end = f", {fresh or 'none'} from this shift" if fresh != vins else ""
    return f"{count(vins, 'unit')} {verb} a safety-related finding{end}"
