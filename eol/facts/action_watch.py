"""The watch after an action that worked: does the defect come back?

From the shift at which the units after it first said `fewer`, a CUSUM adds up what comes over the
share reached until then, or hoped for; it signals soonest at the share that was there before the action.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from eol.facts.action_sides import ShiftSide, Side, added
from eol.statistics.cusum import CusumTrace, design_cusum, poisson_cusum
from eol.statistics.effect import judge_action

SHIFTS_BETWEEN_FALSE = 400.0
"""Shifts without a false signal, on average, of an action that goes on working."""


@dataclass(frozen=True, slots=True)
class Recurrence:
    """A defect that came back after `fewer`.

    Attributes:
        since: the shift in which the rise began.
        side: units tested since then, and those of them with the code.
        last: shifts since the signal; 0 where the newest shift gave it.
    """

    since: ShiftSide
    side: Side
    last: int


def recurrence(
    before: Side, after: Sequence[ShiftSide], *, expected_ratio: float
) -> Recurrence | None:
    """Tell whether a code came back after its action had worked.

    Args:
        before: the baseline.
        after: units after the action, by shift, oldest first.
        expected_ratio: the ratio that the action was to reach.

    Returns:
        The latest return; None where there is none, or where the action never was `fewer`.

    Source:
        J. M. Lucas, "Counted data CUSUM's", Technometrics 27 (1985), pages 129-144.
    """
    start = _worked_at(before, after, expected_ratio)
    rest = [one for one in after[start:] if one.side.units]
    reached = added(after[:start])
    if not rest or not before.share or not reached.units:
        return None
    # The verdict falls in a moment of luck: what was reached by then is taken for no less than hoped.
    usual = max((reached.share or 0.0), expected_ratio * before.share)
    if usual >= before.share:
        return None
    mean = sum(one.side.units for one in rest) / len(rest)
    design = design_cusum(
        usual * mean, before.share * mean, shifts_between_false=SHIFTS_BETWEEN_FALSE
    )
    reference = [design.k * one.side.units / mean for one in rest]
    trace = poisson_cusum([one.side.with_code for one in rest], k=reference, h=design.h)
    if not trace.signals:
        return None
    since = _begin(trace)
    return Recurrence(rest[since], added(rest[since:]), len(rest) - 1 - trace.signals[-1])


def _begin(trace: CusumTrace) -> int:
    """Where the latest return began: signals whose sums rise one after the other are one return."""
    at = len(trace.signals) - 1
    while at and trace.starts[at] == trace.signals[at - 1] + 1:
        at -= 1
    return trace.starts[at]


def _worked_at(before: Side, after: Sequence[ShiftSide], expected_ratio: float) -> int:
    """The number of shifts after which the verdict first was `fewer`; all where it never was."""
    units = with_code = 0
    for place, one in enumerate(after, start=1):
        units, with_code = units + one.side.units, with_code + one.side.with_code
        effect = judge_action((with_code, units), before.counts, expected_ratio=expected_ratio)
        if effect.verdict == "fewer":
            return place
    return len(after)
