"""From tested factors to what may be named: corrected for their number, those that go together as one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from eol.facts.trace_tests import SPEAKS, Compared, Level, exact_p, tables_of
from eol.facts.trace_units import Codes, Flags, TraceUnits, joined_codes
from eol.statistics.excess import excess_defects
from eol.statistics.helpers import informative
from eol.statistics.mantel_haenszel import mantel_haenszel
from eol.statistics.multiple import holm
from eol.statistics.together import cramers_v, group_factors

NAMED_AT = 0.01
"""Corrected p-value up to which a factor is named: a plant asks many codes each week."""

SAME = 0.7
"""Cramér's V from which two factors say the same."""


@dataclass(frozen=True, slots=True)
class Factor:
    """A factor at the value that tells most, taken crudely and within strata, side by side.

    Attributes:
        name: the factor, in words.
        kind: `attribute`, `lot`, `station`, `bay`, `program`, `evaluator`, `hour`, `model`, `line`
            or `time`.
        axis: `build` or `test`: whether it is of the unit or of its test.
        level: its value, or a range of it.
        had: units with the defect that had it; of `defects` whose value is known.
        rest_had: other units that had it; of `rest` whose value is known.
        crude_p: p-value without strata, for the number of values looked at.
        crude_ratio: share of defects with it over the share without; None where that is 0.
        within: what was held apart; None where that leaves nothing to compare.
        within_p: p-value within strata; None likewise.
        corrected_p: the same, corrected for all factors (Holm).
        odds_ratio: within strata, None where it has no finite value; `low` and `high` its ends.
        strata: strata that could tell.
        auc: for a number: chance that a unit with the defect has the higher value.
        expected: defects its units would have had at the share of the rest of their strata.
        explained: share of all defects beyond that; below 0 where there were fewer.
        verdict: `named`: at most 0.01 within and corrected; `perhaps`: at most 0.05; `time alone`:
            plain when taken crudely, nothing within; `not to be told`: plain when taken crudely, and
            nothing to compare within; `nothing`.
        words: how many had it.
        levels: of a category: each of its values.
    """

    name: str
    kind: str
    axis: str
    level: str
    had: int
    defects: int
    rest_had: int
    rest: int
    crude_p: float
    crude_ratio: float | None
    within: str | None
    within_p: float | None
    corrected_p: float | None
    odds_ratio: float | None
    low: float | None
    high: float | None
    strata: int
    auc: float | None
    expected: float
    explained: float | None
    verdict: str
    words: str
    levels: tuple[Level, ...]

    @property
    def more(self) -> bool:
        """Whether its units had more of the defect than the rest."""
        return self.had * self.rest > self.rest_had * self.defects


@dataclass(frozen=True, slots=True)
class Cause:
    """Factors that go together and cannot be told apart: the one that tells most first.

    Attributes:
        factors: the factors.
        closeness: how closely each goes with the first (Cramér's V), in their order.
    """

    factors: tuple[Factor, ...]
    closeness: tuple[float, ...]

    @property
    def lead(self) -> Factor:
        """The factor that tells most."""
        return self.factors[0]


def judged(units: TraceUnits, tested: Sequence[Compared]) -> tuple[Factor, ...]:
    """Return the factors with their p-values corrected for how many could be told, in the order given."""
    told = {n: one.factor_p for n, one in enumerate(tested) if one.factor_p is not None}
    corrected = dict(zip(told, holm(list(told.values())).p, strict=True))
    crude = holm([one.crude_p for one in tested]).p
    return tuple(_factor(units, one, corrected.get(n), crude[n]) for n, one in enumerate(tested))


