"""The nouns of the tool: the values that columns may take, the same in Python, SQL, commands and page.

And a noun with its number.
"""

from __future__ import annotations

from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Answer:
    """A computed figure that SQL cannot give: a row of the table `answer` without its shift.

    Attributes:
        question: what was asked, such as `usual_range`; an asker's rows are replaced together.
        name: name of the figure, such as `rank`.
        subject: what the figure is of where test, code and zone do not say it, such as a bay.
        n: units behind it.
        low: lower end of its interval, `high` the upper one.
        words: the figure in words, where it has a verdict.
        method: how it was computed.
    """

    question: str
    name: str
    test: str | None = None
    code: str | None = None
    zone: str | None = None
    subject: str | None = None
    n: int | None = None
    value: float | None = None
    low: float | None = None
    high: float | None = None
    words: str | None = None
    method: str | None = None


EQUIPMENT = "equipment"
"""The owner area whose findings are faults of the bench, never defects (rule 6)."""

UNSPECIFIED = "UNSPECIFIED"
"""The code stamped on a counted fail without a counting finding (rule 8)."""

CAUTION = (
    "A missing record is not a pass. This page releases no unit; "
    "release is by the plant's named authority."
)
"""The caution on every page, after "From data received up to HH:MM."."""


def counted(number: int, thing: str, things: str = "") -> str:
    """Return a number with its noun, in the plural where it is not one.

    Example:
        >>> counted(1, "unit"), counted(1200, "run"), counted(2, "loss", "losses")
        ('1 unit', '1200 runs', '2 losses')
    """
    return f"{number} {thing if number == 1 else things or thing + 's'}"
