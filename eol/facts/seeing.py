"""Can the tests see: checks by reference units, conditions on the move, false fails, double looks."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from eol.facts.drift import Drift, drifts
from eol.facts.false_fails import FalseFails, false_fails
from eol.facts.ftt import Window
from eol.facts.reader import Reader, Row, rows, whole
from eol.facts.remark import place_words
from eol.facts.span import Span
from eol.statistics.agreement import Agreement, cohen_kappa
from eol.statistics.proportion import clopper_pearson

CHECKS = 20
"""The last checks of a bay that tell what it sees at least."""

USUAL = 60
"""Shifts that make usual levels, and over which double looks are gathered."""

WINDOW = 20
"""Shifts over which fails are gathered that passed elsewhere."""

FEWEST_LOOKS = 10
SUBSTANTIAL = 0.6
"""Kappa under which two looks do not agree well (Landis and Koch, Biometrics 33, 1977, page 165)."""


@dataclass(frozen=True, slots=True)
class CheckedBay:
    """What the reference units showed of a bay.

    Attributes:
        good: checks that showed the declared fault, of the last `checks`.
        low: what the bay finds at least, of such faults: lower one-sided 95 % bound (Clopper-Pearson).
        missed: checks of the present shift that did not show it.
        in_a_row: checks missed one after the other up to now.
    """

    test: str
    station: str
    bay: str | None
    good: int
    checks: int
    low: float
    missed: int
    in_a_row: int

    @property
    def name(self) -> str:
        """The station, with its bay where it has some."""
        return place_words(self.station, self.bay)


@dataclass(frozen=True, slots=True)
class DoubleLooks:
    """How a test and its audits agree on the same units: kappa with interval, and the two ways to differ."""

    test: str
    agreement: Agreement
    only_first: int
    only_audit: int

    @property
    def disagree(self) -> bool:
        """True where agreement is surely less than substantial."""
        high = self.agreement.high
        return self.agreement.n >= FEWEST_LOOKS and high is not None and high < SUBSTANTIAL


@dataclass(frozen=True, slots=True)
class Seeing:
    """Whether the tests of a shift could see; all tuples are empty where nothing is known."""

    checks: tuple[CheckedBay, ...] = ()
    drifts: tuple[Drift, ...] = ()
    false_fails: tuple[FalseFails, ...] = ()
    double_looks: tuple[DoubleLooks, ...] = ()


def seeing_facts(reader: Reader, span: Span | None) -> Seeing:
    """Tell whether the tests could see.

    Args:
        reader: the published copy of the store.
        span: the shifts up to the present one; None where there is none.
    """
    if span is None:
        return Seeing()
    usual, window = span.last(USUAL), span.last(WINDOW)
    return Seeing(
        checks=checked_bays(
            rows(reader.run("seeing", "check", **usual.bounds)), span.shifts[-1].window
        ),
        drifts=drifts(reader, usual),
        false_fails=false_fails(rows(reader.run("seeing", "passed_elsewhere", **window.bounds))),
        double_looks=double_looks(rows(reader.run("seeing", "double_look", **usual.bounds))),
    )


def checked_bays(checks: Sequence[Row], present: Window) -> tuple[CheckedBay, ...]:
    """Return what the reference units showed of each bay, those that missed one first.

    Args:
        checks: rows of `seeing/check`, by bay and time.
        present: the present shift.
    """
    bays: dict[tuple[str, str, str | None], list[Row]] = defaultdict(list)
    for row in checks:
        bays[row["test"], row["station"], row["bay"]].append(row)
    found = [_checked(*place, told[-CHECKS:], present) for place, told in bays.items()]
    return tuple(sorted(found, key=lambda one: (-one.missed, one.low, one.test, one.name)))


def _checked(
    test: str, station: str, bay: str | None, told: Sequence[Row], present: Window
) -> CheckedBay:
    good = sum(bool(row["good"]) for row in told)
    bad_now = [
        row for row in told if (row["production_date"], row["shift"]) == present and not row["good"]
    ]
    in_a_row = 0
    for row in reversed(told):
        if row["good"]:
            break
        in_a_row += 1
    # The two-sided interval of 90 % has the one-sided bound of 95 % as its lower end.
    low = clopper_pearson(good, len(told), confidence=0.90).low or 0.0
    return CheckedBay(test, station, bay, good, len(told), low, len(bad_now), in_a_row)


def double_looks(counted: Sequence[Row]) -> tuple[DoubleLooks, ...]:
    """Return how each test agrees with its audits.

    Args:
        counted: rows of `seeing/double_look`.
    """
    found = []
    for row in counted:
        first, audit = whole(row["only_first"]), whole(row["only_audit"])
        table = [[whole(row["both_failed"]), first], [audit, whole(row["neither"])]]
        found.append(DoubleLooks(row["test"], cohen_kappa(table), first, audit))
    return tuple(found)
