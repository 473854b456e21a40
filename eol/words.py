"""The nouns of the tool: the values that columns may take, the same in Python, SQL, commands and page."""

from __future__ import annotations

from enum import StrEnum


class Kind(StrEnum):
    """What a unit is there for."""

    PRODUCTION = "production"
    TRIAL = "trial"
    REFERENCE = "reference"
    TRAINING = "training"


class Result(StrEnum):
    """How a run ended."""

    PASS = "pass"
    FAIL = "fail"
    ABORTED = "aborted"
    BYPASS = "bypass"


class Purpose(StrEnum):
    """Why a run was made."""

    NORMAL = "normal"
    RETEST = "retest"
    AUDIT = "audit"


class Severity(StrEnum):
    """Severity class of a defect, the gravest first."""

    A = "A"
    B = "B"
    C = "C"
    D = "D"


class VoidReason(StrEnum):
    """Why a run does not count, in the order in which the reasons apply (rule 4)."""

    SUSPECT_DOUBLE = "suspect_double"
    BYPASS = "bypass"
    ABORTED = "aborted"
    EQUIPMENT = "equipment"
    MISSING = "missing"
    WEAK = "weak"
    HARSH = "harsh"


class RepairClass(StrEnum):
    """What a repair did to the part; `none` means that nothing was found or done (rule 15)."""

    REPAIRED = "repaired"
    REPLACED = "replaced"
    ADJUSTED = "adjusted"
    NONE = "none"


class EventKind(StrEnum):
    """Where a unit is, and who decided."""

    LINE_OFF = "line_off"
    MOVE = "move"
    HOLD = "hold"
    UNHOLD = "unhold"
    SCRAP = "scrap"
    DIVERT = "divert"
    REWORK = "rework"
    SIGNED_OFF = "signed_off"
    RELEASE = "release"
    SHIP = "ship"
    RETURN = "return"


EQUIPMENT = "equipment"
"""The owner area whose findings are faults of the bench, never defects (rule 6)."""

UNSPECIFIED = "UNSPECIFIED"
"""The code stamped on a counted fail without a counting finding (rule 8)."""

CAUTION = (
    "A missing record is not a pass. This page releases no unit; "
    "release is by the plant's named authority."
)
"""The caution on every page, after "From data received up to HH:MM."."""
