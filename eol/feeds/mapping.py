"""The rows of a file under the file's names in, the same rows under the tool's names out.

Renames, joins, constants and value maps of plant.toml; the cells stay as they were sent. A column
is found by its very name, else by it without regard to case and outer blanks.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import polars as pl
import polars.selectors as cs

from eol.errors import FeedFileError
from eol.feeds.columns import Column, Type
from eol.feeds.encoding import REPLACEMENT
from eol.feeds.feed import Feed
from eol.feeds.raw import FILE_ROW
from eol.plant.nearest import nearest

_OWN_PREFIXES = ("eol.", "sent.")
_UNUSABLE = (pl.Binary, pl.Object, pl.Duration, pl.Unknown)
"""Types of Parquet that no column of a feed can hold, beside lists and structs."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a column comes from: columns of the file, or a constant."""

    columns: tuple[str, ...] = ()
    constant: str | None = None

    def __str__(self) -> str:
        return f"'{self.constant}'" if self.constant is not None else " + ".join(self.columns)


@dataclass(frozen=True, slots=True)
class Mapped:
    """Rows under the tool's names.

    Attributes:
        frame: every column of the feed (null where the file has none), then the further columns,
            then file_row; text is trimmed and null where it is empty.
        sources: where each column that the file gives comes from.
        extra: the further columns, which the feed does not know.
    """

    frame: pl.DataFrame
    sources: dict[str, Source]
    extra: tuple[str, ...]


def map_rows(rows: pl.DataFrame, feed: Feed, *, where: str) -> Mapped:
    """Give a file's columns the tool's names.

    Args:
        rows: the file's own columns and `file_row`.
        feed: the feed with its mapping.
        where: the file, for messages.

    Raises:
        FeedFileError: a required column is missing, or two columns give the same one.
    """
    sources = _sources(_file_columns(rows), feed, where)
    known = {column.name: column for column in feed.columns}
    _check_required(sources, feed, rows, where)
    extra = tuple(name for name in sources if name not in known)
    mapped = [_expression(name, sources.get(name), feed) for name in (*known, *extra)]
    frame = rows.select(*mapped, pl.col(FILE_ROW).cast(pl.Int64))
    return Mapped(_trimmed(frame, sources), sources, extra)


def mapping_lines(mapped: Mapped, feed: Feed) -> tuple[str, ...]:
    """Say in one line a column where it comes from and how it is read."""
    known = {column.name: column for column in feed.columns}
    return tuple(
        f"{source} → {name} ({_how(known.get(name), name, feed)})"
        for name, source in mapped.sources.items()
    )


def extra_notes(mapped: Mapped, feed: Feed) -> tuple[str, ...]:
    """Say which columns are not used, with the name each was perhaps meant to have."""
    unused = [column.name for column in feed.columns if column.name not in mapped.sources]
    return tuple(
        f"column '{name}' is not used"
        + (f"; was {near} meant?" if (near := nearest(name, unused)) else "")
        for name in mapped.extra
    )


def broken_notes(rows: pl.DataFrame) -> tuple[str, ...]:
    """Say which columns are left out because their names hold signs that the encoding does not have."""
    return tuple(
        f"column '{name}' is not used, for its name cannot be read; set encoding in plant.toml"
        for name in rows.columns
        if REPLACEMENT in name
    )


def _file_columns(rows: pl.DataFrame) -> list[str]:
    """The file's columns that can be used; names with the tool's own prefixes are left to it."""
    return [
        name
        for name, dtype in rows.schema.items()
        if name != FILE_ROW
        and name.strip()
        and REPLACEMENT not in name
        and not name.startswith(_OWN_PREFIXES)
        and not (dtype.is_nested() or dtype in _UNUSABLE)
    ]


def _sources(columns: list[str], feed: Feed, where: str) -> dict[str, Source]:
    """Every column that the file or its mapping gives, under the tool's name."""
    sources: dict[str, Source] = {}
    options = feed.options
    for name, source in _all_sources(columns, feed):
        if name in sources and name not in options.constants:
            raise FeedFileError(
                f"columns '{sources[name]}' and '{source}' both give {name}",
                where=where,
                hint=f"Mend rename in [feed.{feed.name}] of plant.toml so that one of them does.",
            )
        sources[name] = source
    return sources


