"""The signals of a shift as tables: codes of 20 shifts, what changed, bays over the last shifts."""

from __future__ import annotations

from collections.abc import Iterator

from eol.facts.mix import ALL_FAILS, MixShift
from eol.facts.shift import ShiftFacts
from eol.figures.wording import range_words
from eol.report.formats import period_noun, plain
from eol.report.table import Table
from eol.report.titles import about, change_words, code_title


def signal_tables(facts: ShiftFacts) -> Iterator[Table]:
    """Give the tables that have a row."""
    every = (_window(facts), _changed(facts), _mixes(facts), _bays(facts))
    yield from (table for table in every if table.rows)


def _window(facts: ShiftFacts) -> Table:
    columns: tuple[str, ...] = ("code", "title", "test", "defects", "at risk", "per 100 at risk")
    columns += ("low", "high", "shrunk", "rank", "rank in its test", "by rate in its test")
    columns += ("demerits", "rank by demerits", "repair minutes", "rank by minutes")
    rows = tuple(
        (
            code.code,
            code.title,
            facts.titles.get(code.test, code.test),
            str(code.defects),
            str(code.at_risk),
            plain(code.per_100, 2),
            plain(code.low, 2),
            plain(code.high, 2),
            plain(code.shrunk, 2),
            range_words(code.place_range),
            range_words(code.rank_range),
            range_words(code.by_rate),
            plain(code.demerits, 0),
            range_words(code.by_demerits),
            plain(code.minutes, 0),
            range_words(code.by_minutes),
        )
        for code in facts.signals.window
    )
    note = "Low and high: exact 95% interval. Shrunk: pulled toward the other codes of the test by how "
    note += "little is known of it. Ranks: the range that 90% of 10,000 draws of all rates give."
    title = "Defects by code over the 20 shifts that end with this one"
    return Table("t-window", title, columns, rows, frozenset(range(3, 16)), note)


def _changed(facts: ShiftFacts) -> Table:
    columns = (
        "code",
        "finding",
        f"{period_noun()}s",
        "defects",
        "units at risk",
        "expected",
        "by chance",
    )
    rows = tuple(
        (
            one.code,
            change_words(facts.pareto, one),
            str(one.shifts),
            str(one.defects),
            str(one.units),
            "–" if one.usual is None else about(one.usual),
            f"{one.p:.1g}",
        )
        for one in facts.signals.changed
    )
    note = "By chance: how likely it is without a cause, corrected for all codes looked at."
    return Table(
        "t-changed", "Codes that have changed", columns, rows, frozenset({2, 3, 4, 5, 6}), note
    )


def _mixes(facts: ShiftFacts) -> Table:
    columns = (
        "code",
        "title",
        f"{period_noun()}s",
        "before",
        "now",
        "mix",
        "process",
        "grouped by",
    )
    rows = tuple(
        (
            mix.code,
            _mix_title(facts, mix),
            str(mix.shifts),
            plain(mix.before, 2),
            plain(mix.after, 2),
            f"{mix.mix:+.2f}",
            f"{mix.process:+.2f}",
            mix.grouped_by,
        )
        for mix in facts.signals.mixes
    )
    note = "Per hundred tested units; mix and process sum to the difference (Kitagawa)."
    return Table("t-mix", "Mix or process", columns, rows, frozenset({2, 3, 4, 5, 6}), note)


def _mix_title(facts: ShiftFacts, mix: MixShift) -> str:
    if mix.code == ALL_FAILS:
        return f"{facts.titles.get(mix.test, mix.test)}: all that failed"
    return code_title(facts.pareto, mix.test, mix.code)


def _bays(facts: ShiftFacts) -> Table:
    columns: tuple[str, ...] = ("test", "bay", "code", "finding", "units", "of", "neighbours", "of")
    columns += ("odds ratio", "by chance")
    rows = tuple(
        (
            facts.titles.get(one.test, one.test),
            one.name,
            one.code or "any fail",
            "too many" if one.kind == "more" else "too few",
            str(one.failed),
            str(one.tested),
            str(one.others_failed),
            str(one.others_tested),
            plain(one.ratio, 2),
            f"{one.p:.1g}",
        )
        for one in facts.signals.bays
    )
    note = "Within shift and model, over the last shifts; corrected for all bays and codes."
    return Table("t-bays-8", "Bays that differ", columns, rows, frozenset(range(4, 10)), note)
