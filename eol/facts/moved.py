"""Figures that were sent, or had settled, and are others now."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from eol.facts.asked import Question
from eol.facts.reader import Row
from eol.facts.remark import Remark

_LOOK_BACK = timedelta(days=60)
_SHOWN = 3
_NAMES = {
    "ftt_by_shift.ftt": "FTT",
    "dphu_by_shift.dphu": "DPHU",
    "line_by_shift.ftt": "line FTT",
    "line_by_shift.rty": "RTY",
    "line_by_shift.dphu": "line DPHU",
    "pareto_by_shift.per_100_at_risk": "per 100 at risk",
}


@dataclass(frozen=True, slots=True)
class MovedFigure:
    """A figure of the 60 days up to the shift that has moved since its newest sending.

    `sent_at` is None for a figure that had settled unsent; `n` are the units behind it, `value` None
    where there is none any more. `key` names its row: production_date, shift, test, code.
    """

    figure: str
    key: dict[str, str]
    sent_at: datetime | None
    sent_n: int | None
    sent_value: float | None
    n: int | None
    value: float | None

    @property
    def words(self) -> str:
        """What moved, from what to what."""
        where = "/".join(
            self.key[part] for part in ("production_date", "shift") if part in self.key
        )
        what = [self.key[part] for part in ("test", "code") if part in self.key]
        name = " ".join([where, *what, _NAMES.get(self.figure, self.figure)])
        was, now = (_value(self.figure, v) for v in (self.sent_value, self.value))
        return f"{name} was {was} of {self.sent_n or 0}, is {now} of {self.n or 0}"


def moved_figures(question: Question) -> tuple[MovedFigure, ...]:
    """Return the figures that have moved, oldest shift first."""
    since = question.asked.production_date - _LOOK_BACK
    return tuple(_moved(row) for row in question.rows("moved_figures", from_date=since))


def _moved(row: Row) -> MovedFigure:
    return MovedFigure(**row | {"key": json.loads(row["key"], strict=False)})


def moved_remarks(moved: Sequence[MovedFigure]) -> Iterator[Remark]:
    """Tell how many figures have moved, and the first of them."""
    if not moved:
        return
    shown = "; ".join(figure.words for figure in moved[:_SHOWN])
    rest = f"; {len(moved) - _SHOWN} more in figure_change" if len(moved) > _SHOWN else ""
    have = (
        "figure already sent or settled has"
        if len(moved) == 1
        else "figures already sent or settled have"
    )
    yield Remark("look", len(moved), f"{len(moved)} {have} moved: {shown}{rest}")


def _value(figure: str, value: float | None) -> str:
    if value is None:
        return "none"
    return f"{value:.1%}" if figure.endswith((".ftt", ".rty")) else f"{value:.2f}"