def _all_sources(columns: list[str], feed: Feed) -> Iterator[tuple[str, Source]]:
    """Own names come first, so that the order of the file is kept; then joins and constants."""
    options = feed.options
    renamed = {
        found: name for sent, name in options.rename.items() if (found := _find(sent, columns))
    }
    joined = {
        name: tuple(found for part in parts if (found := _find(part, columns)))
        for name, parts in options.join.items()
    }
    whole = {name: parts for name, parts in joined.items() if len(parts) == len(options.join[name])}
    used = {part for parts in whole.values() for part in parts}
    kept = set(columns) - set(renamed)
    # Beside the very name a column of other case is another one: in JSON one damaged line has it.
    own = {c.name.lower(): c.name for c in feed.columns if c.name not in kept}
    for sent in columns:
        if sent in renamed:
            yield renamed[sent], Source((sent,))
        elif sent not in used:
            yield own.get(sent.strip().lower(), sent.strip()), Source((sent,))
    yield from ((name, Source(parts)) for name, parts in whole.items())
    yield from ((name, Source(constant=text)) for name, text in options.constants.items())


def _find(name: str, columns: list[str]) -> str | None:
    if name in columns:
        return name
    plain = name.strip().lower()
    return next((column for column in columns if column.strip().lower() == plain), None)


def _check_required(sources: dict[str, Source], feed: Feed, rows: pl.DataFrame, where: str) -> None:
    missing = [c.name for c in feed.columns if c.required and c.name not in sources]
    if not missing:
        return
    found = _file_columns(rows)
    name = missing[0]
    near = nearest(name, found)
    mapped = f'{near or "COLUMN"} = "{name}"'
    raise FeedFileError(
        f"column {name} is missing; the file has {', '.join(found) or 'no columns'}",
        where=where,
        hint=(f"The nearest is {near}. " if near else "")
        + f"Mend the file, or write {mapped} into [feed.{feed.name}.rename] of plant.toml.",
    )


def _expression(name: str, source: Source | None, feed: Feed) -> pl.Expr:
    if source is None:
        return pl.lit(None, dtype=pl.String).alias(name)
    if source.constant is not None:
        return pl.lit(source.constant, dtype=pl.String).alias(name)
    if len(source.columns) > 1:
        parts = [cs.by_name(part).cast(pl.String).str.strip_chars() for part in source.columns]
        return pl.concat_str(parts, separator=" ").alias(name)
    column = cs.by_name(source.columns[0]).as_expr()
    values = feed.options.values.get(name)
    return (_translated(column, values) if values else column).alias(name)


def _translated(column: pl.Expr, values: dict[str, str]) -> pl.Expr:
    """Words of the file into the tool's: by the very word, else without regard to case."""
    text = column.cast(pl.String).str.strip_chars()
    lower = {word.strip().lower(): meaning for word, meaning in values.items()}
    by_case = text.str.to_lowercase().replace_strict(lower, default=text, return_dtype=pl.String)
    return text.replace_strict(values, default=by_case, return_dtype=pl.String)


def _trimmed(frame: pl.DataFrame, names: Iterable[str]) -> pl.DataFrame:
    """Text without outer blanks, null where nothing is left; most columns need no second step."""
    texts = [name for name in names if frame.schema[name] in (pl.String, pl.Categorical, pl.Enum)]
    stripped = frame.with_columns(cs.by_name(texts).cast(pl.String).str.strip_chars())
    empty = stripped.select((cs.by_name(texts) == "").any())
    blank = [name for name in texts if empty[name].any()]
    return stripped.with_columns(cs.by_name(blank).replace("", None)) if blank else stripped


def _how(column: Column | None, name: str, feed: Feed) -> str:
    if column is None:
        return {"units": "attribute", "readings": "reading"}.get(feed.kind, "not used")
    unit = feed.options.measure_units.get(name)
    zone = (
        f", {feed.zone} where it has no offset" if column.type in (Type.TIME, Type.MOMENT) else ""
    )
    return column.type.value + zone + (f", {unit}" if unit else "")
