"""One factor against a defect: taken crudely, and within shift and model, where time passes for no cause."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from eol.facts.trace_columns import Column
from eol.facts.trace_units import Codes, Flags, TraceUnits
from eol.statistics.fisher import fisher, fisher_within
from eol.statistics.helpers import informative
from eol.statistics.mann_whitney import mann_whitney
from eol.statistics.mantel_haenszel import level_tables, mantel_haenszel, screen_levels
from eol.statistics.permutation import stratified_permutation, stratum_ranks
from eol.statistics.ranges import ValueRange, best_range
from eol.statistics.scan import window_log_ratio

MOST_LEVELS = 40
"""Values of a category that are compared; of more those with the most defects, the rest as one."""

EXACT_UP_TO = 300
"""Defects up to which the test within strata is exact."""

SPEAKS = 0.05

HARDLY = 3.0
"""Log likelihood ratio that speaks hardly against a wider range: half the 95 % point of chi-square, 2 ends."""

_EXACT_BELOW = 0.05  # of the quick test: above it the exact one is not asked
_SHUFFLES = ((19, 1), (99, 2), (999, 5), (9_999, 0))
"""Shuffles made of a range, and how many as good as what was seen let it go at that."""

_SHUFFLED = 200
_OTHERS = "other values"


@dataclass(frozen=True, slots=True)
class Compared:
    """A factor with the one of its values that tells the most.

    Attributes:
        column: the factor.
        level: the value, such as `R07` or `below 4.8 mm`.
        has: whether the unit has it, one a unit.
        known: whether the unit's value is known.
        crude_p: p-value without strata, for the number of values looked at.
        within_p: p-value of the value within strata, likewise; None where no stratum has units with
            and without it.
        within: what was held apart: `shift and model`, `shift`, or None.
        factor_p: the least p-value within strata of any of its values, likewise.
        auc: for a number: chance that a unit with the defect has the higher value.
        levels: of a category: each value.
    """

    column: Column
    level: str
    has: Flags
    known: Flags
    crude_p: float
    within_p: float | None
    within: str | None
    factor_p: float | None
    auc: float | None = None
    levels: tuple[Level, ...] = ()


@dataclass(frozen=True, slots=True)
class Level:
    """One value of a category: its units, those with the defect, and p-values against all others.

    `within_p` is None where no stratum has units with and without it; neither is corrected.
    """

    level: str
    units: int
    defects: int
    crude_p: float
    within_p: float | None


@dataclass(frozen=True, slots=True)
class Held:
    """Units of the strata that have some units with and some without the defect; the rest cannot tell.

    Attributes:
        words: what is held apart.
        units: their places.
        stratum: their strata as codes from 0.
        defect: whether they have the defect.
    """

    words: str
    units: Codes
    stratum: Codes
    defect: Flags


@dataclass(frozen=True, slots=True)
class Comparison:
    """Tests factors of the same units; strata are made once."""

    units: TraceUnits
    held: list[Held] = field(default_factory=list)

    def within(self) -> list[Held]:
        """Return shift and model held apart, then shift alone for what goes with the model."""
        if not self.held:
            units = self.units
            self.held.append(telling("shift and model", units.stratum, units.defect))
            self.held.append(telling("shift", units.shift, units.defect))
        return self.held

    def test(self, column: Column) -> Compared | None:
        """Test a factor; None where all units with a known value have the same one."""
        return self._number(column) if column.is_number else self._category(column)

    def _category(self, column: Column) -> Compared | None:
        codes, labels = few_levels(column, self.units.defect)
        known = codes >= 0
        if len(np.unique(codes[known])) < 2:
            return None
        looks = 1 if len(labels) == 2 else len(labels)
        levels, factor_p, words = self._levels(column, codes, labels)
        by_crude = int(np.argmin([level.crude_p for level in levels]))
        by_within = int(np.argmin([_or_one(level.within_p) for level in levels]))
        factor_p = None if factor_p is None else min(1.0, factor_p * looks)
        lead = by_within if factor_p is not None and factor_p <= SPEAKS else by_crude
        if looks == 1:
            lead = _more(codes, self.units.defect)
        within_p = levels[lead].within_p
        return Compared(
            column=column,
            level=labels[lead],
            has=codes == lead,
            known=known,
            crude_p=min(1.0, levels[lead].crude_p * looks),
            within_p=None if within_p is None else min(1.0, within_p * looks),
            within=None if within_p is None else words,
            factor_p=factor_p,
            levels=levels,
        )

    def _levels(
        self, column: Column, codes: Codes, labels: list[str]
    ) -> tuple[tuple[Level, ...], float | None, str | None]:
        """Test each value: crudely, and within the finest strata that leave something to compare."""
        known, defect = codes >= 0, self.units.defect
        p_values: list[float | None] = [None] * len(labels)
        words = None
        for held in self.within():
            here = known[held.units]
            found = _within(codes[held.units][here], held.defect[here], held.stratum[here])
            if any(p is not None for p in found):
                p_values, words = [*found, *p_values[len(found) :]], held.words
                break
        units = np.bincount(codes[known], minlength=len(labels)).tolist()
        defects = np.bincount(codes[known & defect], minlength=len(labels)).tolist()
        levels = tuple(
            Level(label, n, a, fisher((a, n), (sum(defects) - a, sum(units) - n)).p, p)
            for label, n, a, p in zip(labels, units, defects, p_values, strict=True)
        )
        return levels, min((p for p in p_values if p is not None), default=None), words

    def _number(self, column: Column) -> Compared | None:
        known = ~np.isnan(column.values)
        if len(np.unique(column.values[known])) < 2:
            return None
        defect = _sample(self.units.defect & known)
        with_it = column.values[defect]
        ranks = mann_whitney(with_it, column.values[known & ~self.units.defect])
        within_p, words, found = self._number_within(column, known, defect)
        if found is None or within_p is None or within_p > SPEAKS:
            found = _half(column.values[known], higher=(ranks.auc or 0.5) >= 0.5)
        return Compared(
            column=column,
            level=range_words(found, column.measure_unit),
            has=known & _in_range(column.values, found),
            known=known,
            crude_p=ranks.p,
            within_p=within_p,
            within=words,
            factor_p=within_p,
            auc=ranks.auc,
        )

    def _number_within(
        self, column: Column, known: Flags, defect: Flags
    ) -> tuple[float | None, str | None, ValueRange | None]:
        """Test ranks and the best range within strata, each for the other's sake doubled."""
        for held in self.within():
            here = held.units[known[held.units] & (defect | ~self.units.defect)[held.units]]
            if not defect[here].any():
                continue
            stratum = held.stratum[np.searchsorted(held.units, here)]
            values, flags = column.values[here], defect[here]
            by_rank = _rank_p(values, flags, stratum)
            if by_rank is None:
                continue
            found, by_range = _range_p(values, flags, stratum, by_rank)
            p = min(1.0, 2 * min(by_rank, by_range))
            return p, held.words, opened(found, values, flags) if found else None
        return None, None, None


