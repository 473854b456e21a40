"""Mix or process: how much of a change comes from what was built, and how much from how well."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class Mix:
    """A change of a rate taken apart; mix and process sum to the difference.

    Args:
        before: rate per unit before; None without units.
        after: rate per unit after; None without units.
        difference: after less before; None where one is missing.
        mix: the part from the changed shares of the groups.
        process: the part from the changed rates within the groups.
        process_by_group: the latter by group, in the order given.
    """

    before: float | None
    after: float | None
    difference: float | None
    mix: float | None
    process: float | None
    process_by_group: tuple[float, ...]


def mix_or_process(
    before: Sequence[tuple[float, float]], after: Sequence[tuple[float, float]]
) -> Mix:
    """Take a change of a rate apart into mix and process.

    Args:
        before: (defects, units) by group (model, option) of the first period.
        after: the same groups, in the same order, of the second period. A group without units in
            one period keeps its rate of the other: it is mix.

    Returns:
        Rates per unit and both parts; a period without units gives None.

    Raises:
        ValueError: the groups differ in number, or a number is negative.

    Source:
        E. M. Kitagawa, "Components of a difference between two rates", Journal of the American
        Statistical Association 50 (1955), pages 1168-1194, two components.

    Example:
        >>> found = mix_or_process([(41, 2137), (0, 9063)], [(44, 2512), (0, 2288)])
        >>> [round(100 * x, 2) for x in (found.difference, found.mix, found.process)]
        [0.55, 0.61, -0.06]
    """
    require(len(before) == len(after), "both periods have the same groups")
    one = np.array(before, dtype=float).reshape(-1, 2)
    two = np.array(after, dtype=float).reshape(-1, 2)
    require(bool(np.all(one >= 0) and np.all(two >= 0)), "defects and units cannot be negative")
    units, units_2 = one[:, 1].sum(), two[:, 1].sum()
    rate = float(one[:, 0].sum() / units) if units else None
    rate_2 = float(two[:, 0].sum() / units_2) if units_2 else None
    if rate is None or rate_2 is None:
        return Mix(rate, rate_2, None, None, None, ())
    known, known_2 = one[:, 1] > 0, two[:, 1] > 0
    by_group = one[:, 0] / np.maximum(one[:, 1], 1)
    by_group_2 = two[:, 0] / np.maximum(two[:, 1], 1)
    by_group = np.where(known, by_group, by_group_2)
    by_group_2 = np.where(known_2, by_group_2, by_group)
    share, share_2 = one[:, 1] / units, two[:, 1] / units_2
    process = (share + share_2) / 2 * (by_group_2 - by_group)
    mix = float(((share_2 - share) * (by_group + by_group_2) / 2).sum())
    total = float(process.sum())
    return Mix(rate, rate_2, rate_2 - rate, mix, total, tuple(process.tolist()))
