"""How far a fault reaches: from confirmed units to a range of suspect ones, and what a pass proves.

Places count the units at risk in build order from 0: a unit that cannot have the fault has none.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, log1p

from eol.statistics.interval import require
from eol.statistics.proportion import clopper_pearson

FEW = 3  # with fewer confirmed units the share's lower bound sets the margin


@dataclass(frozen=True, slots=True)
class SuspectRange:
    """Suspect units at risk, from first to last.

    Args:
        first: place of the first suspect unit.
        last: place of the last suspect unit.
        units: suspect units.
        share: share of units with the fault that the margin rests on.
        margin: clean units in a row that end the doubt (95 %).
        first_reason: why it begins there: `margin`, `known change`, or `first unit on record`.
        last_reason: why it ends there: `margin`, `known change`, or `last unit on record`.
        cautious: whether `share` is a lower bound and not the share seen.
    """

    first: int
    last: int
    units: int
    share: float
    margin: int
    first_reason: str
    last_reason: str
    cautious: bool


def clean_units_needed(share: float, *, confidence: float = 0.95) -> int:
    """Give how many clean units in a row show that a fault of a given share has ended.

    Args:
        share: share of units with the fault while it lasts, above 0 and up to 1.
        confidence: between 0 and 1.

    Returns:
        ln(1 - confidence) / ln(1 - share), rounded up; 1 where every unit has the fault.

    Raises:
        ValueError: share or confidence outside its range.

    Source:
        The zero-failure plan: G. J. Hahn and W. Q. Meeker, "Statistical Intervals", 1991, section
        9.2 (from memory).

    Example:
        >>> clean_units_needed(3 / 19)
        18
    """
    require(0 < share <= 1, f"share must lie above 0 and up to 1, not {share}")
    require(0 < confidence < 1, f"confidence must lie between 0 and 1, not {confidence}")
    if share == 1:
        return 1
    # A hair less, so that a whole number that comes out as 3.0000000001 is not rounded up.
    return max(1, ceil(log1p(-confidence) / log1p(-share) - 1e-9))


def suspect_range(
    first_confirmed: int,
    last_confirmed: int,
    *,
    confirmed: int,
    units: int,
    change_before: int | None = None,
    change_after: int | None = None,
    safety_related: bool = False,
) -> SuspectRange:
    """Give the range of suspect units around confirmed ones, with a reason for each edge.

    Args:
        first_confirmed: place of the first confirmed unit.
        last_confirmed: place of the last confirmed unit.
        confirmed: confirmed units, the two among them.
        units: units at risk on record, all places being 0..units-1.
        change_before: place of the unit at a known change before them: the first one suspect.
        change_after: place of the unit at a known change after them: the last one suspect.
        safety_related: whether the margin rests on the share's 95 % lower bound.

    Returns:
        The range: a margin on both sides, cut short by a known change or the end of the record.
        Fewer than three confirmed units, or all units of the range, take the lower bound too.

    Raises:
        ValueError: places or counts contradict one another.

    Source:
        The margin of `clean_units_needed`; lower bound by C. J. Clopper and E. S. Pearson,
        Biometrika 26 (1934), pages 404-413, one-sided.

    Example:
        >>> found = suspect_range(34, 52, confirmed=3, units=200)
        >>> found.first, found.last, found.units
        (16, 70, 55)
    """
    seen = last_confirmed - first_confirmed + 1
    require(0 <= first_confirmed <= last_confirmed < units, "confirmed units are on record")
    require(1 <= confirmed <= seen, "confirmed units lie between the first and the last")
    cautious = safety_related or confirmed < FEW or confirmed == seen
    share = lowest_share(confirmed, seen) if cautious else confirmed / seen
    margin = clean_units_needed(share)
    first, first_reason = first_confirmed - margin, "margin"
    last, last_reason = last_confirmed + margin, "margin"
    if change_before is not None and change_before >= first:
        require(change_before <= first_confirmed, "a change before the fault lies before it")
        first, first_reason = change_before, "known change"
    if change_after is not None and change_after <= last:
        require(change_after >= last_confirmed, "a change after the fault lies after it")
        last, last_reason = change_after, "known change"
    if first < 0:
        first, first_reason = 0, "first unit on record"
    if last >= units:
        last, last_reason = units - 1, "last unit on record"
    return SuspectRange(
        first, last, last - first + 1, share, margin, first_reason, last_reason, cautious
    )


def lowest_share(confirmed: int, units: int, *, confidence: float = 0.95) -> float:
    """Give the lowest share of units with a fault that the confirmed ones allow (one-sided).

    Args:
        confirmed: units with the fault, at least 1.
        units: units among which they were found.
        confidence: between 0 and 1.

    Returns:
        The one-sided exact lower bound.

    Raises:
        ValueError: no confirmed unit, or more than units.

    Source:
        C. J. Clopper and E. S. Pearson, Biometrika 26 (1934), pages 404-413.

    Example:
        >>> round(lowest_share(3, 19), 4)
        0.0445
    """
    require(confirmed >= 1, "a share needs a confirmed unit")
    low = clopper_pearson(confirmed, units, confidence=2 * confidence - 1).low
    return low if low is not None else 0.0


def residual_risk(share: float, sensitivity: float) -> float:
    """Give the chance that a suspect unit has the fault although a test passed it.

    Args:
        share: share of suspect units with the fault, 0 to 1.
        sensitivity: share of faulty units that the test finds, 0 to 1.

    Returns:
        p (1 - s) / (1 - p s): Bayes' rule; 0 where every unit is faulty and every one is found.

    Raises:
        ValueError: a share lies outside 0..1.

    Source:
        T. Bayes, Philosophical Transactions 53 (1763), pages 370-418; the form "1 - negative
        predictive value" of D. G. Altman and J. M. Bland, BMJ 309 (1994), page 102.

    Example:
        >>> round(residual_risk(3 / 19, 0.95), 4), round(residual_risk(3 / 19, 0.35), 3)
        (0.0093, 0.109)
    """
    require(0 <= share <= 1 and 0 <= sensitivity <= 1, "shares lie between 0 and 1")
    passed = 1 - share * sensitivity
    return share * (1 - sensitivity) / passed if passed > 0 else 0.0
