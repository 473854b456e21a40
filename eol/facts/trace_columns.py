"""What a defect may come from: every attribute, lot, station, bay, program, evaluator and hour, as columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import polars as pl
from numpy.typing import NDArray

from eol.facts.reader import Reader, Row, rows
from eol.facts.trace_units import Axis, Codes, TraceQuestion, TraceUnits, text_codes

NUMBERS_FROM = 13
"""A number with fewer values than this is taken as a category: a set point, a tool."""

_ROWS_AT_ONCE = 4_000_000

_OF_THE_UNIT: tuple[tuple[str, str, str, Axis], ...] = (
    ("model", "model", "model", "build"),
    ("line", "line", "line", "build"),
    ("shift of the line", "time", "line_shift", "build"),
    ("hour off the line", "hour", "line_hour", "build"),
    ("station", "station", "station", "test"),
    ("bay", "bay", "bay", "test"),
    ("program", "program", "program", "test"),
    ("evaluator", "evaluator", "operator", "test"),
    ("shift of the test", "time", "shift", "test"),
    ("crew of the test", "time", "crew", "test"),
    ("hour of the test", "hour", "test_hour", "test"),
)
"""Name, kind, column of `queries/trace/020_unit.sql` and axis."""


_LOT_RANGES = (
    ("build_seq", "from_build_seq", "to_build_seq"),
    ("line_off_at", "from_at", "to_at"),
)


@dataclass(frozen=True, slots=True)
class Column:
    """One factor: a category or a number a unit.

    Attributes:
        name: name of the factor, in words.
        kind: `attribute`, `lot`, `station`, `bay`, `program`, `evaluator`, `hour`, `model`, `line`
            or `time`.
        axis: `build` or `test`: whether it is of the unit or of its test.
        codes: the unit's value as a code into `labels`, -1 where unknown; empty for a number.
        labels: what the codes say.
        values: the unit's number, NaN where unknown; empty for a category.
        measure_unit: of the number.
    """

    name: str
    kind: str
    axis: Axis
    codes: Codes
    labels: Sequence[str]
    values: NDArray[np.float64]
    measure_unit: str | None = None

    @property
    def is_number(self) -> bool:
        """Whether it is a measured number."""
        return not self.labels and len(self.values) > 0


def trace_columns(reader: Reader, question: TraceQuestion, units: TraceUnits) -> Iterator[Column]:
    """Give each factor in turn, so that hundreds of them need not lie in memory at once."""
    yield from _of_the_units(units)
    yield from _lots(reader, units)
    yield from _attributes(reader, question, units)


def category(name: str, kind: str, axis: Axis, texts: pl.Series) -> Column:
    """Make a column of texts; null is unknown."""
    codes, labels = text_codes(texts.cast(pl.String))
    return Column(name, kind, axis, codes, labels, np.zeros(0))


def _of_the_units(units: TraceUnits) -> Iterator[Column]:
    for name, kind, field, axis in _OF_THE_UNIT:
        texts = _texts(units.frame, field)
        if texts.null_count() < len(texts):
            yield category(name, kind, axis, texts)


def _texts(frame: pl.DataFrame, field: str) -> pl.Series:
    """Write the values of a column; a bay stands behind its station, an hour from full to full."""
    if field == "bay":
        place = pl.concat_str("station", pl.lit(" bay "), "bay")
        return frame.select(place.alias("bay")).to_series()
    if field in {"test_hour", "line_hour"}:
        full = pl.col(field).cast(pl.String).str.zfill(2)
        then = ((pl.col(field) + 1) % 24).cast(pl.String).str.zfill(2)
        return frame.select(pl.concat_str(full, pl.lit(":00 to "), then, pl.lit(":00"))).to_series()
    return frame[field]


def _lots(reader: Reader, units: TraceUnits) -> Iterator[Column]:
    """Lots by range: units between the same ends have the same lots, one or several."""
    told = reader.run("trace", "lot").with_columns(pl.col("part").fill_null("a part"))
    for part in told["part"].unique(maintain_order=True):
        for field, first, last in _LOT_RANGES:
            ends = (pl.col(first).cast(pl.Int64), pl.col(last).cast(pl.Int64))
            here = told.filter(pl.col("part") == part).select("lot", first=ends[0], last=ends[1])
            here = here.filter(pl.any_horizontal(pl.col("first", "last").is_not_null()))
            if here.height:
                texts = _lot_texts(units.frame[field].cast(pl.Int64), rows(here))
                yield category(f"lot of {part}", "lot", "build", texts)


def _lot_texts(places: pl.Series, ranges: list[Row]) -> pl.Series:
    """Write the lots of each unit by its place in the sequence or in time."""
    known = places.drop_nulls().unique().to_numpy()
    starts = np.unique([row["first"] for row in ranges if row["first"] is not None])
    ends = np.unique([row["last"] for row in ranges if row["last"] is not None])
    begun, over = np.searchsorted(starts, known, "right"), np.searchsorted(ends, known, "left")
    _, heads, segment = np.unique(
        begun * (len(ends) + 1) + over, return_index=True, return_inverse=True
    )
    names = [_lots_at(int(known[head]), ranges) for head in heads.tolist()]
    told = pl.DataFrame(
        {"place": known, "lots": pl.Series([names[n] for n in segment.tolist()], dtype=pl.String)}
    )
    every = pl.DataFrame({"place": places})
    return every.join(told, on="place", how="left", maintain_order="left")["lots"]


def _lots_at(place: int, ranges: list[Row]) -> str | None:
    lots = {
        row["lot"]
        for row in ranges
        if (row["first"] is None or row["first"] <= place)
        and (row["last"] is None or place <= row["last"])
    }
    return " or ".join(sorted(lots)) or None


def _attributes(reader: Reader, question: TraceQuestion, units: TraceUnits) -> Iterator[Column]:
    names = rows(reader.run("trace", "attribute_name"))
    for group in _groups(names):
        told = reader.run(
            "trace", "attribute", names=[row["name"] for row in group], **question.values
        )
        parts = told.partition_by("number", as_dict=True)
        for number, row in enumerate(group, start=1):
            part = parts.get((number,))
            if part is not None:
                yield from _attribute(reader, question, units, row, part)


def _groups(names: list[Row]) -> Iterator[list[Row]]:
    """Attributes that are read at once, so that memory stays bounded."""
    group: list[Row] = []
    for row in names:
        if group and sum(one["rows"] for one in group) + row["rows"] > _ROWS_AT_ONCE:
            yield group
            group = []
        group.append(row)
    if group:
        yield group


def _attribute(
    reader: Reader, question: TraceQuestion, units: TraceUnits, row: Row, part: pl.DataFrame
) -> Iterator[Column]:
    if part["place"].n_unique() < part.height:
        values = question.values | {"name": row["name"]}
        part = reader.run("trace", "attribute_latest", **values)
    places = units.kept[part["place"].to_numpy()]
    here = part.filter(pl.Series(places >= 0))
    places = places[places >= 0]
    name = row["name"].replace("_", " ")
    if row["has_stations"]:
        yield _placed(f"station of {name}", here["station"], places, units.n)
    number = here["number_value"]
    if row["numbers"] == row["rows"] and number.n_unique() >= NUMBERS_FROM:
        numbers = np.full(units.n, np.nan)
        numbers[places] = number.to_numpy()
        none = np.zeros(0, dtype=np.int64)
        yield Column(name, "attribute", "build", none, (), numbers, row["measure_unit"])
        return
    text = pl.col("text_value").fill_null(pl.col("number_value").cast(pl.String))
    yield _placed(name, here.select(text).to_series(), places, units.n)


def _placed(name: str, texts: pl.Series, places: Codes, n: int) -> Column:
    """Put the texts of some units where those stand."""
    told, labels = text_codes(texts)
    codes = np.full(n, -1, dtype=np.int64)
    codes[places] = told
    return Column(name, "attribute", "build", codes, labels, np.zeros(0))
