"""Refused rows in, rows of `rejected_row` out, the row as a JSON object; and back again.

Persons are pseudonyms in the JSON too (rule 18). A row whose cells could not be told apart may hold
a name anywhere, so where the feed has persons its text is withheld.
"""

from __future__ import annotations

import json
from collections.abc import Collection
from typing import Any

import polars as pl
import polars.selectors as cs

from eol.feeds.batch import KEYED_SCHEMA, REJECTED_SCHEMA
from eol.feeds.cells import pseudonyms
from eol.feeds.columns import Type
from eol.feeds.feed import Feed
from eol.feeds.mapping import Source
from eol.feeds.raw import FILE_ROW, plainly_named

WITHHELD = '{"line": "withheld, for it may hold the name of a person"}'
_LINE, _SURPLUS = "line", "surplus"
_REASON, _WAITS_FOR = "eol.reason", "eol.waits_for"
"""Names that no column of a file has, since mapping leaves such columns out."""


def rejected_rows(
    rows: pl.DataFrame, refused: pl.DataFrame, sources: dict[str, Source], feed: Feed
) -> pl.DataFrame:
    """Return refused rows with their reason and themselves.

    Args:
        rows: the file's own columns and file_row.
        refused: file_row, reason and waits_for of those that are not accepted.
        sources: where each of the tool's columns comes from.
        feed: the feed.
    """
    if refused.is_empty():
        return pl.DataFrame(schema=REJECTED_SCHEMA)
    reasons = refused.rename({"reason": _REASON, "waits_for": _WAITS_FOR})
    bad = rows.join(reasons, on=FILE_ROW, maintain_order="left")
    reason, waits_for = pl.col(_REASON).alias("reason"), pl.col(_WAITS_FOR).alias("waits_for")
    raw = _raw(bad.select(cs.by_name(rows.columns)), sources, feed)
    return bad.select(FILE_ROW, reason, waits_for, raw.alias("raw"))


def keyed_rows(
    rows: pl.DataFrame, keyed: pl.DataFrame, sources: dict[str, Source], feed: Feed
) -> pl.DataFrame:
    """Return the rows that a unit key named with themselves, to be named again (rule 17).

    Args:
        rows: the file's own columns and file_row.
        keyed: file_row, key, at and vin.
        sources: where each of the tool's columns comes from.
        feed: the feed.
    """
    if keyed.is_empty():
        return pl.DataFrame(schema=KEYED_SCHEMA)
    kept = keyed.sort(FILE_ROW)
    told = rows.join(kept.select(FILE_ROW), on=FILE_ROW, how="semi", maintain_order="left")
    raw = _raw(told.sort(FILE_ROW), sources, feed)
    return kept.select("file_row", "key", "at", "vin", raw.alias("raw"))


def _raw(rows: pl.DataFrame, sources: dict[str, Source], feed: Feed) -> pl.Series:
    """Rows as JSON objects, in their order."""
    persons = person_columns(sources, feed)
    cells = {
        name: _as_text(plainly_named(rows[name]), feed, person=name in persons)
        for name in _sent_names(rows)
    }
    return pl.DataFrame(cells).select(pl.struct(pl.all()).struct.json_encode()).to_series()


def unreadable_rows(
    rows: pl.DataFrame, refused: pl.DataFrame, sources: dict[str, Source], feed: Feed
) -> pl.DataFrame:
    """Return the rows that reading refused, their persons as pseudonyms.

    Args:
        rows: the readable rows, for the order of the file's columns.
        refused: file_row, reason and raw of the rows that could not be read.
        sources: where each of the tool's columns comes from.
        feed: the feed.
    """
    persons, columns = person_columns(sources, feed), _sent_names(rows)
    raw = [_masked(text, columns, persons, feed) for text in refused["raw"]]
    return refused.select(
        FILE_ROW,
        "reason",
        pl.lit(None, dtype=pl.String).alias("waits_for"),
        pl.Series("raw", raw, dtype=pl.String),
    )


def rows_of(rejected: pl.DataFrame) -> pl.DataFrame:
    """Return rejected rows as a file's own columns, text, and file_row, to be parsed again.

    Rows whose cells could not be told apart are left out: no mapping mends them.
    """
    cells = [
        {FILE_ROW: file_row, **{name: _plain(value) for name, value in row.items()}}
        for file_row, raw in rejected.select(FILE_ROW, "raw").rows()
        if set(row := json.loads(raw)) != {_LINE}
    ]
    names = dict.fromkeys(name for row in cells for name in row if name != FILE_ROW)
    schema = {**dict.fromkeys(names, pl.String), FILE_ROW: pl.Int64}
    return pl.DataFrame(cells, schema=schema)


def person_columns(sources: dict[str, Source], feed: Feed) -> frozenset[str]:
    """Return the file's own columns that hold persons."""
    persons = [column.name for column in feed.columns if column.type is Type.PERSON]
    return frozenset(sent for name in persons if name in sources for sent in sources[name].columns)


def _sent_names(rows: pl.DataFrame) -> list[str]:
    return [name for name in rows.columns if name != FILE_ROW]


def _as_text(cells: pl.Series, feed: Feed, *, person: bool) -> pl.Series:
    if cells.dtype.is_nested() or cells.dtype in (pl.Binary, pl.Object, pl.Duration):
        return pl.Series([None if c is None else str(c) for c in cells], dtype=pl.String)
    text = cells.cast(pl.String)
    return pseudonyms(text.str.strip_chars(), feed) if person else text


def _masked(raw: str, columns: list[str], persons: Collection[str], feed: Feed) -> str:
    if not persons:
        return raw
    cells: dict[str, Any] = json.loads(raw)
    if set(cells) == {_LINE}:
        return WITHHELD
    hiding = _hiding_places(cells, columns, persons)
    masked = {name: _person(cell, feed) if name in hiding else cell for name, cell in cells.items()}
    return json.dumps(masked, ensure_ascii=False)


def _hiding_places(
    cells: dict[str, Any], columns: list[str], persons: Collection[str]
) -> frozenset[str]:
    """The columns that may hold a person: a cell too many moves names right, one too few left."""
    right = len(cells.get(_SURPLUS) or ())
    left = max(0, len(columns) - len(cells))
    near = {
        name
        for place, person in enumerate(columns)
        if person in persons
        for name in columns[max(0, place - left) : place + right + 1]
    }
    return frozenset(near | {_SURPLUS})


def _person(cell: object, feed: Feed) -> Any:
    if cell is None or feed.pseudonym is None:
        return None
    if isinstance(cell, list):
        return [_person(one, feed) for one in cell]
    return feed.pseudonym(str(cell))


def _plain(value: object) -> str | None:
    if value is None or isinstance(value, str):
        return value
    return json.dumps(value)
