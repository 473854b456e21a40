"""Did an action work: the rate after it against the rate before, in four words.

`fewer` and `more` where the interval of the ratio excludes 1; `no clear change` where it holds 1
and excludes the ratio that was expected; `too early` where it holds both.
"""

from __future__ import annotations

from dataclasses import dataclass

from scipy.special import betaincinv

from eol.statistics.interval import require
from eol.statistics.rate import rate_ratio

EXPECTED_RATIO = 0.5
MOST_UNITS = 10**7  # more units than any plant builds while an action is watched


@dataclass(frozen=True, slots=True)
class ActionEffect:
    """What an action did.

    Args:
        ratio: rate after over rate before; None where the count before is 0 or a side has no unit.
        low: lower end of its exact interval; None without units.
        high: upper end; None where nothing bounds it.
        p: p-value of "nothing changed"; 1 without units.
        verdict: `fewer`, `more`, `no clear change`, `too early`, or `no baseline`.
        more_units: with `too early`: units still needed for `fewer`, should the action work as
            expected; None where no number would do (too few defects before).
    """

    ratio: float | None
    low: float | None
    high: float | None
    p: float
    verdict: str
    more_units: int | None

    @property
    def words(self) -> str:
        """Give the verdict as the page says it."""
        if self.more_units is None:
            return self.verdict
        return f"{self.verdict}: about {self.more_units:,} more units"


def judge_action(
    after: tuple[int, int],
    before: tuple[int, int],
    *,
    expected_ratio: float = EXPECTED_RATIO,
) -> ActionEffect:
    """Judge an action by the exact conditional rate ratio.

    Args:
        after: (defects, units at risk) from the action's cut-in on.
        before: (defects, units at risk) of the baseline, which must not be chosen for being bad.
        expected_ratio: the ratio the action was to reach, above 0 and below 1.

    Returns:
        The ratio with its 95 % interval, the verdict, and how many units are still needed.

    Raises:
        ValueError: a number is negative, or expected_ratio outside 0..1.

    Source:
        The ratio as for `rate_ratio` (Przyborowski and Wilenski 1940); verdicts by both ends of the
        interval as in D. G. Altman and J. M. Bland, BMJ 311 (1995), page 485: absence of evidence
        is not evidence of absence.

    Example:
        >>> judge_action((24, 9600), (108, 6400)).verdict
        'fewer'
        >>> judge_action((1, 300), (108, 7200)).words
        'too early: about 412 more units'
    """
    require(
        0 < expected_ratio < 1, f"the expected ratio lies between 0 and 1, not {expected_ratio}"
    )
    require(min(*after, *before) >= 0, "defects and units cannot be negative")
    if before[1] == 0:
        return ActionEffect(None, None, None, 1.0, "no baseline", None)
    if after[1] == 0:
        more = units_still_needed(after, before, expected_ratio=expected_ratio)
        return ActionEffect(None, None, None, 1.0, "too early", more)
    found = rate_ratio(after, before)
    verdict = _verdict(found.low, found.high, expected_ratio)
    early = verdict == "too early"
    more = units_still_needed(after, before, expected_ratio=expected_ratio) if early else None
    return ActionEffect(found.ratio, found.low, found.high, found.p, verdict, more)


def units_still_needed(
    after: tuple[int, int],
    before: tuple[int, int],
    *,
    expected_ratio: float = EXPECTED_RATIO,
) -> int | None:
    """Give how many more units show an action that works as expected.

    Args:
        after: (defects, units at risk) since the action.
        before: (defects, units at risk) of the baseline.
        expected_ratio: the ratio the action was to reach.

    Returns:
        The fewest further units, with defects at expected_ratio times the rate before, after which
        the interval excludes 1; 0 where it does so now; None where no number of units would do.

    Raises:
        ValueError: a number is negative, or expected_ratio outside 0..1.

    Source:
        The interval of `rate_ratio` at the expected count, continued between whole counts by the
        incomplete beta function.

    Example:
        >>> units_still_needed((0, 0), (108, 7200))
        1141
        >>> units_still_needed((0, 0), (2, 900)) is None
        True
    """
    require(
        0 < expected_ratio < 1, f"the expected ratio lies between 0 and 1, not {expected_ratio}"
    )
    require(min(*after, *before) >= 0, "defects and units cannot be negative")

    def shown(more: int) -> bool:
        units = after[1] + more
        if not units or not before[0]:
            return False
        count = after[0] + more * expected_ratio * before[0] / before[1]
        share = float(betaincinv(count + 1, before[0], 0.975))
        return share / (1 - share) * before[1] / units < 1 if share < 1 else False

    if not shown(MOST_UNITS):
        return None
    low, high = -1, MOST_UNITS
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if shown(middle) else (middle, high)
    return high


def _verdict(low: float, high: float | None, expected_ratio: float) -> str:
    if high is not None and high < 1:
        return "fewer"
    if low > 1:
        return "more"
    return "too early" if low <= expected_ratio else "no clear change"