def telling(words: str, stratum: Codes, defect: Flags) -> Held:
    """Keep the units of strata with both kinds of units."""
    size = int(stratum.max()) + 1 if len(stratum) else 0
    all_units = np.bincount(stratum, minlength=size)
    with_it = np.bincount(stratum[defect], minlength=size)
    units = np.flatnonzero(((with_it > 0) & (with_it < all_units))[stratum])
    codes = np.unique(stratum[units], return_inverse=True)[1].astype(np.int64)
    return Held(words, units, codes, defect[units])


def few_levels(column: Column, defect: Flags) -> tuple[Codes, list[str]]:
    """Return codes with at most `MOST_LEVELS` values and one for the rest, and their labels."""
    codes, labels = column.codes, list(column.labels)
    if len(labels) <= MOST_LEVELS:
        return codes, labels
    known = codes >= 0
    units = np.bincount(codes[known], minlength=len(labels))
    defects = np.bincount(codes[known & defect], minlength=len(labels))
    first = np.lexsort((np.arange(len(labels)), -units, -defects))[:MOST_LEVELS]
    new = np.full(len(labels), MOST_LEVELS, dtype=np.int64)
    new[first] = np.arange(MOST_LEVELS)
    return np.where(known, new[codes], -1), [*(labels[n] for n in first.tolist()), _OTHERS]


def exact_p(has: Flags, defect: Flags, stratum: Codes) -> float | None:
    """Test units with a value against the rest within strata: exactly where defects are few."""
    tables = informative(tables_of(has, defect, stratum))
    if not len(tables):
        return None
    if tables[:, :, 0].sum() <= EXACT_UP_TO:
        return fisher_within(tables).p
    return mantel_haenszel(tables).p_corrected


def tables_of(has: Flags, defect: Flags, stratum: Codes) -> NDArray[np.float64]:
    """Count units into one table a stratum, those with the value first."""
    if not len(has):
        return np.zeros((0, 2, 2))
    width = int(stratum.max()) + 1
    cell = (stratum * 2 + ~has) * 2 + ~defect
    return np.bincount(cell, minlength=width * 4).reshape(width, 2, 2).astype(float)


