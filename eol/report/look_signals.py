"""What needs a look because it differs from usual beyond chance: codes, zones, bays, and mix."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from eol.facts.bay_signals import BaySignal
from eol.facts.bays import Bay
from eol.facts.changed import Changed
from eol.facts.ftt import FttSeries
from eol.facts.mix import MixShift
from eol.facts.shift import ShiftFacts
from eol.report.formats import listed, percent, period_noun, sentence
from eol.report.look import Look
from eol.report.titles import bay_words, change_words, code_title, zone_words, zones_told
from eol.words import counted

SEE = "Can it see? Check its conditions and reference units."


def signal_looks(facts: ShiftFacts) -> Iterator[Look]:
    """Give a line for each changed or new code, each bay, zone and mix that stands out."""
    yield from _codes(facts)
    yield from _bays(facts)
    yield from _zones(facts)
    yield from _mixes(facts)


def _codes(facts: ShiftFacts) -> Iterator[Look]:
    for changed in facts.signals.changed:
        expected = changed.usual or 0.5
        cost = 50 + min(9.0, changed.defects / max(1.0, expected))
        kind = "look"
        if changed.kind == "new":
            cost, kind = 30 + min(9.0, changed.defects), "ask"
        start = start_of_code(facts, changed)
        for series in facts.tests:
            if told_by_code(facts, series) is changed:
                start = f"{start} {test_words(series)}."
                cost = max(cost, cost_of_test(series))
        yield Look(kind, cost, change_words(facts.pareto, changed), start, "p-pareto")


def told_by_code(facts: ShiftFacts, series: FttSeries) -> Changed | None:
    """Return the changed code that explains a test below its limit, its leading one: one line tells both."""
    leading = next((row.code for row in facts.pareto.rows if row.test == series.test), None)
    if not series.now.below:
        return None
    return next(
        (
            one
            for one in facts.signals.changed
            if (one.test, one.code) == (series.test, leading) and one.kind != "new"
        ),
        None,
    )


def test_words(series: FttSeries) -> str:
    """Return how far a test is below its limit: `Water test FTT 91.0%, below its limit of 93.5%`."""
    low = series.now.usual.low if series.now.usual else None
    return f"{series.title} FTT {percent(series.now.ftt)}, below its limit of {percent(low)}"


def cost_of_test(series: FttSeries) -> float:
    """Return what it costs to overlook a test below its limit: more the further it is."""
    now = series.now
    return 60 + 9 * (now.usual.low - now.ftt) if now.usual and now.ftt is not None else 60


def start_of_code(facts: ShiftFacts, changed: Changed) -> str:
    """Where most units of a code were found, on the unit and in the plant; by mix where it is."""
    same = (changed.test, changed.code)
    units = [unit for unit in facts.units_with_code if (unit.test, unit.code) == same]
    zone = Counter(unit.zone for unit in units if unit.zone).most_common(1)
    bay = Counter(
        " ".join(part for part in (unit.station, unit.bay) if part) for unit in units
    ).most_common(1)
    parts = [f"{n} at {name}" for name, n in zone]
    parts += [f"{n} in {name}" for name, n in bay if name]
    start = f"{changed.code}: " + (listed(parts) or counted(len(units), "unit"))
    mix = facts.signals.mix_of(same)
    if mix is not None and mix.mostly_mix:
        start += f"; mostly a mix of {mix.grouped_by}"
    return start + "; units listed below."


def _bays(facts: ShiftFacts) -> Iterator[Look]:
    """Too good costs as much as too bad: a bay that cannot see lets leaks through."""
    told = facts.signals.bays
    named = {(one.test, one.name) for one in told}
    by_code = {(one.test, one.name): one for one in reversed(told) if one.code}
    false = {(one.test, one.name) for one in facts.seeing.false_fails}
    for one in told:
        # The line of its false fails tells the same of such a bay, and why.
        if one.kind != "fewer" and (one.test, one.name) in false:
            continue
        if one.code and any(o.code is None and o.name == one.name for o in told):
            continue
        cost = 46 + 2 * (1 - one.p)
        also = None if one.code else by_code.get((one.test, one.name))
        yield Look("look", cost, bay_words(one), _start_of_bay(one, also), "p-bays")
    for bay in facts.bays:
        if bay.differs and (bay.test, bay.name) not in named:
            head = f"Bay {bay.name} passes {bay.differs} than its neighbours"
            yield Look("look", 40 + 4 * (1 - bay.by_luck), head, _start_of_shift(bay), "p-bays")


def _start_of_bay(one: BaySignal, by_code: BaySignal | None) -> str:
    """What to ask first, then the numbers: within shift and model, so that its units are no excuse."""
    verb = "failed" if one.code is None else "had it"
    numbers = f"{one.failed} of {one.tested} {verb} in {counted(one.shifts, period_noun())}, "
    numbers += f"neighbours {one.others_failed} of {one.others_tested}"
    if one.kind == "fewer":
        return f"Can it see? {numbers}; check its conditions and reference units."
    if by_code is not None:
        numbers += f"; {by_code.code} {by_code.failed}, neighbours {by_code.others_failed}"
    return f"Do its fails pass elsewhere? {sentence(numbers)}."


def _start_of_shift(bay: Bay) -> str:
    start = f"{bay.title}: {percent(bay.ftt)} against {percent(bay.others_ftt)}. "
    return start + (SEE if bay.differs == "more" else "Compare its conditions with theirs.")


def _zones(facts: ShiftFacts) -> Iterator[Look]:
    """A zone is told where no changed code tells it already."""
    changed = {(one.test, one.code) for one in facts.signals.changed}
    for zone in zones_told(facts.zones, facts.signals):
        units = [unit for unit in facts.units_with_code if unit.zone == zone.code]
        if any((unit.test, unit.code) in changed for unit in units):
            continue
        codes = Counter(unit.code for unit in units).most_common(2)
        start = f"{zone.code}: {listed([f'{n} {code}' for code, n in codes])}; units listed below."
        yield Look("look", 38, sentence(zone_words(facts.zones, zone)), start, "p-zones")


def _mixes(facts: ShiftFacts) -> Iterator[Look]:
    """A rise that comes from what was built needs another answer than a fault of the process."""
    for mix in facts.signals.mix_alone:
        title = code_title(facts.pareto, mix.test, mix.code)
        head = f"{title} up: mix, not process"
        yield Look("ask", 35, head, _start_of_mix(mix), "p-pareto")


def _start_of_mix(mix: MixShift) -> str:
    parts = f"{mix.mix:+.2f} mix, {mix.process:+.2f} process per hundred units"
    numbers = f"{parts} in {counted(mix.shifts, period_noun())}, from {mix.before:.2f} to {mix.after:.2f}."
    if mix.at_risk_before == mix.at_risk:
        return f"Other {mix.grouped_by} were built: {numbers}"
    share, before = percent(mix.at_risk, 0), percent(mix.at_risk_before, 0)
    return f"{share} of the units can have it, before {before}: {numbers}"
