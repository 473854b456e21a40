"""What the copy holds, in words: each table, view and column with its comment, its unit and its rules."""

from __future__ import annotations

import re
from dataclasses import dataclass

import polars as pl

from eol.ask.rules import rules_cited
from eol.errors import UsageError
from eol.plant.folder import PlantFolder
from eol.plant.nearest import nearest
from eol.store.connect import open_copy

_OF_TYPE = {"TIMESTAMP WITH TIME ZONE": "UTC", "DATE": "date", "BOOLEAN": "true or false"}
_OF_COMMENT = (
    (r"^seconds\b|\bin seconds\b|^3600 or", "s"),
    (r"^minutes\b", "min"),
    (r"^hours\b", "h"),
    (r"\bper hundred units\b|of dphu\b", "per 100 units"),
    (r"\b0 to 1\b|\bof ftt\b|^chance\b", "share, 0 to 1"),
    (r"\bdemerits\b", "demerits"),
    (r"\bsize\b", "bytes"),
)
_NUMBERS = {"BIGINT": "whole number", "INTEGER": "whole number", "DOUBLE": "number"}
_GENERAL = {"main": 0, "mine": 1, "superseded": 2}


@dataclass(frozen=True, slots=True)
class ColumnWords:
    """A column: its type, what it holds, the unit it is in (empty for texts) and the rules it follows."""

    name: str
    type: str
    comment: str
    unit: str
    rules: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class RelationWords:
    """A table or view: what one row of it is, its rules and its columns in their order.

    `name` has the schema before it where that is not the main one: `superseded.run`, `mine.leaks`.
    """

    name: str
    kind: str
    comment: str
    rules: tuple[int, ...]
    columns: tuple[ColumnWords, ...]


@dataclass(frozen=True, slots=True)
class Dictionary:
    """The tables and views of a plant's copy: views first, then tables, then `mine` and `superseded`."""

    relations: tuple[RelationWords, ...]

    def relation(self, name: str) -> RelationWords:
        """Return one table or view.

        Raises:
            UsageError: there is none of that name; the nearest ones are named.
        """
        names = {relation.name: relation for relation in self.relations}
        if name not in names:
            near = nearest(name, list(names))
            raise UsageError(
                f"there is no table or view named '{name}'",
                hint=f"Did you mean {near}?" if near else "eol sql --words lists them all.",
            )
        return names[name]

    @property
    def frame(self) -> pl.DataFrame:
        """One row a column: name of its table or view, kind, column, type, unit, rules, comment."""
        rows = [
            (r.name, r.kind, c.name, c.type, c.unit, list(c.rules), c.comment)
            for r in self.relations
            for c in r.columns
        ]
        names = ("name", "kind", "column", "type", "unit", "rules", "comment")
        kinds = {name: pl.List(pl.Int64) if name == "rules" else pl.String for name in names}
        return pl.DataFrame(rows, schema=kinds, orient="row")


def dictionary(folder: PlantFolder) -> Dictionary:
    """Return the dictionary of the published copy.

    Raises:
        StoreError: nothing has been published yet.
    """
    with open_copy(folder) as copy:
        relations = copy.run("ask_words", "relation").rows(named=True)
        columns = copy.run("ask_words", "column").rows(named=True)
    told = [_relation(row, [c for c in columns if _place(c) == _place(row)]) for row in relations]
    schemas = {_name(row): row["schema_name"] for row in relations}
    order = sorted(told, key=lambda r: (_GENERAL.get(schemas[r.name], 1), r.kind != "view", r.name))
    return Dictionary(tuple(order))


def _place(row: dict[str, str]) -> tuple[str, str]:
    return row["schema_name"], row["table_name"]


def _name(row: dict[str, str]) -> str:
    schema, name = _place(row)
    return name if schema == "main" else f"{schema}.{name}"


def _relation(row: dict[str, str], columns: list[dict[str, str]]) -> RelationWords:
    comment = row["comment"] or ""
    return RelationWords(
        _name(row), row["kind"], comment, rules_cited(comment), tuple(map(_column, columns))
    )


def _column(row: dict[str, str]) -> ColumnWords:
    comment = row["comment"] or ""
    kind = row["data_type"]
    return ColumnWords(
        row["column_name"], kind, comment, unit_of(kind, comment), rules_cited(comment)
    )


def unit_of(kind: str, comment: str) -> str:
    """Return the unit that a column is in, as its type and its comment tell it; empty for texts.

    Example:
        >>> unit_of("DOUBLE", "hours from since to as_of, whole seconds.")
        'h'
    """
    if kind in _OF_TYPE:
        return _OF_TYPE[kind]
    if kind not in _NUMBERS:
        return ""
    found = (unit for pattern, unit in _OF_COMMENT if re.search(pattern, comment))
    return next(found, _NUMBERS[kind])
