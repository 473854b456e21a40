"""Whether tests could see, and the repair queue, as rows of the table `answer`."""

from __future__ import annotations

from collections.abc import Iterator

from eol.facts.queue import RepairQueue
from eol.facts.seeing import Seeing
from eol.words import Answer

QUESTIONS = frozenset({"sees_at_least", "drift", "passed_elsewhere", "double_look", "queue"})
"""The questions whose answers these rows are."""


def answer_rows(seeing: Seeing, queue: RepairQueue | None) -> tuple[Answer, ...]:
    """Return what is known of the tests' sight and of the queue; none holds a NaN."""
    return (*_checks(seeing), *_drifts(seeing), *_false(seeing), *_looks(seeing), *_queue(queue))


def _checks(seeing: Seeing) -> Iterator[Answer]:
    for one in seeing.checks:
        yield Answer(
            question="sees_at_least",
            name="share",
            test=one.test,
            subject=one.name,
            n=one.checks,
            value=one.good / one.checks,
            low=one.low,
            words=f"{one.good} of {one.checks} checks good",
            method="one-sided 95 % (Clopper-Pearson)",
        )


def _drifts(seeing: Seeing) -> Iterator[Answer]:
    """Value is the level, low and high the usual level and the limit, whichever is lower first."""
    for one in seeing.drifts:
        yield Answer(
            question="drift",
            name=one.name,
            test=one.test,
            subject=f"{one.station} {one.bay}" if one.bay else one.station,
            n=one.readings,
            value=one.level,
            low=min(one.usual, one.limit),
            high=max(one.usual, one.limit),
            words=f"{'beyond' if one.beyond else 'near'} its {one.side} limit",
            method="EWMA (Roberts 1959)",
        )


def _false(seeing: Seeing) -> Iterator[Answer]:
    for one in seeing.false_fails:
        yield Answer(
            question="passed_elsewhere",
            name="share",
            test=one.test,
            code=one.code,
            subject=one.name,
            n=one.told,
            value=one.elsewhere / one.told,
            low=one.low,
            high=one.high,
            words=f"{one.elsewhere} of {one.told}, others {one.others_elsewhere} of "
            f"{one.others_told}, p {one.p:.2g}",
            method="Wilson; Fisher's exact test, Benjamini-Hochberg",
        )


def _looks(seeing: Seeing) -> Iterator[Answer]:
    for one in seeing.double_looks:
        yield Answer(
            question="double_look",
            name="kappa",
            test=one.test,
            n=one.agreement.n,
            value=one.agreement.kappa,
            low=one.agreement.low,
            high=one.agreement.high,
            words=f"{one.only_first} failed at first alone, {one.only_audit} at the audit alone",
            method="Cohen's kappa",
        )


def _queue(queue: RepairQueue | None) -> Iterator[Answer]:
    if queue is None:
        return
    waits = queue.waits
    yield Answer(
        question="queue",
        name="median_hours",
        n=queue.arrivals,
        value=waits.median,
        low=waits.median_low,
        high=waits.median_high,
        words=f"{waits.ended} cleared, {waits.open} still waiting",
        method="Kaplan-Meier",
    )
    yield Answer(
        question="queue",
        name="waiting",
        n=queue.arrivals,
        value=queue.little.seen,
        words=None if queue.little.foretold is None else f"{queue.little.foretold:.1f} foretold",
        method="Little's law",
    )
