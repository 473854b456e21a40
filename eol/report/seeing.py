"""Whether the tests could see, on the page: lines that need a look, tables, and the repair queue."""

from __future__ import annotations

from collections.abc import Iterator

from eol.facts.drift import Drift
from eol.facts.false_fails import FalseFails
from eol.facts.ftt import Window
from eol.facts.queue import RepairQueue
from eol.facts.seeing import CheckedBay, DoubleLooks
from eol.facts.shift import ShiftFacts
from eol.figures.wording import hours_words
from eol.report.formats import percent, plain, short_day
from eol.report.look import Look
from eol.report.table import Table
from eol.words import counted


def seeing_looks(facts: ShiftFacts) -> Iterator[Look]:
    """Give a line for each missed check, drift, false bench and disagreement, and for the queue."""
    seeing = facts.seeing
    yield from (_missed(facts, one) for one in seeing.checks if one.missed)
    yield from (_drift(facts, one) for one in seeing.drifts)
    yield from (_false(facts, one) for one in seeing.false_fails)
    yield from (_double(facts, one) for one in seeing.double_looks if one.disagree)
    if facts.queue is not None and facts.queue.does_not_add_up:
        yield _queue(facts.queue)


def _missed(facts: ShiftFacts, one: CheckedBay) -> Look:
    times = f", {one.in_a_row} times in a row" if one.in_a_row > 1 else ""
    start = f"{_test(facts, one.test)}: {one.good} of the last {one.checks} checks good, so it "
    start += (
        f"finds at least {percent(one.low, 0)}. Its passes since the last good one are unchecked."
    )
    return Look("look", 68, f"{one.name} missed its reference unit{times}", start, "t-checks")


def _drift(facts: ShiftFacts, one: Drift) -> Look:
    unit = f" {one.measure_unit}" if one.measure_unit else ""
    place = f"{one.station} {one.bay}" if one.bay else one.station
    head = f"{place}: {one.name} at {plain(one.level, 0)}{unit}, usually {plain(one.usual, 0)}"
    start = f"{_test(facts, one.test)}: {'beyond' if one.beyond else 'near'} its {one.side} limit, "
    start += f"{plain(one.limit, 0)}{unit}, since {_shift(one.since)}."
    if one.runs_left:
        start += f" At this trend it is there in about {one.runs_left} runs."
    start += " Mend it before its passes are void." if not one.beyond else ""
    return Look("look", 47 if one.beyond else 58, head, start, "t-drifts")


def _false(facts: ShiftFacts, one: FalseFails) -> Look:
    what = f" with {one.code}" if one.code else ""
    head = f"{one.name}: fails{what} pass elsewhere without a repair"
    start = f"{_test(facts, one.test)}: {one.elsewhere} of {one.told} "
    start += f"({percent(one.low, 0)} to {percent(one.high, 0)}), other benches "
    start += f"{one.others_elsewhere} of {one.others_told}. Check the bench before the units."
    return Look("look", 48.5, head, start, "t-false")


def _double(facts: ShiftFacts, one: DoubleLooks) -> Look:
    kappa = one.agreement
    head = f"{_test(facts, one.test)}: audits do not agree with it"
    start = f"Kappa {plain(kappa.kappa, 2)} ({plain(kappa.low, 2)} to {plain(kappa.high, 2)}) over "
    start += f"{counted(kappa.n, 'unit')}: {one.only_first} failed at first alone, "
    start += f"{one.only_audit} at the audit alone."
    return Look("ask", 28, head, start, "")


def _queue(queue: RepairQueue) -> Look:
    more = (queue.little.ratio or 0) > 1
    head = f"{'More' if more else 'Fewer'} units wait than arrivals and time explain"
    start = (
        f"{plain(queue.little.seen, 0)} on average, {plain(queue.little.foretold, 0)} foretold: "
    )
    start += "old ones are stuck, or repairs are not recorded."
    return Look("data", 18, head, start, "t-queue")


def _test(facts: ShiftFacts, test: str) -> str:
    return facts.titles.get(test, test)


def _shift(window: Window) -> str:
    return f"{short_day(window[0])} {window[1] or 'between shifts'}"


def queue_words(queue: RepairQueue | None) -> str:
    """Return how long clearing takes, for the caption of what waits; empty where it is not known."""
    if queue is None or queue.waits.median is None:
        return ""
    return f"Half are clear within {hours_words(queue.waits.median)}. "


def seeing_tables(facts: ShiftFacts) -> Iterator[Table]:
    """Give the tables that have a row."""
    every = (_checks(facts), _drifts(facts), _falses(facts), _queue_table(facts.queue))
    yield from (table for table in every if table.rows)


def _checks(facts: ShiftFacts) -> Table:
    columns = ("test", "bay", "checks", "good", "finds at least", "missed in this shift")
    rows = tuple(
        (
            _test(facts, one.test),
            one.name,
            str(one.checks),
            str(one.good),
            percent(one.low, 0),
            str(one.missed),
        )
        for one in facts.seeing.checks
    )
    note = "Finds at least: one-sided 95% bound of the share of such faults that the bay finds."
    return Table(
        "t-checks", "Checks by reference units", columns, rows, frozenset({2, 3, 4, 5}), note
    )


def _drifts(facts: ShiftFacts) -> Table:
    columns = ("test", "station", "bay", "condition", "now", "usual", "limit", "unit", "since")
    rows = tuple(
        (
            _test(facts, one.test),
            one.station,
            one.bay or "",
            one.name,
            plain(one.level),
            plain(one.usual),
            plain(one.limit),
            one.measure_unit,
            _shift(one.since),
        )
        for one in facts.seeing.drifts
    )
    note = "Moving averages (EWMA) that have used up half of the way to a limit."
    return Table("t-drifts", "Conditions near a limit", columns, rows, frozenset({4, 5, 6}), note)


def _falses(facts: ShiftFacts) -> Table:
    columns = ("test", "bench", "code", "passed elsewhere", "of", "low", "high", "others", "of")
    rows = tuple(
        (
            _test(facts, one.test),
            one.name,
            one.code or "any",
            str(one.elsewhere),
            str(one.told),
            percent(one.low, 0),
            percent(one.high, 0),
            str(one.others_elsewhere),
            str(one.others_told),
        )
        for one in facts.seeing.false_fails
    )
    note = "Fails that passed at another bench without a repair between, over the last 20 shifts."
    title = "Benches whose fails pass elsewhere"
    return Table("t-false", title, columns, rows, frozenset(range(3, 9)), note)


def _queue_table(queue: RepairQueue | None) -> Table:
    rows: tuple[tuple[str, str], ...] = ()
    if queue is not None:
        waits, little = queue.waits, queue.little
        rows = (
            ("began to wait", str(queue.arrivals)),
            ("cleared", str(queue.cleared)),
            ("repairs ended", str(queue.repairs)),
            ("half are clear within, hours", plain(waits.median)),
            ("from", plain(waits.median_low)),
            ("to", plain(waits.median_high)),
            ("wait on average", plain(little.seen)),
            ("foretold by arrivals and time", plain(little.foretold)),
            *((f"wait now, {name}", str(units)) for name, units in queue.bands),
            ("wait now after two fails or more", str(queue.open_twice)),
            ("cleared after two fails or more", str(queue.cleared_twice)),
        )
    note = (
        "From a fail to the pass that clears it, over the last 20 shifts; open units are censored "
    )
    note += "(Kaplan-Meier), 95% interval of the median. Foretold: Little's law."
    return Table("t-queue", "Repair queue", ("figure", "value"), rows, frozenset({1}), note)
