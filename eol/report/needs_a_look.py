"""What needs a look, ranked by what it costs to overlook it, each with where to start."""

from __future__ import annotations

from collections.abc import Iterator

from eol.facts.ftt import FttSeries
from eol.facts.late import LateReport
from eol.facts.mix import ALL_FAILS
from eol.facts.shift import ShiftFacts
from eol.report.actions import action_looks
from eol.report.formats import (
    day_words,
    listed,
    percent,
    period_noun,
    plain,
    sentence,
    time_words,
)
from eol.report.look import Look
from eol.report.look_signals import cost_of_test, signal_looks, test_words, told_by_code
from eol.report.seeing import seeing_looks
from eol.report.titles import code_words, title_within
from eol.words import counted

SHOWN = 5


def needs_a_look(facts: ShiftFacts) -> tuple[Look, ...]:
    """Return every line that a rule gives, the dearest first; one quiet line where none does."""
    found = [
        *_escapes(facts),
        *_safety(facts),
        *_untested(facts),
        *_void(facts),
        *_tests_outside(facts),
        *signal_looks(facts),
        *seeing_looks(facts),
        *action_looks(facts),
        *_target(facts),
        *_pending(facts),
        *_silent(facts),
        *_late(facts),
        *_rejected(facts),
        *_unwritten(facts),
    ]
    found.sort(key=lambda look: (-look.cost, look.head))
    return tuple(found) or (_quiet(facts),)


def _escapes(facts: ShiftFacts) -> Iterator[Look]:
    """A unit past sign-off or shipping without proof costs most (rule 14)."""
    if not facts.escapes:
        return
    fresh = [escape for escape in facts.escapes if escape.in_shift]
    first = facts.escapes[0]
    vins = len({escape.vin for escape in facts.escapes})
    new = len({escape.vin for escape in fresh})
    head = counted(new, "escape") if new else f"{counted(vins, 'escape')} still open from before"
    if new and vins > new:
        head += f", and {vins - new} still open from before"
    event = first.event.replace("_", " ")
    start = f"{first.vin}: {_reason(first.reason)} in the {first.title.lower()} at {event}."
    yield Look("stop", 100, head, start, "t-escapes")


def _reason(reason: str) -> str:
    return {"no_record": "no record", "void": "only void runs"}.get(reason, reason)


def _safety(facts: ShiftFacts) -> Iterator[Look]:
    """A safety-related finding of the shift is named by VIN, never averaged away."""
    fresh = [unit for unit in facts.safety_units if unit.in_shift]
    if not fresh:
        return
    first = fresh[0]
    vins = len({unit.vin for unit in fresh})
    where = f" ({first.place})" if first.place else ""
    start = f"{first.vin}{where}: {first.handling}"
    yield Look(
        "stop", 90, f"{counted(vins, 'unit')} with a safety-related finding", start, "safety"
    )


def _untested(facts: ShiftFacts) -> Iterator[Look]:
    """A test without any unit, while others ran, makes the shift's figures half."""
    if not facts.tested:
        return
    for series in facts.tests:
        if series.required and not series.now.tested:
            start = f"{counted(series.presented, 'unit')} presented, {series.void_runs} void runs."
            head = f"No unit was tested in the {title_within(series)}"
            yield Look("look", 80, head, sentence(start), "p-ftt")


def _void(facts: ShiftFacts) -> Iterator[Look]:
    """Void tests over usual: the test could not see (rule 4)."""
    void = facts.strip.void_tests
    if not void.beyond_usual or void.usual is None or not void.value:
        return
    usual = f"usually {plain(void.usual.low, 0)} to {plain(void.usual.high, 0)}"
    by_test = sorted(facts.tests, key=lambda series: -series.void_runs)
    parts = [f"{s.title} {s.void_runs}" for s in by_test if s.void_runs]
    bays = sorted(facts.bays, key=lambda bay: -bay.void_runs)
    worst = f"; most in {bays[0].name} ({bays[0].void_runs})" if bays and bays[0].void_runs else ""
    start = f"{listed(parts)}{worst}. Look at the conditions of these runs."
    yield Look("look", 70, f"{counted(int(void.value), 'void test')}, {usual}", start, "t-ftt")


def _tests_outside(facts: ShiftFacts) -> Iterator[Look]:
    for series in facts.tests:
        now = series.now
        if now.below and told_by_code(facts, series) is None:
            start = _start_of_test(facts, series)
            yield Look("look", cost_of_test(series), test_words(series), start, "p-ftt")
        elif now.above and now.usual:
            head = f"{series.title} FTT {percent(now.ftt)}, above its limit of "
            head += percent(now.usual.high)
            start = "Too good: check its conditions and its reference units."
            yield Look("look", 42, head, start, "p-ftt")


