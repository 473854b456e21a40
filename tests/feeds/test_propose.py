"""Foreign files, and the mapping that is proposed for them: a guess that reads them."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from feed_rows import NOW
from foreign_files import FILES, VIN, foreign
from hypothesis import given
from hypothesis import strategies as st

from eol.errors import FeedFileError
from eol.feeds.batch import Explanation
from eol.feeds.parse import explain
from eol.feeds.propose import GUESS, Proposal, propose
from eol.plant.folder import TEMPLATE
from eol.plant.settings import parse_settings

NEW_PLANT = TEMPLATE.read_text(encoding="utf-8")
COMES_OF_IT = {
    "WT_20260908_0900.csv": ("water", {"run": 3, "finding": 1, "reading": 6}),
    "etest-2026-09-13.csv": ("electrical", {"run": 2, "finding": 1, "reading": 0}),
    "results.tsv": ("squeak_rattle", {"run": 2, "finding": 0, "reading": 2}),
    "meas_7.csv": ("water_readings", {"reading": 2}),
    "e_wide[1].csv": ("electrical_readings", {"reading": 2}),
    "seq20260908.csv": ("units", {"unit_sent": 2, "attribute": 2}),
    "nacharbeit.csv": ("repairs", {"repair": 1}),
    "skids.csv": ("unit_keys", {"unit_key": 1}),
}


def proposed(folder: Path, name: str) -> tuple[Proposal, dict[str, Any], Explanation]:
    """What is proposed for a file, as read, and what comes of it."""
    path = foreign(folder, name)
    proposal = propose(path, parse_settings(NEW_PLANT))
    section = tomllib.loads(proposal.text)["feed"][proposal.feed]
    mended = parse_settings(f"{NEW_PLANT}\n{proposal.text}")
    return proposal, section, explain(path, mended, now=NOW)


@pytest.mark.parametrize("name", COMES_OF_IT)
def test_file_is_understood_as_proposed(tmp_path: Path, name: str) -> None:
    """The proposal is sound TOML, and every row of the file loads by it."""
    proposal, _, told = proposed(tmp_path, name)
    feed, tables = COMES_OF_IT[name]
    assert (proposal.feed, told.batch.feed) == (feed, feed)
    assert {table: frame.height for table, frame in told.batch.tables.items()} == tables
    assert told.reasons.rows() == []
    assert (proposal.missing, proposal.unknown) == ((), ())


@pytest.mark.parametrize("name", FILES)
def test_every_guess_is_marked(tmp_path: Path, name: str) -> None:
    """Each key says that it is a guess; remarks and sections below the first need no mark."""
    lines = propose(foreign(tmp_path, name), parse_settings(NEW_PLANT)).text.splitlines()
    guessed = [line for line in lines if not line.startswith(("#", "[feed"))]
    assert guessed
    assert all(line.endswith(GUESS) for line in guessed)


def test_german_water_file(tmp_path: Path) -> None:
    """Delimiter, code page, decimal comma, date and time apart, words, bar, and what is left over."""
    proposal, section, told = proposed(tmp_path, "WT_20260908_0900.csv")
    assert (section["delimiter"], section["encoding"], section["decimal"]) == (";", "cp1252", ",")
    assert section["files"] == "WT_*.csv"
    assert section["made_at"] == "WT_{made_at:%Y%m%d_%H%M}.csv"
    assert section["join"] == {"started_at": ["TAG", "ZEIT"]}
    assert section["time_format"] == "%d.%m.%Y %H:%M:%S"
    assert section["values"] == {"result": {"i.O.": "pass", "n.i.O.": "fail", "Abbruch": "aborted"}}
    assert section["measure_units"] == {"pressure_kpa": "bar"}
    assert proposal.unplaced == ("Farbe",)
    assert told.batch.tables["reading"]["value"].to_list()[:3] == [250, 230, 240]


def test_month_first(tmp_path: Path) -> None:
    """Where a 13th month would be needed the month goes first."""
    _, section, told = proposed(tmp_path, "etest-2026-09-13.csv")
    assert section["time_format"] == "%m/%d/%Y %I:%M %p"
    assert section["rename"]["ecu"] == "zone"
    assert [at.hour for at in told.batch.tables["run"]["started_at"]] == [4, 16]


def test_one_and_nought(tmp_path: Path) -> None:
    """1 is a pass and 0 a fail, and a station that no column gives is a constant."""
    _, section, told = proposed(tmp_path, "results.tsv")
    assert section["values"]["result"] == {"0": "fail", "1": "pass"}
    assert section["constants"] == {"station": "S1"}
    assert told.batch.tables["run"]["result"].to_list() == ["pass", "fail"]


def test_unit_key_instead_of_a_vin(tmp_path: Path) -> None:
    """A file without VINs but with a skid is named by that."""
    proposal, section, told = proposed(tmp_path, "w_skid.csv")
    assert section["named_by"] == "skid"
    assert proposal.missing == ()
    assert told.batch.rejected["waits_for"].to_list() == ["skid=17"]


def test_unknown_word_and_clashing_name_are_told(tmp_path: Path) -> None:
    """A word without a meaning is asked about; a column that only bears our name is put aside."""
    path = tmp_path / "water_1.csv"
    path.write_text(
        f"vin,station,started_at,result,quantity\n{VIN},W1,2026-09-08 06:00,so-so,many\n"
    )
    proposal = propose(path, parse_settings(NEW_PLANT))
    assert proposal.unknown == ("result: so-so",)
    assert proposal.unplaced == ("quantity",)
    assert 'quantity = "quantity_sent"' in proposal.text


def test_file_that_is_like_no_feed(tmp_path: Path) -> None:
    """What cannot be guessed is said, with the columns there are."""
    path = tmp_path / "menu.csv"
    path.write_text("dish,price\nsoup,3\n")
    with pytest.raises(FeedFileError, match="like no feed; its columns are dish, price"):
        propose(path, parse_settings(NEW_PLANT))


@given(
    name=st.text(st.characters(codec="utf-8"), min_size=1),
    word=st.text(st.characters(codec="utf-8")),
)
def test_any_name_and_word_give_sound_toml(tmp_path_factory: Any, name: str, word: str) -> None:
    """Whatever a column or a result is called, the proposal is a plant.toml that can be read."""
    path = tmp_path_factory.mktemp("any") / "water.jsonl"
    row = {"vin": VIN, "started_at": "2026-09-08 06:00", "result": word, name: "x"}
    path.write_text(json.dumps(row) + "\n", encoding="utf-8")
    try:
        proposal = propose(path, parse_settings(NEW_PLANT))
    except FeedFileError:
        return
    parse_settings(f"{NEW_PLANT}\n{proposal.text}")
