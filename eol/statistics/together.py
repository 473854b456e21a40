"""Which factors go together: where two say the same, only one of them can be named as a cause."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from eol.statistics.interval import require


def cramers_v(first: ArrayLike, second: ArrayLike) -> float:
    """Give how closely two factors go together, from 0 (not at all) to 1 (one tells the other).

    Args:
        first: the unit's level of one factor as a code from 0, one a unit.
        second: the same of the other factor.

    Returns:
        Cramér's V; 0 where a factor has one level only, or without units.

    Raises:
        ValueError: the lists differ in length, or a code is negative.

    Source:
        H. Cramér, "Mathematical Methods of Statistics", 1946, page 282.

    Example:
        >>> cramers_v([0, 0, 1, 1], [2, 2, 5, 5])
        1.0
    """
    one = np.atleast_1d(np.asarray(first)).astype(np.int64)
    two = np.atleast_1d(np.asarray(second)).astype(np.int64)
    require(one.shape == two.shape, "one level of each factor a unit")
    if not len(one):
        return 0.0
    require(min(one.min(), two.min()) >= 0, "codes start from 0")
    width = int(two.max()) + 1
    table = np.bincount(one * width + two, minlength=(int(one.max()) + 1) * width).reshape(
        -1, width
    )
    table = table[table.sum(axis=1) > 0][:, table.sum(axis=0) > 0].astype(float)
    smaller = min(table.shape) - 1
    if smaller == 0:
        return 0.0
    n = table.sum()
    expected = table.sum(axis=1, keepdims=True) * table.sum(axis=0, keepdims=True) / n
    chi2 = float(((table - expected) ** 2 / expected).sum())
    return min(1.0, sqrt(chi2 / (n * smaller)))


def group_factors(
    closeness: Sequence[Sequence[float]], *, at_least: float = 0.7
) -> tuple[tuple[int, ...], ...]:
    """Group factors of which each goes closely with another one of its group.

    Args:
        closeness: a square table of Cramér's V (or any closeness from 0 to 1) of each pair.
        at_least: closeness from which two factors belong together.

    Returns:
        The groups as places (from 0), each ascending, in the order of their first factor; a factor
        that goes with none is a group of its own.

    Raises:
        ValueError: the table is not square.

    Source:
        Single linkage: P. H. A. Sneath, Journal of General Microbiology 17 (1957), pages 201-226.

    Example:
        >>> group_factors([[1, 0.9, 0.1], [0.9, 1, 0.2], [0.1, 0.2, 1]])
        ((0, 1), (2,))
    """
    count = len(closeness)
    require(all(len(row) == count for row in closeness), "the table must be square")
    group = list(range(count))
    for one in range(count):
        for two in range(one):
            if max(closeness[one][two], closeness[two][one]) >= at_least:
                low, high = sorted((group[one], group[two]))
                group = [low if member == high else member for member in group]
    heads = sorted(set(group))
    return tuple(tuple(i for i in range(count) if group[i] == head) for head in heads)