def range_words(found: ValueRange, measure_unit: str | None) -> str:
    """Write a range of values: `below 4.8 mm`, `4.2 to 4.8 mm`, `above 6.1 mm`; its ends belong to it."""
    unit = f" {measure_unit}" if measure_unit else ""
    if found.low is None:
        return f"up to {found.high:.6g}{unit}" if found.high is not None else "any value"
    if found.high is None:
        return f"from {found.low:.6g}{unit}"
    return f"{found.low:.6g} to {found.high:.6g}{unit}"


def _within(codes: Codes, defect: Flags, stratum: Codes) -> list[float | None]:
    """Return the p-value of each value within strata: exact where it may speak; None where none can tell."""
    if not len(codes):
        return []
    tables = level_tables(defect, codes, stratum)
    can_tell = (tables.sum(axis=2) > 0).all(axis=2) & (tables.sum(axis=3) > 0).all(axis=2)
    return [
        None if not can else exact_p(codes == place, defect, stratum) if p <= _EXACT_BELOW else p
        for place, (can, p) in enumerate(
            zip(can_tell.any(axis=1).tolist(), screen_levels(tables), strict=True)
        )
    ]


def _or_one(p: float | None) -> float:
    return 1.0 if p is None else p


def _more(codes: Codes, defect: Flags) -> int:
    """Of two values the one with the higher share of defects: the other says the same."""
    shares = [float(defect[codes == code].mean()) for code in (0, 1)]
    return int(shares[1] > shares[0])


def _rank_p(values: NDArray[np.float64], defect: Flags, stratum: Codes) -> float | None:
    """Test ranks within strata; the normal p-value where shuffles are too few to tell it."""
    scores = stratum_ranks(values, stratum)
    quick = stratified_permutation(scores, defect, stratum, draws=1)
    if not quick.draws:
        return None
    if quick.p_normal > SPEAKS:
        return quick.p_normal
    long = stratified_permutation(scores, defect, stratum)
    few = 10 / (long.draws + 1)
    return min(long.p, long.p_normal) if long.p <= few else long.p


def _range_p(
    values: NDArray[np.float64], defect: Flags, stratum: Codes, by_rank: float
) -> tuple[ValueRange | None, float]:
    """Find the best range; more shuffles while hardly one was as good and the ranks do not tell more.

    Source: J. Besag and P. Clifford, "Sequential Monte Carlo p-values", Biometrika 78 (1991), pages
        301-304.
    """
    found: ValueRange | None = None
    for draws, enough in _SHUFFLES:
        found = best_range(values, defect, stratum=stratum, draws=draws)
        if found is None:
            return None, 1.0
        if found.p > (enough + 0.5) / (draws + 1) or by_rank < 1 / (10 * draws):
            break
    return found, found.p if found else 1.0


def opened(found: ValueRange, values: NDArray[np.float64], defect: Flags) -> ValueRange:
    """Leave an end of a range open where the units beyond it speak hardly against that.

    Source: the range of a likelihood ratio that a 95 % interval leaves in: D. J. Hudson, Journal of
        the Royal Statistical Society B 33 (1971), pages 256-262.
    """
    least = _log_ratio(found, values, defect) - HARDLY
    for wider in (replace(found, low=None), replace(found, high=None)):
        bounded = wider.low is not None or wider.high is not None
        if bounded and _log_ratio(wider, values, defect) >= least:
            return wider
    return found


def _log_ratio(found: ValueRange, values: NDArray[np.float64], defect: Flags) -> float:
    inside = _in_range(values, found)
    return window_log_ratio(
        defects=int((inside & defect).sum()),
        units=int(inside.sum()),
        all_defects=int(defect.sum()),
        all_units=len(values),
    )


def _in_range(values: NDArray[np.float64], found: ValueRange) -> Flags:
    low = values >= found.low if found.low is not None else np.ones(len(values), dtype=np.bool_)
    return np.asarray(low & (values <= found.high) if found.high is not None else low)


def _half(values: NDArray[np.float64], *, higher: bool) -> ValueRange:
    """Where no range stands out: the half of the units on whose side the defects lie."""
    middle = float(np.median(values))
    low, high = (middle, None) if higher else (None, middle)
    return ValueRange(low, high, 0, 0, 0.0, 1.0)


def _sample(defect: Flags) -> Flags:
    """Let a fixed draw of the units with the defect stand for all of them where they are many."""
    places = np.flatnonzero(defect)
    if len(places) <= _SHUFFLED:
        return defect
    drawn = np.random.default_rng(len(places)).choice(places, _SHUFFLED, replace=False)
    chosen = np.zeros_like(defect)
    chosen[drawn] = True
    return chosen
