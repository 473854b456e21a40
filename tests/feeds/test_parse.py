"""Whole files: read, mapped, checked and made tables."""

from __future__ import annotations

import gzip
import hashlib
import json
from pathlib import Path

import polars as pl
import pytest
from feed_rows import NOW, VIN, opened, parsed, plant, pseudonym, rows, utc
from polars.testing import assert_frame_equal
from sound_files import KINDS, written

from eol.errors import FeedFileError
from eol.feeds import parse
from eol.feeds.batch import FileBatch
from eol.feeds.mapping import map_rows
from eol.feeds.parse import count_reasons, explain, parse_file, parse_rows
from eol.plant.settings import feed_names

OWN = f"vin,station,started_at,result,operator\n{VIN},W1,2026-09-08 06:00,pass,Ann\n{VIN},W1,soon,pass,Bob\n"
FOREIGN = f"VIN_NO;TAG;ZEIT;ERG;DRUCK\n{VIN};08.09.2026;06:00:00;OK;2,5\n{VIN};08.09.2026;07:00:00;weird;2,1\n"
MAPPING = """
[feed.water]
files = "WT_*.csv"
made_at = "WT_{made_at:%Y%m%d_%H%M}.csv"
timezone = "+01:00"
delimiter = ";"
decimal = ","
time_format = "%d.%m.%Y %H:%M:%S"
constants = { station = "W1" }
measure_units = { pressure_kpa = "bar" }
join = { started_at = ["TAG", "ZEIT"] }
[feed.water.rename]
VIN_NO = "vin"
ERG = "result"
DRUCK = "pressure_kpa"
[feed.water.values.result]
OK = "pass"
"""


def load(path: Path, more: str = "") -> FileBatch:
    """A file, parsed."""
    return parse_file(path, plant(more), now=NOW, pseudonym=pseudonym)


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A file in the tool's own columns."""
    path = tmp_path / "water_1.csv"
    path.write_text(OWN)
    return path


@pytest.fixture
def foreign(tmp_path: Path) -> Path:
    """A file that needs its mapping."""
    path = tmp_path / "WT_20260908_0800.csv"
    path.write_text(FOREIGN)
    return path


def test_file_in_own_columns(own: Path) -> None:
    """Rows are accepted or refused, and the file is named by its content."""
    batch = load(own)
    assert (batch.feed, batch.kind, batch.test, batch.rows) == ("water", "test", "water", 2)
    assert batch.tables["run"]["operator"].to_list() == ["p-ann"]
    assert batch.rejected["file_row"].to_list() == [2]
    assert batch.sha256 == hashlib.sha256(OWN.encode()).hexdigest()
    assert batch.size == len(OWN)


def test_foreign_file(foreign: Path) -> None:
    """Every part of a mapping works together."""
    batch = load(foreign, MAPPING)
    run = batch.tables["run"].row(0, named=True)
    assert (run["vin"], run["station"], run["result"]) == (VIN, "W1", "pass")
    assert run["started_at"] == utc("2026-09-08T05:00:00")
    assert batch.tables["reading"].select("value", "measure_unit").rows() == [(250, "kPa")]
    assert batch.made_at == utc("2026-09-08T07:00:00")
    assert batch.rejected.height == 1


def test_mapping_leaves_own_columns_alone(own: Path) -> None:
    """The same feed takes files in its own columns beside the mapped ones."""
    assert load(own, MAPPING).tables["run"]["started_at"].to_list() == [utc("2026-09-08T04:00:00")]


def test_feed_and_time_may_be_told(own: Path) -> None:
    """Feed and made_at given go before the file's name."""
    path = own.rename(own.with_name("x.csv"))
    batch = parse_file(path, plant(), feed="water", now=NOW, made_at=NOW)
    assert (batch.feed, batch.made_at) == ("water", NOW)


def test_no_key_no_names(own: Path) -> None:
    """Without a key no person is kept, in no row (rule 18)."""
    batch = parse_file(own, plant(), now=NOW)
    assert batch.tables["run"]["operator"].to_list() == [None]
    assert "Bob" not in batch.rejected["raw"][0]


def test_parquet_and_gzip_give_the_same_tables(own: Path, tmp_path: Path) -> None:
    """The kind of file does not matter."""
    packed, native = tmp_path / "water_1.csv.gz", tmp_path / "water_1.parquet"
    packed.write_bytes(gzip.compress(own.read_bytes(), mtime=0))
    pl.read_csv(own).write_parquet(native)
    for path in (packed, native):
        for name, table in load(own).tables.items():
            assert_frame_equal(load(path).tables[name], table)


PATTERNS = ("*", "^.*$", "^vin$")
"""Names that a library of frames would take for patterns."""


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", PATTERNS)
def test_no_name_is_a_pattern(name: str, kind: str, tmp_path: Path) -> None:
    """A column whose name reads like a pattern is one column, kept in a refused row, in every kind."""
    sent = pl.DataFrame({"vin": [VIN, "X"], "colour": ["a", ""], name: ["1", "2"]})
    path = tmp_path / f"units_1.{kind}"
    path.write_bytes(written(sent, kind))
    batch = load(path)
    told = batch.tables["attribute"].select("name", "text_value").rows()
    assert sorted(told) == sorted([("colour", "a"), (name, "1")])
    assert [json.loads(raw)[name] for raw in batch.rejected["raw"]] == ["2"]


