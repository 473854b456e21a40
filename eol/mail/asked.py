"""Which report is to be made; light, so that a schedule with nothing to do loads no more than this."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from eol.mail.changes import Change


@dataclass(frozen=True, slots=True)
class Asked:
    """Which report is to be made.

    Attributes:
        revision: how many reports of this shift left before.
        ends_at: the shift's end, UTC; None where it is not known.
        changes: for a second report, what moved since the one before.
        reason: for a second report, why.
    """

    production_date: date
    shift: str | None
    ends_at: datetime | None
    revision: int = 0
    changes: tuple[Change, ...] = ()
    reason: str = ""
