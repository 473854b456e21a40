"""What the facts of a shift compute beyond the views, as rows of the table `answer`."""

from __future__ import annotations

from collections.abc import Iterator

from eol.facts.action_words import answer_rows as action_answers
from eol.facts.limits import Usual
from eol.facts.ranks import RankedCode
from eol.facts.seeing_words import QUESTIONS as SEEING_QUESTIONS
from eol.facts.seeing_words import answer_rows as seeing_answers
from eol.facts.shift import ShiftFacts
from eol.statistics.ranks import DRAWS, RankRange
from eol.words import Answer

QUESTIONS = frozenset(
    {"usual_range", "changed_code", "changed_zone", "pareto_window", "bay", "mix", "action"}
    | SEEING_QUESTIONS
)
"""The questions that a shift's report answers; old answers to them go when it is made again."""

_RANKS = f"90 % of {DRAWS} draws, gamma posterior, Jeffreys prior"


def shift_answers(facts: ShiftFacts) -> tuple[Answer, ...]:
    """Return the answers of a shift, in the order of its page; none holds a NaN."""
    return (
        *_usual_ranges(facts),
        *_changed(facts),
        *_window(facts),
        *_bays(facts),
        *_mixes(facts),
        *action_answers(facts.actions),
        *seeing_answers(facts.seeing, facts.queue),
    )


def _usual_ranges(facts: ShiftFacts) -> Iterator[Answer]:
    """The usual range of each figure: value is the figure, low and high what is usual, n its shifts."""
    for series in facts.tests:
        every, own = series.now.usual, series.crew_usual
        yield from _usual("ftt", series.now.ftt, every, test=series.test, method="p′")
        yield from _usual("ftt_own_crew", series.now.ftt, own, test=series.test, method="p′")
    strip = facts.strip
    for name, figure, method in (
        ("line_ftt", strip.line_ftt, "p′"),
        ("rty", strip.rty, "individuals"),
        ("dphu", strip.dphu, "u′"),
        ("void_tests", strip.void_tests, "u′"),
    ):
        yield from _usual(name, figure.value, figure.usual, method=method)
        yield from _usual(f"{name}_own_crew", figure.value, figure.crew_usual, method=method)
    for row in facts.pareto.rows:
        yield from _usual(
            "defects", float(row.defects), row.usual, test=row.test, code=row.code, method="u′"
        )


def _usual(
    name: str,
    value: float | None,
    usual: Usual | None,
    *,
    test: str | None = None,
    code: str | None = None,
    method: str,
) -> Iterator[Answer]:
    if usual is None:
        return
    words = None
    if value is not None:
        inside = "inside" if usual.holds(value) else "outside"
        words = "below" if value < usual.low else "above" if value > usual.high else inside
    yield Answer(
        question="usual_range",
        name=name,
        test=test,
        code=code,
        n=usual.shifts,
        value=value,
        low=usual.low,
        high=usual.high,
        words=words,
        method=method,
    )


def _changed(facts: ShiftFacts) -> Iterator[Answer]:
    """Changed codes and zones: value defects of n units at risk, low what is expected of them."""
    signals = facts.signals
    for one in (*signals.changed, *signals.zones):
        yield Answer(
            question="changed_code" if one.test else "changed_zone",
            name=one.kind,
            test=one.test or None,
            code=one.code if one.test else None,
            zone=None if one.test else one.code,
            subject=f"last {one.shifts} shifts",
            n=one.units,
            value=float(one.defects),
            words=None if one.usual is None else f"{one.usual:.2f} expected, p {one.p:.2g}",
            method="Poisson CUSUM, units between, Benjamini-Hochberg",
        )


def _window(facts: ShiftFacts) -> Iterator[Answer]:
    for code in facts.signals.window:
        yield from _ranked(code)


def _ranked(code: RankedCode) -> Iterator[Answer]:
    """A code of the last 20 shifts; `pareto_window` joins `per_100_at_risk` and `rank`."""
    rate = (float(code.per_100), code.low, code.high, "exact Poisson")
    shrunk = (code.shrunk, None, None, "gamma-Poisson, greatest likelihood")
    figures = {
        "per_100_at_risk": rate,
        "shrunk_per_100_at_risk": shrunk,
        "rank": _rank(code.rank_range, code.rank),
        "rank_per_100_at_risk": _rank(code.by_rate),
        "rank_all_tests": _rank(code.place_range, code.place),
        "rank_all_tests_by_demerits": _rank(code.by_demerits),
        "rank_all_tests_by_repair_minutes": _rank(code.by_minutes),
    }
    for name, figure in figures.items():
        if figure is not None:
            value, low, high, method = figure
            yield Answer(
                question="pareto_window",
                name=name,
                test=code.test,
                code=code.code,
                n=code.at_risk,
                value=value,
                low=low,
                high=high,
                method=method,
            )


def _rank(
    found: RankRange | None, rank: int | None = None
) -> tuple[float | None, float | None, float | None, str] | None:
    if found is None:
        return None
    return (None if rank is None else float(rank), float(found.low), float(found.high), _RANKS)


def _bays(facts: ShiftFacts) -> Iterator[Answer]:
    for one in facts.signals.bays:
        yield Answer(
            question="bay",
            name="too_many" if one.kind == "more" else "too_few",
            test=one.test,
            code=one.code,
            subject=one.name,
            n=one.tested,
            value=float(one.failed),
            words=f"{one.failed} of {one.tested}, neighbours {one.others_failed} of "
            f"{one.others_tested}, expected {one.expected:.1f}, p {one.p:.2g}",
            method=f"exact within shift and model, {one.shifts} shifts",
        )


def _mixes(facts: ShiftFacts) -> Iterator[Answer]:
    """A rise per hundred tested units: the whole of it, and its two parts."""
    for mix in facts.signals.mixes:
        for name, value in (
            ("difference", mix.after - mix.before),
            ("mix", mix.mix),
            ("process", mix.process),
        ):
            yield Answer(
                question="mix",
                name=name,
                test=mix.test,
                code=mix.code or None,
                subject=mix.grouped_by,
                n=mix.units,
                value=value,
                words="mix, not process" if mix.mostly_mix else "process",
                method=f"Kitagawa, last {mix.shifts} shifts against those before",
            )
