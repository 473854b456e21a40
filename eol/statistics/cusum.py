"""CUSUM of counts: a slow rise of a code, found by adding up what exceeds a reference value.

k comes from the usual and the feared mean, h from how many shifts a quiet plant may run without
a false signal; the run length is exact, by a Markov chain over the values the sum can take.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import log

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import gammaln

from eol.statistics.interval import require

FINEST = 10  # k is rounded to a fraction with a denominator of at most this
TALLEST = 4096  # states of the chain; a sum that tall is no longer a watch


@dataclass(frozen=True, slots=True)
class CusumDesign:
    """How a Poisson CUSUM is set.

    Args:
        k: reference value: what a shift may have before the sum rises.
        h: the sum at which it signals.
        run_length: shifts to the first false signal on average, at the usual mean.
    """

    k: float
    h: float
    run_length: float


@dataclass(frozen=True, slots=True)
class CusumTrace:
    """A CUSUM run over a series.

    Args:
        sums: the sum after each value; after a signal the next value starts from 0.
        signals: places (from 0) at which the sum reached h.
        starts: for each signal the place at which its rise began: the first value after the sum
            was last 0.
    """

    sums: tuple[float, ...]
    signals: tuple[int, ...]
    starts: tuple[int, ...]


def reference_value(usual: float, feared: float) -> float:
    """Give the reference value k that tells two Poisson means apart soonest.

    Args:
        usual: the mean count of a quiet shift, above 0.
        feared: the mean to be found, above or below `usual` and above 0.

    Returns:
        (feared - usual) / (ln feared - ln usual).

    Raises:
        ValueError: a mean is not positive, or both are equal.

    Source:
        J. M. Lucas, "Counted data CUSUM's", Technometrics 27 (1985), pages 129-144, equation 1.

    Example:
        >>> round(reference_value(4, 7), 4)
        5.3608
    """
    require(min(usual, feared) > 0, "the means must be positive")
    require(usual != feared, "the feared mean must differ from the usual one")
    return (feared - usual) / (log(feared) - log(usual))


def run_length(mean: float, *, k: float, h: float) -> float:
    """Give the mean number of shifts until a Poisson CUSUM started at 0 reaches h.

    Args:
        mean: the mean count of a shift.
        k: reference value; rounded to a fraction with a denominator of at most 10.
        h: the sum that signals (sum ≥ h), rounded up to the same grid.

    Returns:
        The average run length, exact for the rounded k and h.

    Raises:
        ValueError: a number is not positive, or h too tall for the chain.

    Source:
        J. M. Lucas, Technometrics 27 (1985); the chain of D. Brook and D. A. Evans, Biometrika 59
        (1972), pages 539-549.

    Example:
        >>> round(run_length(4, k=5, h=10), 2)
        421.65
    """
    require(min(mean, k, h) > 0, "mean, k and h must be positive")
    step = Fraction(k).limit_denominator(FINEST)
    states = int(np.ceil(round(h * step.denominator, 9)))
    require(states <= TALLEST, "h is too tall for the chain")
    return _run_length(mean, step, states)


def design_cusum(usual: float, feared: float, *, shifts_between_false: float) -> CusumDesign:
    """Set a Poisson CUSUM: k from two means, h from the run length of a quiet plant.

    Args:
        usual: the mean count of a quiet shift, above 0.
        feared: the mean to be found, above `usual`.
        shifts_between_false: the least average run length at the usual mean; for a list of m codes
            that shall run 400 shifts as a whole: 400 m.

    Returns:
        k (rounded to the chain's grid), the smallest h on the grid that holds, and its run length.

    Raises:
        ValueError: the means are not 0 < usual < feared, or the run length is below 1 or too long.

    Source:
        J. M. Lucas, Technometrics 27 (1985), pages 129-144.

    Example:
        >>> design = design_cusum(1.2, 3.6, shifts_between_false=400)
        >>> design.k, design.h, round(design.run_length)
        (2.2, 4.0, 517)
    """
    require(0 < usual < feared, "the feared mean must be above the usual one, both above 0")
    require(shifts_between_false >= 1, "a run length is at least 1")
    step = Fraction(reference_value(usual, feared)).limit_denominator(FINEST)
    step = step or Fraction(1, FINEST)
    # The logarithm of the likelihood ratio that h stands for hardly depends on the means.
    near = 0.8 * log(shifts_between_false + 1) / log(feared / usual) * step.denominator
    states = _fewest_states(usual, step, shifts_between_false, near=round(near))
    length = _run_length(usual, step, states)
    return CusumDesign(float(step), states / step.denominator, length)


def poisson_cusum(counts: ArrayLike, *, k: ArrayLike, h: float) -> CusumTrace:
    """Run a Poisson CUSUM over counts, starting again from 0 after each signal.

    Args:
        counts: defects, one number a shift, in the order of time.
        k: the reference value, one for all, or one a shift where the units at risk differ (k of the
            mean shift x units at risk / mean units at risk).
        h: the sum that signals.

    Returns:
        The sums, the places of the signals and where each rise began. No shift: an empty trace.

    Raises:
        ValueError: h is not positive, or counts and k do not go together.

    Source:
        E. S. Page, "Continuous inspection schemes", Biometrika 41 (1954), pages 100-115; J. M.
        Lucas, Technometrics 27 (1985), pages 129-144.

    Example:
        >>> trace = poisson_cusum([1, 0, 4, 5, 1], k=2, h=5)
        >>> trace.sums, trace.signals, trace.starts
        ((0.0, 0.0, 2.0, 5.0, 0.0), (3,), (2,))
    """
    require(h > 0, "h must be positive")
    count = np.atleast_1d(np.asarray(counts, dtype=float))
    reference = np.asarray(k, dtype=float)
    require(reference.ndim == 0 or reference.shape == count.shape, "one k, or one a shift")
    return _run_sums(count - reference, h)


def _run_sums(steps: NDArray[np.float64], h: float) -> CusumTrace:
    """Add steps up, never below 0; a sum that reaches h signals and starts again from 0."""
    total, start = 0.0, 0
    sums: list[float] = []
    signals: list[int] = []
    starts: list[int] = []
    for place, step in enumerate(steps.tolist()):
        if total == 0:
            start = place
        total = max(0.0, total + step)
        sums.append(total)
        if total >= h:
            signals.append(place)
            starts.append(start)
            total = 0.0
    return CusumTrace(tuple(sums), tuple(signals), tuple(starts))


def _fewest_states(mean: float, step: Fraction, least: float, *, near: int) -> int:
    """Find the fewest states that run long enough, in growing strides from a first guess."""
    top, stride = min(max(near, 1), TALLEST), 2
    while not _runs(mean, step, top, least):
        require(top < TALLEST, "no h gives so long a run without a false signal")
        top, stride = min(top + stride, TALLEST), 2 * stride
    bottom, stride = max(top - 2, 0), 2
    while bottom and _runs(mean, step, bottom, least):
        top, bottom, stride = bottom, max(bottom - stride, 0), 2 * stride
    while top - bottom > 1:
        middle = (top + bottom) // 2
        if _runs(mean, step, middle, least):
            top = middle
        else:
            bottom = middle
    return top


def _runs(mean: float, step: Fraction, states: int, least: float) -> bool:
    """Tell whether a run lasts long enough; one too long for the solver comes out below 0."""
    length = _run_length(mean, step, states)
    return length < 0 or length >= least


def _run_length(mean: float, step: Fraction, states: int) -> float:
    """Solve the chain whose states are the sums 0, 1/d, … below h, in units of 1/d."""
    start = np.arange(states)
    most = (states + step.numerator) // step.denominator + 1
    counts = np.arange(most + 1)
    chance = np.exp(counts * log(mean) - mean - gammaln(counts + 1))
    target = start[:, None] + step.denominator * counts[None, :] - step.numerator
    source = np.broadcast_to(start[:, None], target.shape)
    stays = target < states
    moves = np.zeros((states, states))
    weights = np.broadcast_to(chance, target.shape)[stays]
    np.add.at(moves, (source[stays], np.maximum(target[stays], 0)), weights)
    return float(np.linalg.solve(np.eye(states) - moves, np.ones(states))[0])