def _start_of_test(facts: ShiftFacts, series: FttSeries) -> str:
    """The leading code of the test, its bay that passes fewest, and whether other units were built."""
    codes = [row for row in facts.pareto.rows if row.test == series.test]
    defects = sum(row.defects for row in codes)
    parts = []
    if codes:
        parts.append(f"{code_words(codes[0])}: {codes[0].defects} of {counted(defects, 'defect')}")
    few = [b for b in facts.bays if b.test == series.test and b.differs == "fewer"]
    parts += [
        f"bay {bay.name} failed {bay.tested - bay.passed_first} of {bay.tested}" for bay in few
    ]
    mix = facts.signals.mix_of((series.test, ALL_FAILS))
    if mix is not None and mix.mostly_mix:
        parts.append(f"mostly a mix of {mix.grouped_by}")
    return sentence("; ".join(parts) or "no finding tells why") + "."


def _target(facts: ShiftFacts) -> Iterator[Look]:
    ftt = facts.strip.line_ftt
    if ftt.misses_target:
        head = f"Line FTT {percent(ftt.value)} is below its target of {percent(ftt.target, 0)}"
        tests = [s for s in facts.tests if s.now.ftt is not None]
        worst = min(tests, key=lambda s: s.now.ftt or 0.0, default=None)
        start = f"Lowest test: {worst.title}, {percent(worst.now.ftt)}." if worst else ""
        yield Look("look", 45, head, start, "p-ftt")


def _pending(facts: ShiftFacts) -> Iterator[Look]:
    pending = sum(series.pending for series in facts.tests)
    untested = facts.strip.built - facts.strip.tested_in_full
    if facts.strip.void_tests.beyond_usual or not (untested or pending):
        return
    parts = [f"{s.title} {s.pending}" for s in facts.tests if s.pending]
    if pending > max(5, 0.02 * facts.tested):
        head = f"{counted(pending, 'unit')} with void runs only"
        yield Look("ask", 25, head, f"{listed(parts)}: they wait for a run that counts.", "t-ftt")


def _silent(facts: ShiftFacts) -> Iterator[Look]:
    silent = facts.header.silent
    if silent and not facts.header.running:
        head = f"{counted(len(silent), 'station')} not heard from since the {period_noun()}'s end"
        last = listed([f"{s.station} last {time_words(s.last_at)}" for s in silent[:4]])
        yield Look("data", 20, head, f"{last}; the figures may still move.", "t-stations")


def _late(facts: ShiftFacts) -> Iterator[Look]:
    """Reports of earlier shifts that came late, or that somebody has not got."""
    if facts.late:
        many = len(facts.late) > 1
        head = f"{counted(len(facts.late), 'earlier report')} came late or {'are' if many else 'is'} missing"
        start = "; ".join(_late_words(report) for report in facts.late[:3])
        yield Look("data", 15, head, f"{start}.", "")


def _late_words(report: LateReport) -> str:
    parts = [] if report.hours is None else [f"{report.hours:.0f} h late"]
    parts += [f"{report.waiting} wait for it"] if report.waiting else []
    parts += [f"{counted(report.refused, 'recipient')} refused"] if report.refused else []
    return f"{day_words(report.production_date)} {report.shift}: {listed(parts)}"


def _rejected(facts: ShiftFacts) -> Iterator[Look]:
    if facts.refused_rows:
        head = f"{counted(facts.refused_rows, 'row')} of the files could not be read"
        yield Look("data", 10, head, "Reasons: eol status.", "t-stations")


def _unwritten(facts: ShiftFacts) -> Iterator[Look]:
    """The page is right; what SQL sees of it is older."""
    if facts.unwritten:
        start = f"{sentence(facts.unwritten)}. Run the command at the foot of the page again."
        yield Look("data", 5, "What was computed is not in the table answer", start, "t-stations")


def _quiet(facts: ShiftFacts) -> Look:
    """Say that nothing needs a look, and only what was looked at."""
    if not facts.tested:
        return Look(
            "quiet",
            0,
            f"No unit was tested in this {period_noun()}",
            "There is nothing to say.",
            "",
        )
    known = any(series.limits_known for series in facts.tests)
    usual = (
        "every figure is in its usual range"
        if known
        else f"there are too few {period_noun()}s yet to say what is usual"
    )
    return Look("quiet", 0, "Nothing needs a look", f"Every station was heard from; {usual}.", "")


__all__ = ["SHOWN", "Look", "needs_a_look"]
