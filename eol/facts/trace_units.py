"""The units that a code could have been found on, and which of them had it: what a trace compares."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

import numpy as np
import polars as pl
from numpy.typing import NDArray

from eol.facts.reader import Reader

Axis = Literal["build", "test"]
"""The order in which units were built, or in which they were tested."""

Codes = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class TraceQuestion:
    """What is traced: a code of a test, at one zone or at any, on units tested in a span of time.

    `from_at` belongs to the span, `to_at` does not; both are in the plant's zone.
    """

    code: str
    test: str
    zone: str | None
    from_at: datetime
    to_at: datetime

    @property
    def values(self) -> dict[str, Any]:
        """The parameters that the files of `queries/trace` share."""
        return {
            "code": self.code,
            "test": self.test,
            "from_at": self.from_at,
            "to_at": self.to_at,
        }


@dataclass(frozen=True, slots=True)
class TraceUnits:
    """Production units at their first counted run that could have the code (rules 7, 10 and 13).

    Attributes:
        frame: one row a unit, as `queries/trace/020_unit.sql` gives it, `place` without gaps.
        kept: for each place of that query the unit's place here, -1 where it cannot have the code.
        defect: whether the unit had the code, one a unit.
        found: one row a finding of the code: place, zone, step.
        line_shift: shift in which the unit left the line as a code, one a unit; without such a time
            that of its test.
        shift: shift of the line and shift of the test as one code: a bad shift of either passes for
            no cause of the other.
        model: model as a code, one a unit.
        stratum: shift and model as one code.
        unknown_at_risk: units of which it is not known whether they can have the code.
    """

    frame: pl.DataFrame
    kept: Codes
    defect: Flags
    found: pl.DataFrame
    line_shift: Codes
    shift: Codes
    model: Codes
    stratum: Codes
    unknown_at_risk: int

    @property
    def n(self) -> int:
        """How many units there are."""
        return self.frame.height


def trace_units(reader: Reader, question: TraceQuestion, *, only_some: bool) -> TraceUnits:
    """Read the units of a question.

    Args:
        reader: the published copy of the store.
        question: what is traced.
        only_some: whether the catalogue says that only some units can have the code (rule 10).
    """
    frame = _local(reader.run("trace", "unit", **question.values), question)
    found = reader.run("trace", "found", **question.values)
    cannot, unknown = _at_risk(reader, question) if only_some else (set(), 0)
    can = ~frame["run_id"].is_in(list(cannot))
    kept = np.where(can.to_numpy(), np.cumsum(can.to_numpy()) - 1, -1)
    frame = frame.filter(can).with_columns(place=pl.int_range(pl.len()))
    if question.zone is not None:
        found = found.filter(pl.col("zone") == question.zone)
    found = found.join(frame.select("run_id", "place"), on="run_id").select("place", "zone", "step")
    defect = np.zeros(frame.height, dtype=np.bool_)
    defect[found["place"].to_numpy()] = True
    line_shift, model = _line_shift(frame), _codes_of(frame, "model")
    shift = joined_codes(line_shift, _codes_of(frame, "production_date", "shift"))
    return TraceUnits(
        frame=frame,
        kept=kept,
        defect=defect,
        found=found,
        line_shift=line_shift,
        shift=shift,
        model=model,
        stratum=joined_codes(shift, model),
        unknown_at_risk=unknown,
    )


def joined_codes(one: Codes, two: Codes) -> Codes:
    """Return one code a unit for two, from 0 without gaps."""
    if not len(one):
        return one
    both = one * (int(two.max()) + 1) + two
    return compact(both)


def compact(codes: Codes) -> Codes:
    """Return codes as ones from 0 without gaps, in the same order."""
    return np.asarray(np.unique(codes, return_inverse=True)[1], dtype=np.int64)


def _local(frame: pl.DataFrame, question: TraceQuestion) -> pl.DataFrame:
    """Tell times in the zone of the question."""
    zone = str(question.to_at.tzinfo)
    return frame.with_columns(pl.col("at", "line_off_at").dt.convert_time_zone(zone))


def _at_risk(reader: Reader, question: TraceQuestion) -> tuple[set[int], int]:
    """Return the runs of units that cannot have the code, and how many may or may not."""
    told = reader.run("trace", "not_at_risk", **question.values)
    cannot = told.filter(~pl.col("at_risk"))["run_id"].to_list()
    return set(cannot), told.height - len(cannot)


def _line_shift(frame: pl.DataFrame) -> Codes:
    known = frame["line_date"].is_not_null()
    of_line = _codes_of(frame, "line_date", "line_shift")
    of_test = _codes_of(frame, "production_date", "shift")
    return joined_codes(
        np.where(known.to_numpy(), of_line, of_test), known.to_numpy().astype(np.int64)
    )


def _codes_of(frame: pl.DataFrame, *names: str) -> Codes:
    """Return the values of some columns, taken together, as codes from 0; null is a value."""
    told = frame.select(pl.concat_str(pl.col(names).cast(pl.String).fill_null(""), separator="/"))
    return text_codes(told.to_series())[0]


def text_codes(texts: pl.Series) -> tuple[Codes, list[str]]:
    """Return texts as codes from 0 in the order of the alphabet, -1 for null, and what each code says."""
    labels = texts.drop_nulls().unique().sort()
    codes = texts.cast(pl.Enum(labels)).to_physical().cast(pl.Int64).fill_null(-1)
    return codes.to_numpy().astype(np.int64), labels.to_list()
