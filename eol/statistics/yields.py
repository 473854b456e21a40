"""Rolled throughput yield: the product of the tests' FTT (rule 11)."""

from __future__ import annotations

from collections.abc import Iterable
from math import prod

from eol.statistics.interval import require


def rolled_yield(shares: Iterable[float | None]) -> float | None:
    """Multiply the FTT of a line's tests to the rolled throughput yield.

    Args:
        shares: FTT by test, 0 to 1; None where a test has no tested unit.

    Returns:
        The product: 0 where one share is 0, whatever the others are; else None where one is None,
        or where there is no test.

    Raises:
        ValueError: a share lies outside 0..1.

    Source:
        ISO 13053-1:2011, rolled throughput yield (from memory): the product of the yields of the
        steps.

    Example:
        >>> round(rolled_yield([0.9, 0.95, 0.99]), 5)
        0.84645
    """
    given = list(shares)
    known = [share for share in given if share is not None]
    require(all(0 <= share <= 1 for share in known), "an FTT lies between 0 and 1")
    if 0 in known:
        return 0.0
    if not given or len(known) < len(given):
        return None
    return prod(known)