@pytest.mark.parametrize("name", PATTERNS)
def test_patterns_in_a_mapping(name: str) -> None:
    """Such a column is renamed, joined and translated like any other."""
    sent = rows(f'vin,station,started_at,{name},"{name} 2"\n{VIN},W1,2026-09-08 06:00,o,k')
    rename = f'[feed.water.rename]\n"{name}" = "result"\n[feed.water.values.result]\no = "pass"\n'
    join = f'[feed.water]\njoin = {{ bay = ["{name}", "{name} 2"] }}\n'
    renamed = map_rows(sent, opened("water", rename), where="file.csv").frame
    assert renamed["result"].to_list() == ["pass"]
    joined = sent.with_columns(result=pl.lit("pass"))
    assert map_rows(joined, opened("water", join), where="file.csv").frame["bay"].to_list() == [
        "o k"
    ]


@pytest.mark.parametrize("name", PATTERNS)
def test_readings_named_like_a_pattern(name: str) -> None:
    """A wide column of readings may have such a name."""
    sent = f"vin,station,started_at,{name},volts\n{VIN},W1,2026-09-08 06:00,1,12.5"
    reading = parsed("water_readings", sent).tables["reading"]
    assert sorted(reading.select("name", "value").rows()) == sorted([(name, 1.0), ("volts", 12.5)])


def test_torn_rows_are_refused(own: Path) -> None:
    """A row that reading refuses is counted and kept with the others."""
    own.write_text(OWN + f"{VIN},W1,2026-09-08 08:00,pass,Cid,1,2\n")
    batch = load(own)
    assert batch.rows == 3
    assert batch.rejected["file_row"].to_list() == [2, 3]
    assert "Cid" not in batch.rejected["raw"][1]


def test_missing_column(own: Path) -> None:
    """A file without a required column is refused whole."""
    own.write_text(OWN.replace("result", "outcome"))
    with pytest.raises(FeedFileError, match=r"water_1\.csv: column result is missing"):
        load(own)


def test_no_such_file(tmp_path: Path) -> None:
    """A missing file is told by reading."""
    with pytest.raises(FeedFileError):
        load(tmp_path / "water.csv")


def test_file_that_grows_while_it_is_read(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Half a file is no file."""
    read = parse.read_file

    def grow(path: Path, *options: object) -> object:
        raw = read(path, *options)  # type: ignore[arg-type]
        path.write_text(OWN + OWN)
        return raw

    monkeypatch.setattr(parse, "read_file", grow)
    with pytest.raises(FeedFileError, match="changed while it was read"):
        load(own)


def test_explain(foreign: Path) -> None:
    """How a file is understood: mapping, first rows, reasons without their cells."""
    told = explain(foreign, plant(MAPPING), now=NOW)
    assert told.mapping[0] == "VIN_NO → vin (VIN)"
    assert "TAG + ZEIT → started_at (time, +01:00 where it has no offset)" in told.mapping
    assert told.first["run"].height == 1
    assert told.reasons.rows() == [
        (
            "result: '…' is not one of pass, fail, aborted, bypass; map it in [feed.water.values.result]",
            1,
        )
    ]


def test_reasons_are_counted_without_their_cells() -> None:
    """Rows refused for one reason are one line, the most frequent first."""
    text = "vin,station,started_at,result\n" + "\n".join(
        f"{VIN},W1,{at},pass" for at in ("soon", "2026-03-29 02:30", "2026-03-29 02:31")
    )
    counts = count_reasons(parsed("water", text).rejected)
    assert counts["rows"].to_list() == [2, 1]
    assert counts["reason"][0].startswith("started_at: … does not exist on … in Europe/Berlin")


@pytest.mark.parametrize("name", feed_names(plant().tests))
def test_every_feed_takes_an_empty_file(name: str) -> None:
    """Every feed has tables, also without a row."""
    header = (
        "vin,station,started_at,result,code,zone,name,value,at,kind,part,lot,field,"
        "production_date,shift,ended_at"
    )
    batch = parse_rows(name, rows(header), plant(), now=NOW)
    assert batch.rows == 0
    assert batch.tables
    assert all(table.height == 0 for table in batch.tables.values())


def test_splits_of_a_file_give_the_same_tables() -> None:
    """Rows of different runs do not see each other, in whichever files they come."""
    lines = [f"{VIN},W1,2026-09-08 {hour:02d}:00,pass,Ann" for hour in range(6, 12)]
    header = OWN.splitlines()[0]
    whole = parsed("water", "\n".join([header, *lines])).tables["run"]
    parts = [
        parsed("water", "\n".join([header, *half])).tables["run"] for half in (lines[:2], lines[2:])
    ]
    assert_frame_equal(pl.concat(parts).drop("file_row"), whole.drop("file_row"))