def causes(
    units: TraceUnits, tested: Sequence[Compared], factors: Sequence[Factor]
) -> tuple[Cause, ...]:
    """Join the named factors that go together: by closeness, or because one leaves nothing to the other.

    What is left to a factor beside another one is corrected for all factors too, as for any cause.
    """
    places = [n for n, factor in enumerate(factors) if factor.verdict == "named"]
    places.sort(key=lambda n: (-_chi2(units, tested[n]), -len(factors[n].level)))
    closeness = {(a, b): _closeness(tested[a], tested[b]) for a in places for b in places}
    # A factor within whose values another has nothing left to tell takes it into its group.
    joined = dict(closeness)
    left = list(places)
    looks = sum(one.factor_p is not None for one in tested)
    while left:
        lead = left.pop(0)
        gone = [n for n in left if _beside(units, tested[n], tested[lead]) * looks > NAMED_AT]
        joined.update({(lead, n): 1.0 for n in gone})
        left = [n for n in left if n not in gone]
    groups = group_factors([[joined[a, b] for b in places] for a in places], at_least=SAME)
    found = []
    for group in groups:
        members = [places[n] for n in group]
        near = tuple(closeness[members[0], n] for n in members)
        found.append(Cause(tuple(factors[n] for n in members), near))
    return tuple(found)


def _factor(units: TraceUnits, one: Compared, corrected: float | None, crude_p: float) -> Factor:
    stratum = _stratum(units, one)
    known = one.known
    tables = tables_of(one.has[known], units.defect[known], stratum[known])
    odds = mantel_haenszel(tables)
    excess = excess_defects(informative(tables) if one.within else tables.sum(axis=0)[None])
    (a, b), (c, d) = tables.sum(axis=0).tolist()
    verdict = _verdict(one, corrected, crude_p)
    counts = (int(a), int(a + c), int(b), int(b + d))
    return Factor(
        name=one.column.name,
        kind=one.column.kind,
        axis=one.column.axis,
        level=one.level,
        had=counts[0],
        defects=counts[1],
        rest_had=counts[2],
        rest=counts[3],
        crude_p=one.crude_p,
        crude_ratio=(a / (a + b)) / (c / (c + d)) if c and a + b else None,
        within=one.within,
        within_p=one.within_p,
        corrected_p=corrected if one.within else None,
        odds_ratio=odds.odds_ratio if one.within else None,
        low=odds.low if one.within else None,
        high=odds.high if one.within else None,
        strata=odds.strata if one.within else 0,
        auc=one.auc,
        expected=excess.expected,
        explained=excess.excess / (a + c) if a + c else None,
        verdict=verdict,
        words=factor_words(one.column.name, one.level, counts),
        levels=one.levels,
    )


def factor_words(name: str, level: str, counts: tuple[int, int, int, int]) -> str:
    """Write how many had it: `sealer robot R07: 11 of 14 had it, 15 % of the rest`."""
    had, defects, rest_had, rest = counts
    share = f"{100 * rest_had / rest:.0f} % of the rest" if rest else "there is no rest"
    if rest and 0 < rest_had < rest and round(100 * rest_had / rest) in (0, 100):
        share = f"{100 * rest_had / rest:.2g} % of the rest"
    return f"{name} {level}: {had} of {defects} had it, {share}"


def _verdict(one: Compared, corrected: float | None, crude_p: float) -> str:
    if corrected is not None and corrected <= SPEAKS:
        return "named" if corrected <= NAMED_AT else "perhaps"
    if crude_p > SPEAKS:
        return "nothing"
    return "not to be told" if one.within_p is None else "time alone"


def _stratum(units: TraceUnits, one: Compared) -> Codes:
    return units.shift if one.within == "shift" else units.stratum


def _chi2(units: TraceUnits, one: Compared) -> float:
    known = one.known
    return mantel_haenszel(
        tables_of(one.has[known], units.defect[known], _stratum(units, one)[known])
    ).chi2


def _closeness(one: Compared, two: Compared) -> float:
    both = one.known & two.known
    return cramers_v(one.has[both].astype(np.int64), two.has[both].astype(np.int64))


def _beside(units: TraceUnits, one: Compared, lead: Compared) -> float:
    """Give the p-value of a factor among units that are alike in the leading one; 1 where none can tell."""
    both: Flags = one.known & lead.known
    stratum = joined_codes(_stratum(units, one)[both], lead.has[both].astype(np.int64))
    p = exact_p(one.has[both], units.defect[both], stratum)
    return 1.0 if p is None else p
