"""P-values corrected for how many were looked at: Bonferroni, Holm, Benjamini-Hochberg."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class Corrected:
    """Corrected p-values, in the order given.

    Args:
        p: corrected p-values, 0 to 1.
        method: how they were corrected.
    """

    p: tuple[float, ...]
    method: str

    def named(self, level: float = 0.05) -> tuple[int, ...]:
        """Give the places (from 0) of the p-values at or below a level."""
        return tuple(i for i, p in enumerate(self.p) if p <= level)


def bonferroni(p_values: ArrayLike) -> Corrected:
    """Multiply p-values by their number: no false one at all in 1 - level of the lists.

    Args:
        p_values: p-values, 0 to 1; may be empty.

    Returns:
        The corrected p-values.

    Raises:
        ValueError: a p-value lies outside 0..1.

    Source:
        O. J. Dunn, "Multiple comparisons among means", Journal of the American Statistical
        Association 56 (1961), pages 52-64.

    Example:
        >>> bonferroni([0.01, 0.5]).p
        (0.02, 1.0)
    """
    p = _checked(p_values)
    return Corrected(tuple(np.minimum(1.0, p * len(p)).tolist()), "Bonferroni")


def holm(p_values: ArrayLike) -> Corrected:
    """Correct p-values step by step: as safe as Bonferroni, never less sharp.

    Args:
        p_values: p-values, 0 to 1; may be empty.

    Returns:
        The corrected p-values.

    Raises:
        ValueError: a p-value lies outside 0..1.

    Source:
        S. Holm, "A simple sequentially rejective multiple test procedure", Scandinavian Journal of
        Statistics 6 (1979), pages 65-70.

    Example:
        >>> holm([0.01, 0.5]).p
        (0.02, 0.5)
    """
    p = _checked(p_values)
    order = np.argsort(p, kind="stable")
    steps = np.maximum.accumulate(p[order] * np.arange(len(p), 0, -1))
    return Corrected(_put_back(steps, order), "Holm")


def benjamini_hochberg(p_values: ArrayLike) -> Corrected:
    """Correct p-values so that of the ones named at a level only that share is false.

    Args:
        p_values: p-values, 0 to 1; may be empty.

    Returns:
        The corrected p-values, never falling where the p-values rise.

    Raises:
        ValueError: a p-value lies outside 0..1.

    Source:
        Y. Benjamini and Y. Hochberg, "Controlling the false discovery rate", Journal of the Royal
        Statistical Society B 57 (1995), pages 289-300.

    Example:
        >>> benjamini_hochberg([0.01, 0.02, 0.5]).p
        (0.03, 0.03, 0.5)
    """
    p = _checked(p_values)
    order = np.argsort(p, kind="stable")
    scaled = p[order] * len(p) / np.arange(1, len(p) + 1)
    steps = np.minimum.accumulate(scaled[::-1])[::-1]
    return Corrected(_put_back(steps, order), "Benjamini-Hochberg")


def _checked(p_values: ArrayLike) -> NDArray[np.float64]:
    p = np.atleast_1d(np.asarray(p_values, dtype=float))
    require(bool(np.all((p >= 0) & (p <= 1))), "a p-value lies between 0 and 1")
    return p


def _put_back(steps: NDArray[np.float64], order: NDArray[np.intp]) -> tuple[float, ...]:
    corrected = np.empty(len(steps))
    corrected[order] = np.minimum(1.0, steps)
    return tuple(corrected.tolist())
