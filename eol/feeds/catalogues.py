"""Checked rows in, tables out: codes, zones, countermeasures, lots and unit keys.

The catalogue of codes gives a second table, `applies`: one row an accepted value of a clause of
`applies_when` (rule 10), of the owner code:CODE:TEST (code:CODE: where the code is of every test).
"""

from __future__ import annotations

from collections.abc import Mapping

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.cells import no_faults
from eol.feeds.columns import COLUMNS
from eol.feeds.feed import Feed
from eol.feeds.raw import FILE_ROW
from eol.feeds.repairs import unknown_test_notes
from eol.feeds.times import UTC
from eol.plant.clauses import parse_applies_when

TABLES = {
    "defect_codes": "defect_code",
    "zones": "zone",
    "countermeasures": "countermeasure",
    "lots": "lot",
    "unit_keys": "unit_key",
}
"""The table of each catalogue."""

_APPLIES_SCHEMA: dict[str, pl.DataType | type[pl.DataType]] = {
    "owner": pl.String,
    "valid_from": UTC,
    "clause": pl.Int64,
    "name": pl.String,
    "value": pl.String,
    FILE_ROW: pl.Int64,
}


def catalogue_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table of a catalogue, and of the catalogue of codes its clauses too."""
    columns = [column.name for column in COLUMNS[feed.kind]]
    frames = {TABLES[feed.kind]: rows.select(*columns, FILE_ROW)}
    if feed.kind == "defect_codes":
        flag = pl.col("safety_related").fill_null(False)
        frames = {
            "defect_code": frames["defect_code"].with_columns(flag),
            "applies": _applies(rows),
        }
    if feed.kind == "zones":
        frames = {"zone": frames["zone"].with_columns(pl.col("hv_near").fill_null(False))}
    notes = unknown_test_notes(rows, feed) if "test" in columns else ()
    return Tables(frames, notes)


def catalogue_faults(rows: pl.DataFrame) -> pl.DataFrame:
    """Return the faults of codes whose applies_when is no clause or whose same_as is a circle."""
    unread = [
        (text, f"applies_when: {why}")
        for text in rows["applies_when"].drop_nulls().unique()
        if (why := _why_unread(text))
    ]
    joined = rows.select("code", "same_as").drop_nulls().rows()
    circle = [(code, _CIRCLE.format(code=code)) for code in sorted(circular_codes(dict(joined)))]
    numbered = rows.with_row_index("row")
    return pl.concat(
        [_matching(numbered, "applies_when", unread), _matching(numbered, "code", circle)]
    )


def circular_codes(same_as: Mapping[str, str]) -> frozenset[str]:
    """Return the codes that, followed through same_as, come back to themselves (rule 12).

    Example:
        >>> sorted(circular_codes({"A": "B", "B": "A", "C": "A", "D": "E"}))
        ['A', 'B']
    """
    return frozenset(code for code in same_as if _comes_back(code, same_as))


_CIRCLE = (
    "same_as: '{code}' comes back to itself through same_as; one of these codes must be the root"
)


def _comes_back(code: str, same_as: Mapping[str, str]) -> bool:
    seen, current = {code}, same_as.get(code)
    while current is not None and current not in seen:
        seen.add(current)
        current = same_as.get(current)
    # A code that names itself is told of by its own rule.
    return current == code and len(seen) > 1


def _why_unread(text: str) -> str | None:
    try:
        parse_applies_when(text)
    except ValueError as error:
        return str(error)
    return None


def _matching(numbered: pl.DataFrame, column: str, reasons: list[tuple[str, str]]) -> pl.DataFrame:
    if not reasons:
        return no_faults()
    bad = pl.DataFrame(reasons, schema=[column, "reason"], orient="row")
    return numbered.join(bad, on=column, maintain_order="left").select("row", "reason")


def _applies(rows: pl.DataFrame) -> pl.DataFrame:
    stated = rows.filter(pl.col("applies_when").is_not_null())
    columns = ("code", "test", "valid_from", "applies_when", FILE_ROW)
    clauses = [
        (f"code:{code}:{test or ''}", valid_from, clause.number, clause.name, value, file_row)
        for code, test, valid_from, text, file_row in stated.select(columns).rows()
        for clause in parse_applies_when(text)
        for value in clause.values
    ]
    return pl.DataFrame(clauses, schema=_APPLIES_SCHEMA, orient="row")
