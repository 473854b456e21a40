"""Units for the tests of a trace: a frame as `queries/trace/020_unit.sql` gives it, from a few lists."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Any

import numpy as np
import polars as pl

from eol.facts.trace_columns import Column, category
from eol.facts.trace_units import Axis, TraceUnits, compact, joined_codes

FIRST = datetime(2026, 9, 8, 6, tzinfo=UTC)


def units(
    defect: Sequence[Any], *, shift: Sequence[int] | None = None, model: Sequence[int] | None = None
) -> TraceUnits:
    """Units in build order, a minute apart, tested in the same order; by default of one shift and model."""
    n = len(defect)
    shifts = compact(np.array(shift if shift is not None else [0] * n))
    frame = pl.DataFrame(
        {
            "place": range(n),
            "vin": [f"U{number:06d}" for number in range(n)],
            "build_seq": range(1000, 1000 + n),
            "line_off_at": [FIRST + timedelta(minutes=number) for number in range(n)],
            "at": [FIRST + timedelta(minutes=number + 60) for number in range(n)],
            "line_date": [date(2026, 9, 8)] * n,
            "line_shift": [str(one) for one in shifts.tolist()],
            "production_date": [date(2026, 9, 8)] * n,
            "shift": [str(one) for one in shifts.tolist()],
        },
        schema_overrides={
            "vin": pl.String,
            "line_off_at": pl.Datetime("us", "UTC"),
            "at": pl.Datetime("us", "UTC"),
        },
    )
    flags = np.array(defect, dtype=np.bool_)
    found = pl.DataFrame(
        {"place": np.flatnonzero(flags), "zone": ["Z"] * flags.sum(), "step": ["S"] * flags.sum()}
    )
    models = np.array(model if model is not None else [0] * n, dtype=np.int64)
    stratum = joined_codes(shifts, models)
    return TraceUnits(frame, np.arange(n), flags, found, shifts, shifts, models, stratum, 0)


def texts(values: Sequence[str | None], name: str = "robot", axis: Axis = "build") -> Column:
    """A category."""
    return category(name, "attribute", axis, pl.Series(values, dtype=pl.String))


def numbers(values: Any, name: str = "bead") -> Column:
    """A measured number in mm."""
    none = np.zeros(0, dtype=np.int64)
    return Column(name, "attribute", "build", none, (), np.array(values, dtype=float), "mm")
