"""What is known of each suspect unit: confirmed, passed by a test that could see or not, or untested."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from eol.facts.contain_edges import lower_bound
from eol.facts.reader import Row
from eol.statistics.containment import residual_risk

CONFIRMED = "confirmed"
MENDED = "confirmed, repaired and passed since"
PASSED = "passed"
UNCHECKED = "passed where the bay failed its check"
FAILED = "failed, without this code"
VOID = "void runs only"
UNTESTED = "not tested"

EVIDENCE = (CONFIRMED, UNTESTED, VOID, UNCHECKED, FAILED, PASSED, MENDED)
"""The classes of evidence, the weakest proof first after what is confirmed."""

_MOVES = {
    "ship": "shipped",
    "signed_off": "signed off",
    "scrap": "scrapped",
    "hold": "held",
    "divert": "diverted",
    "rework": "in rework",
    "return": "returned",
    "line_off": "left the line",
}


@dataclass(frozen=True, slots=True)
class SuspectUnit:
    """A unit of a suspect list.

    Attributes:
        evidence: class of what is known of it.
        place: where it is, as the newest events tell; None where nothing does.
        residual_risk: chance that it has the fault although its test passed, or untested as it is;
            None where it is confirmed, or nothing tells the share.
        handling: the catalogue's words of caution for the fault and for what else was found on it.
    """

    vin: str
    build_seq: int | None
    evidence: str
    place: str | None
    residual_risk: float | None
    handling: str | None


@dataclass(frozen=True, slots=True)
class Sight:
    """What a pass proves: by sensitivity of each place.

    Attributes:
        given: the sensitivity given, for all places (or those of `bay` alone).
        checks: by station and bay the reference checks and the good ones.
        bay: the place that the given one is for; None for all.
    """

    given: float | None
    checks: Mapping[tuple[str | None, str | None], tuple[int, int]]
    bay: tuple[str, str | None] | None = None

    def of(self, station: str | None, bay: str | None, *, unchecked: bool) -> float:
        """Return the sensitivity of a place; 0 without a good check, and where it failed one."""
        if self.given is not None and self.bay in (None, (station, bay)):
            return self.given
        checks, good = self.checks.get((station, bay), (0, 0))
        return 0.0 if unchecked or not checks else lower_bound(good, checks)


def evidence_of(row: Row, *, confirmed: bool, repaired: bool) -> str:
    """Return the class of what is known of a unit.

    Args:
        row: its row of `queries/contain/010_unit.sql`.
        confirmed: whether the fault was found on it, or it was named as having it.
        repaired: whether it was repaired after.
    """
    if confirmed:
        return MENDED if repaired and row["last_result"] == "pass" else CONFIRMED
    if row["attempts"]:
        if row["last_result"] != "pass":
            return FAILED
        return UNCHECKED if row["unchecked"] else PASSED
    return VOID if row["voids"] else UNTESTED


def risk_of(row: Row, evidence: str, share: float | None, sight: Sight) -> float | None:
    """Return the risk that is left: p (1 - s) / (1 - p s) after a run that did not find it, else p."""
    if share is None or evidence in (CONFIRMED, MENDED):
        return None
    if evidence in (VOID, UNTESTED):
        return share
    seen = sight.of(row["station"], row["bay"], unchecked=bool(row["unchecked"]))
    return residual_risk(share, seen)


def place_words(kind: str | None, place: str | None, station: str | None) -> str | None:
    """Write where a unit is: `shipped, on the road`, `repair: water`, `last seen at W`."""
    moved = _MOVES.get(kind or "")
    told = [part for part in (moved, place) if part]
    if told:
        return ", ".join(told)
    return f"last seen at {station}" if station else None
