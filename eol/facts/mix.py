"""Mix or process: whether a rise came of other units that were built, or of how they were built."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from eol.facts.changed import Changed, changed_codes
from eol.facts.code_series import Code, CodeHistory
from eol.facts.ftt import Window
from eol.facts.reader import Row, whole
from eol.statistics.mix import Mix, mix_or_process

MOSTLY = 0.5
"""Share of a rise from which it is called by its mix."""

ALL_FAILS = ""
"""Stands where a code would, for all units that failed a test."""

Groups = list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class ModelCounts:
    """Tested units by test, shift and model; defects by code, shift and model; null: model unknown.

    The units that failed a test stand among the defects, under ALL_FAILS.
    """

    units: Mapping[tuple[str, Window, str | None], int]
    defects: Mapping[tuple[Code, Window, str | None], int]

    def groups(self, code: Code, windows: Sequence[Window]) -> Groups:
        """Defects and units of each model over some shifts, always in the same order."""
        models = sorted({model or "" for _, _, model in self.units})
        return [
            (
                sum(self.defects.get((code, window, model or None), 0) for window in windows),
                sum(self.units.get((code[0], window, model or None), 0) for window in windows),
            )
            for model in models
        ]


def model_counts(units: Sequence[Row], defects: Sequence[Row]) -> ModelCounts:
    """Add the rows of `page/bay_history` and `page/bay_codes` up by model."""
    tested: Counter[tuple[str, Window, str | None]] = Counter()
    found: Counter[tuple[Code, Window, str | None]] = Counter()
    for row in units:
        window = row["production_date"], row["shift"]
        tested[row["test"], window, row["model"] or None] += whole(row["tested"])
        found[(row["test"], ALL_FAILS), window, row["model"] or None] += whole(row["failed"])
    for row in defects:
        window = row["production_date"], row["shift"]
        found[(row["test"], row["code"]), window, row["model"] or None] += whole(row["defects"])
    return ModelCounts(tested, found)


@dataclass(frozen=True, slots=True)
class MixShift:
    """A rise per tested unit taken apart (Kitagawa 1955); rates are per hundred tested units.

    `code` is ALL_FAILS where the units that failed the test are taken apart.
    The last `shifts` are compared with the settled ones before them. `grouped_by` says what the
    units were grouped by: whether they can have the code, or their model; `at_risk_before` and
    `at_risk` are the shares of units that can have it.
    """

    test: str
    code: str
    shifts: int
    defects: int
    units: int
    before: float
    after: float
    mix: float
    process: float
    grouped_by: str
    at_risk_before: float
    at_risk: float

    @property
    def mostly_mix(self) -> bool:
        """True where at least half of the rise is mix."""
        return self.mix >= MOSTLY * (self.after - self.before) > 0


def mix_shifts(
    history: CodeHistory, changed: Sequence[Changed], models: ModelCounts
) -> tuple[MixShift, ...]:
    """Take apart the rises per tested unit: those of `changed`, and those that its units at risk hide.

    Args:
        history: the codes over the shifts of the page.
        changed: the codes that changed on their units at risk.
        models: tested units and defects by model.
    """
    crude = {(one.test, one.code): one for one in changed_codes(history.series(crude=True))}
    every = crude | {(one.test, one.code): one for one in changed}
    taken_apart = [_taken_apart(history, one, models) for _, one in sorted(every.items())]
    return tuple(one for one in taken_apart if one is not None)


def fail_mixes(
    history: CodeHistory, below: Sequence[str], models: ModelCounts
) -> tuple[MixShift, ...]:
    """Take apart by model the fails of the tests whose FTT fell below its limit in the present shift.

    Args:
        history: the codes over the shifts of the page, for its units.
        below: the tests.
        models: tested units and those that failed by model.
    """
    return tuple(
        one for test in below if (one := _fails_taken_apart(history, test, models)) is not None
    )


def _fails_taken_apart(history: CodeHistory, test: str, models: ModelCounts) -> MixShift | None:
    code = (test, ALL_FAILS)
    before, after = _settled(history, code, history.windows[:-1]), history.windows[-1:]
    groups = models.groups(code, after)
    parts = mix_or_process(models.groups(code, before), groups)
    if parts.difference is None or parts.difference <= 0:
        return None
    return MixShift(
        test=test,
        code=ALL_FAILS,
        shifts=1,
        defects=int(sum(failed for failed, _ in groups)),
        units=int(sum(tested for _, tested in groups)),
        **_per_hundred(parts),
        grouped_by="models",
        at_risk_before=1.0,
        at_risk=1.0,
    )


def _taken_apart(history: CodeHistory, change: Changed, models: ModelCounts) -> MixShift | None:
    """Compare the shifts of a rise with the settled ones before."""
    code = (change.test, change.code)
    before, after = history.windows[: -change.shifts], history.windows[-change.shifts :]
    by_risk = any((code, window) in history.spared for window in history.windows)
    groups = partial(_by_risk, history) if by_risk else models.groups
    parts = mix_or_process(groups(code, _settled(history, code, before)), groups(code, after))
    if change.kind != "more" or parts.difference is None:
        return None
    grouped_by = "units that can have it" if by_risk else "models"
    return _told(history, change, parts, grouped_by)


def _settled(history: CodeHistory, code: Code, windows: Sequence[Window]) -> list[Window]:
    return [window for window in windows if history.tested.get((code[0], window))]


def _by_risk(history: CodeHistory, code: Code, windows: Sequence[Window]) -> Groups:
    """Defects and units of those that can have the code, and of those that cannot."""
    tested = sum(history.units(code, window, crude=True) for window in windows)
    at_risk = sum(history.units(code, window) for window in windows)
    defects = sum(history.counts.get((code, window), 0) for window in windows)
    return [(defects, at_risk), (0, tested - at_risk)]


def _told(history: CodeHistory, change: Changed, parts: Mix, grouped_by: str) -> MixShift:
    code = (change.test, change.code)
    before = _settled(history, code, history.windows[: -change.shifts])
    (_, risk), (_, spared) = _by_risk(history, code, before)
    (defects, risk_2), (_, spared_2) = _by_risk(history, code, history.windows[-change.shifts :])
    return MixShift(
        test=change.test,
        code=change.code,
        shifts=change.shifts,
        defects=int(defects),
        units=int(risk_2 + spared_2),
        **_per_hundred(parts),
        grouped_by=grouped_by,
        at_risk_before=risk / max(1, risk + spared),
        at_risk=risk_2 / max(1, risk_2 + spared_2),
    )


def _per_hundred(parts: Mix) -> dict[str, float]:
    names = ("before", "after", "mix", "process")
    return {name: 100 * (getattr(parts, name) or 0) for name in names}
