"""Sound files damaged by chance, with what a careful reader may lose or change in each at most.

Text is damaged as on its way (tests/mutations.py), packed files in their bytes, tables in their
columns: dropped, in another order, under each other's names, of another type.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

import polars as pl
from mutations import MUTATIONS, cell_dropped
from sound_files import KINDS, ROWS, TABLES, packed, written

TEXT_KINDS = ("csv", "tsv", "jsonl", "csv.gz", "csv.zst")
CHECKED_KINDS = ("csv.gz", "csv.zst", "xlsx")
"""Kinds that carry a check sum: damaged bytes are seen as such."""


@dataclass(frozen=True, slots=True)
class Damaged:
    """A damaged file.

    Attributes:
        feed: the feed it is of; kind: the ending of its name; content: its bytes.
        how: what was done, for the message of a test.
        touched: rows that may be lost or told otherwise, None where the file may be refused whole.
        gaps: whether rows may be told with cells left out.
        unchecked: whether nothing can show that a cell was changed.
    """

    feed: str
    kind: str
    content: bytes
    how: str
    touched: int | None
    gaps: bool = False
    unchecked: bool = False


def damaged_file(seed: int) -> Damaged:
    """Damage a file, all by the seed alone."""
    chance = Random(seed)
    return chance.choice((_text, _text, _header, _bytes, _column_gone, _moved, _renamed, _retyped))(
        chance
    )


def _feed(chance: Random) -> str:
    return chance.choice(sorted(TABLES))


def _text(chance: Random) -> Damaged:
    """Damage below the header, before the text is packed."""
    feed, kind = _feed(chance), chance.choice(TEXT_KINDS)
    plain, packing = kind.partition(".")[::2]
    content = written(TABLES[feed], plain)
    body = 0 if plain == "jsonl" else content.index(b"\n") + 1
    able = [one for one in MUTATIONS if plain == "csv" or one is not cell_dropped]
    mutation = chance.choice(able)
    damaged, touched = mutation(content, body, chance)
    return Damaged(feed, kind, packed(damaged, packing), mutation.__name__, touched)


def _header(chance: Random) -> Damaged:
    """One bit of the header flipped: a column loses its name, or two become one."""
    feed, kind = _feed(chance), chance.choice(("csv", "tsv"))
    content = bytearray(written(TABLES[feed], kind))
    content[chance.randrange(content.index(b"\n"))] ^= 1 << chance.randrange(8)
    return Damaged(feed, kind, bytes(content), "header flipped", None, gaps=True)


def _bytes(chance: Random) -> Damaged:
    """Bits flipped in a packed file, or its end cut off."""
    feed, kind = _feed(chance), chance.choice((*CHECKED_KINDS, "parquet"))
    content = bytearray(written(TABLES[feed], kind))
    if chance.random() < 0.5:
        del content[chance.randrange(8, len(content)) :]
        return Damaged(feed, kind, bytes(content), "cut off", None)
    for _ in range(chance.randint(1, 4)):
        content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)
    return Damaged(feed, kind, bytes(content), "bytes flipped", None, unchecked=kind == "parquet")


def _column_gone(chance: Random) -> Damaged:
    feed, kind = _feed(chance), chance.choice(KINDS)
    name = chance.choice(TABLES[feed].columns)
    content = written(TABLES[feed].drop(name), kind)
    return Damaged(feed, kind, content, f"without {name}", None, gaps=True)


def _moved(chance: Random) -> Damaged:
    feed, kind = _feed(chance), chance.choice(KINDS)
    names = chance.sample(TABLES[feed].columns, TABLES[feed].width)
    return Damaged(feed, kind, written(TABLES[feed].select(names), kind), "columns moved", 0)


def _renamed(chance: Random) -> Damaged:
    """VIN and time under each other's names: no row is what it says."""
    feed, kind = _feed(chance), chance.choice(KINDS)
    frame = TABLES[feed]
    time = next(name for name, dtype in frame.schema.items() if dtype.is_temporal())
    swapped = frame.rename({"vin": time, time: "vin"})
    return Damaged(feed, kind, written(swapped, kind), f"vin and {time} swapped", ROWS)


def _retyped(chance: Random) -> Damaged:
    """A column of another type, as a new version of a bench writes it; what it says stays the same."""
    feed = _feed(chance)
    name = chance.choice(TABLES[feed].columns)
    column = TABLES[feed][name]
    able = [change for change in _RETYPED if change(column) is not None]
    change = chance.choice(able)
    frame = TABLES[feed].with_columns(change(column))
    how = f"{name} as {frame.schema[name]}"
    return Damaged(feed, "parquet", written(frame, "parquet"), how, None, gaps=True)


def _as(
    dtype: pl.DataType | type[pl.DataType], *, keeps: bool = True
) -> Callable[[pl.Series], pl.Series | None]:
    """A cast, where the column can be cast so and, if asked, comes back as it was."""

    def change(column: pl.Series) -> pl.Series | None:
        try:
            cast = column.cast(dtype)
            return cast if not keeps or cast.cast(column.dtype).equals(column) else None
        except pl.exceptions.PolarsError:
            return None

    return change


_RETYPED: tuple[Callable[[pl.Series], pl.Series | None], ...] = (
    lambda column: pl.Series(column.name, [None] * len(column), dtype=pl.Null),
    lambda column: pl.Series(column.name, [None] * len(column), dtype=pl.Boolean),
    lambda column: pl.Series(column.name, [[cell] for cell in column]),
    lambda column: pl.Series(column.name, [{"cell": cell} for cell in column]),
    _as(pl.Binary),
    _as(pl.Categorical),
    _as(pl.Float32),
    _as(pl.Int8),
    _as(pl.UInt64),
    _as(pl.Decimal(12, 3)),
    _as(pl.Datetime("ns", "UTC")),
    _as(pl.Datetime("ms", "UTC")),
    _as(pl.Date, keeps=False),
    _as(pl.Time, keeps=False),
)
