"""Which runs or units went from one production month to another since a plant last published."""

from __future__ import annotations

from dataclasses import dataclass

import polars as pl
import pyarrow.parquet as pq

from eol.fleet import layout
from eol.fleet.manifest import Part
from eol.fleet.place import Place
from eol.store.database import Database


@dataclass(frozen=True, slots=True)
class Moved:
    """Rows (key, from_month, to_month) of the runs or units whose month is another one than that published."""

    rows: pl.DataFrame

    @staticmethod
    def none() -> Moved:
        """Return what says that nothing moved."""
        return Moved(pl.DataFrame(schema=["key", "from_month", "to_month"]))

    @property
    def left(self) -> frozenset[str]:
        """The months that a row left."""
        return frozenset(self.rows["from_month"])

    @property
    def reached(self) -> frozenset[str]:
        """The months that a row reached."""
        return frozenset(self.rows["to_month"])

    def keys_reaching(self, month: str) -> pl.Series:
        """Return the runs or units that reached a month."""
        return self.rows.filter(pl.col("to_month") == month)["key"]


def moved_keys(
    copy: Database, place: Place, plant: str, table: str, touched: tuple[Part, ...]
) -> Moved:
    """Compare the keys in the published parts of the touched months with the months they have now.

    Args:
        copy: the plant's published copy, the months of runs and units worked out in it.
        place: the lake.
        plant: name of the plant in the lake.
        table: `run` or `unit`.
        touched: the parts that will be written.
    """
    key = layout.KEY[table]
    paths = {
        part.month: layout.part_path(table, plant, part.month)
        for part in touched
        if part.table == table
    }
    there = place.present(paths.values())
    frames = [
        _keys(place, path, key).with_columns(from_month=pl.lit(month))
        for month, path in paths.items()
        if path in there
    ]
    if not frames:
        return Moved.none()
    now = copy.view(f"lake_{table}_month").select(key=key, to_month="production_month")
    both = pl.concat(frames).join(now, on="key")
    return Moved(both.filter(pl.col("from_month") != pl.col("to_month")))


def _keys(place: Place, path: str, key: str) -> pl.DataFrame:
    with place.files.open_input_file(place.full(path)) as file:
        found = pl.from_arrow(pq.read_table(file, columns=[key]))
    assert isinstance(found, pl.DataFrame)
    return found.rename({key: "key"})
