"""Steps that several methods share: cleaned series and tables, tail chances, drawn places."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import gammaincc, gammaln, xlog1py, xlogy

from eol.statistics.interval import require


def clean_series(
    counts: ArrayLike, exposures: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give counts and exposures as arrays without the shifts of exposure 0.

    Raises:
        ValueError: the lists differ in length, or a number is negative.
    """
    count, exposure = np.asarray(counts, dtype=float), np.asarray(exposures, dtype=float)
    require(count.shape == exposure.shape and count.ndim == 1, "one count and one size a shift")
    require(bool(np.all(count >= 0) and np.all(exposure >= 0)), "counts cannot be negative")
    return count[exposure > 0], exposure[exposure > 0]


def informative(tables: ArrayLike) -> NDArray[np.float64]:
    """Keep the strata with both kinds of units, some with and some without the defect.

    Raises:
        ValueError: the tables have another shape or negative counts.
    """
    table = np.asarray(tables, dtype=float)
    if not table.size:
        return np.zeros((0, 2, 2))
    require(table.ndim == 3 and table.shape[1:] == (2, 2), "tables are (strata, 2, 2)")
    require(bool(np.all(table >= 0)), "counts cannot be negative")
    tells = np.all(table.sum(axis=1) > 0, axis=1) & np.all(table.sum(axis=2) > 0, axis=1)
    return np.asarray(table[tells])


def chi2_p(chi2: float, freedom: int = 1) -> float:
    """Give the upper tail of the chi-square distribution."""
    return float(gammaincc(freedom / 2, chi2 / 2)) if freedom > 0 else 1.0


def binomial_p(count: int, n: int, share: float) -> float:
    """Sum the binomial outcomes that are no likelier than the one seen (R's two-sided p)."""
    k = np.arange(n + 1)
    log_pmf = gammaln(n + 1) - gammaln(k + 1) - gammaln(n - k + 1)
    log_pmf += xlogy(k, share) + xlog1py(n - k, -share)
    as_unlikely = log_pmf <= log_pmf[count] + 1e-7
    return float(min(1.0, np.exp(log_pmf[as_unlikely]).sum()))


def draw_places(
    rng: np.random.Generator, *, units: int, chosen: int, draws: int
) -> NDArray[np.int64]:
    """Draw sets of `chosen` different places of 0..units-1, shape (draws, chosen)."""
    if chosen * chosen > units:
        rows = [rng.choice(units, chosen, replace=False, shuffle=False) for _ in range(draws)]
        return np.array(rows, dtype=np.int64).reshape(draws, chosen)
    places = rng.integers(0, units, size=(draws, chosen))
    while True:
        ordered = np.sort(places, axis=1)
        twice = np.flatnonzero((ordered[:, 1:] == ordered[:, :-1]).any(axis=1))
        if not len(twice):
            return places
        # Whole rows are drawn again, so that every set of places stays as likely as any other.
        places[twice] = rng.integers(0, units, size=(len(twice), chosen))
