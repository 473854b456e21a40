"""Refused rows kept, and tried again."""

from __future__ import annotations

import json

import polars as pl
from feed_rows import NOW, VIN, parsed, plant, pseudonym, rows

from eol.feeds.feed import open_feed
from eol.feeds.mapping import Source
from eol.feeds.parse import parse_rows
from eol.feeds.rejected import WITHHELD, rows_of, unreadable_rows

TEXT = f"vin,station,started_at,result,paint,operator\n{VIN},W1,2026-09-08 06:00,good, red ,Ann"


def test_row_is_kept_as_it_was_sent() -> None:
    """Every cell of the file is there, persons as pseudonyms (rule 18)."""
    rejected = parsed("water", TEXT).rejected.row(0, named=True)
    assert rejected["waits_for"] is None
    assert json.loads(rejected["raw"]) == {
        "vin": VIN,
        "station": "W1",
        "started_at": "2026-09-08 06:00",
        "result": "good",
        "operator": "p-ann",
        "paint": " red ",
    }


def test_row_is_accepted_when_the_mapping_is_mended() -> None:
    """The kept row takes the same way again; its pseudonym stays."""
    again = rows_of(parsed("water", TEXT).rejected)
    mended = plant('[feed.water.values.result]\ngood = "pass"\n')
    batch = parse_rows("water", again, mended, now=NOW, pseudonym=pseudonym)
    run = batch.tables["run"].row(0, named=True)
    assert (run["result"], run["operator"], run["file_row"]) == ("pass", "p-ann", 1)


def test_native_rows_come_back_as_they_were() -> None:
    """Times and numbers of Parquet survive as text."""
    frame = pl.DataFrame(
        {
            "vin": [VIN],
            "station": ["W1"],
            "started_at": [NOW],
            "result": ["good"],
            "pressure_kpa": [250.5],
            "file_row": [7],
        }
    )
    rejected = parse_rows("water", frame, plant(), now=NOW).rejected
    mended = plant('[feed.water.values.result]\ngood = "pass"\n')
    batch = parse_rows("water", rows_of(rejected), mended, now=NOW)
    assert batch.tables["run"].select("started_at", "file_row").rows() == [(NOW, 7)]
    assert batch.tables["reading"]["value"].to_list() == [250.5]


def test_rows_of_unlike_columns() -> None:
    """Rows of two files may have unlike columns; a line without cells is left out."""
    rejected = pl.DataFrame(
        {
            "file_row": [1, 2, 3],
            "raw": ['{"a":"1","b":null}', '{"line":"torn"}', '{"a":2.5,"c":true}'],
        }
    )
    assert rows_of(rejected).rows() == [("1", None, None, 1), ("2.5", None, "true", 3)]


def unreadable(raw: str) -> str:
    """A row that reading refused, as it is kept; the operator stands in the third column."""
    sent = rows("vin,result,operator,bay\n")
    refused = pl.DataFrame({"file_row": [1], "reason": ["torn"], "raw": [raw]})
    feed = open_feed("water", plant(), now=NOW, pseudonym=pseudonym)
    sources = {"operator": Source(("operator",))}
    return str(unreadable_rows(sent, refused, sources, feed)["raw"][0])


def test_torn_line_is_withheld() -> None:
    """A line whose cells cannot be told may hold a name (rule 18)."""
    assert unreadable('{"line": "x,\\"Ann"}') == WITHHELD


def test_shifted_cells_are_masked() -> None:
    """A cell too many or too few moves a name to its neighbours (rule 18)."""
    more = unreadable('{"vin":"V","result":"a","operator":"b","bay":"Ann","surplus":["c"]}')
    fewer = unreadable('{"vin":"V","result":"Ann","operator":"A"}')
    assert json.loads(more)["bay"] == "p-ann"
    assert json.loads(fewer) == {"vin": "V", "result": "p-ann", "operator": "p-a"}


def test_nothing_is_masked_where_no_person_is_sent() -> None:
    """A file without persons keeps its torn lines."""
    refused = pl.DataFrame({"file_row": [1], "reason": ["torn"], "raw": ['{"line": "x"}']})
    feed = open_feed("water", plant(), now=NOW, pseudonym=pseudonym)
    assert unreadable_rows(rows("vin\n"), refused, {}, feed)["raw"].to_list() == ['{"line": "x"}']
