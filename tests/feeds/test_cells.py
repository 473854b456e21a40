"""Cells typed, and what is said of those that cannot be."""

from __future__ import annotations

from datetime import time
from typing import Any

import polars as pl
import pytest
from feed_rows import NOW, STEADY, opened
from hypothesis import given
from hypothesis import strategies as st

from eol.feeds.cells import Cells, pseudonyms, read_cells, read_numbers
from eol.feeds.columns import Column, Type

COMMA = '[feed.water]\ndecimal = ","\n'


def read(cells: list[Any], column: Column, more: str = "") -> Cells:
    """A column of the water feed."""
    return read_cells(pl.Series(cells), column, opened("water", more))


def reasons(cells: Cells) -> list[str]:
    """What is said."""
    return cells.faults["reason"].to_list()


def test_numbers() -> None:
    """Numbers as text, an empty cell and NaN as nothing, anything else as a fault."""
    cells = read(["250", "-1.5", "2e2", None, "NaN", "x", "inf"], Column("rating", Type.NUMBER))
    assert cells.values.to_list() == [250, -1.5, 200, None, None, None, None]
    assert reasons(cells) == ["rating: 'x' is no number", "rating: 'inf' is no number"]
    assert cells.faults["row"].to_list() == [5, 6]


def test_native_numbers() -> None:
    """Numbers of Parquet stay; NaN is nothing."""
    assert read([1.5, float("nan")], Column("rating", Type.NUMBER)).values.to_list() == [1.5, None]
    assert read([1, None], Column("rating", Type.NUMBER)).values.to_list() == [1.0, None]


def test_decimal_comma() -> None:
    """With a decimal comma a point parts thousands; elsewhere it is a fault."""
    cells = read(["2,5", "1.234,5", "12.345", "7", "2.5"], Column("rating", Type.NUMBER), COMMA)
    assert cells.values.to_list() == [2.5, 1234.5, 12345, 7, None]
    assert reasons(cells) == [
        "rating: '2.5' is no number; if its decimal sign is \".\", set decimal in [feed.water]"
    ]


def test_unexpected_comma_names_the_setting() -> None:
    """A decimal comma that was not declared is answered with the key to set."""
    assert reasons(read(["2,5"], Column("rating", Type.NUMBER))) == [
        "rating: '2,5' is no number; if its decimal sign is \",\", set decimal in [feed.water]"
    ]


def test_whole_numbers() -> None:
    """3.0 is whole, 3.5 is not, and a long id keeps every digit."""
    cells = read(["3", "3.0", "123456789012345678", "3.5", "x"], Column("quantity", Type.INTEGER))
    assert cells.values.to_list() == [3, 3, 123456789012345678, None, None]
    assert reasons(cells)[0] == "quantity: '3.5' is no whole number"
    assert read([3.0, None], Column("quantity", Type.INTEGER)).values.to_list() == [3, None]


def test_words() -> None:
    """A word counts in any case; another one is answered with the words allowed."""
    column = Column("result", Type.WORD, words=("pass", "fail"))
    cells = read(["PASS", "fail", None, "ok"], column)
    assert cells.values.to_list()[:3] == ["pass", "fail", None]
    assert reasons(cells) == [
        "result: 'ok' is not one of pass, fail; map it in [feed.water.values.result]"
    ]


def test_severities_are_capitals() -> None:
    """A severity class is stored as a capital."""
    cells = read(["a", "B"], Column("severity", Type.WORD, words=("A", "B")))
    assert cells.values.to_list() == ["A", "B"]


@pytest.mark.parametrize(
    ("sent", "value"), [("yes", True), ("1", True), ("False", False), ("n", False)]
)
def test_truths(sent: str, value: bool) -> None:
    """Yes and no in their usual spellings."""
    assert read([sent], Column("hv_near", Type.TRUTH)).values.to_list() == [value]


def test_what_is_neither_true_nor_false() -> None:
    """Anything else is a fault."""
    assert reasons(read(["maybe"], Column("hv_near", Type.TRUTH))) == [
        "hv_near: 'maybe' is neither true nor false"
    ]


def test_dates_and_times() -> None:
    """A fault of a time shows how to write it, or the plant's own format."""
    assert reasons(read(["soon"], Column("due_on", Type.DATE))) == [
        "due_on: 'soon' is no date; write it as 2026-09-08"
    ]
    own = '[feed.water]\ntime_format = "%d.%m.%Y %H:%M"\n'
    assert reasons(read(["soon"], Column("started_at", Type.TIME), own)) == [
        "started_at: 'soon' is no time; write it as %d.%m.%Y %H:%M, "
        "or set time_format in [feed.water]"
    ]


def test_time_that_never_was_names_the_zone() -> None:
    """The sentence says which time, which day and which zone (rule 3)."""
    cells = read(["2026-03-29 02:30"], Column("started_at", Type.TIME))
    assert "02:30 does not exist on 2026-03-29 in Europe/Berlin" in reasons(cells)[0]


def test_vins_are_capitals() -> None:
    """A VIN is stored in capitals."""
    assert read(["0zzk0000000000001"], Column("vin", Type.VIN)).values.to_list() == [
        "0ZZK0000000000001"
    ]


def test_long_cells_are_cut_in_reasons() -> None:
    """A reason stays a sentence, however long the cell."""
    assert len(reasons(read(["x" * 5000], Column("rating", Type.NUMBER)))[0]) < 100


def test_each_person_is_made_a_pseudonym_once() -> None:
    """The key is asked once a name (rule 18)."""
    asked: list[str] = []

    def count(person: str) -> str:
        asked.append(person)
        return "p-1"

    feed = opened("water")
    object.__setattr__(feed, "pseudonym", count)
    masked = pseudonyms(pl.Series(["Ann", None, "Ann"]), feed)
    assert masked.to_list() == ["p-1", None, "p-1"]
    assert asked == ["Ann"]


def test_without_a_key_persons_are_dropped() -> None:
    """No name is kept where no pseudonym can be made (rule 18)."""
    feed = opened("water")
    object.__setattr__(feed, "pseudonym", None)
    assert pseudonyms(pl.Series(["Ann"]), feed).to_list() == [None]


@STEADY
@given(st.floats(allow_nan=False, allow_infinity=False))
def test_numbers_as_text_are_the_numbers(number: float) -> None:
    """Writing a number and reading it, with point or comma, changes nothing."""
    text = repr(number)
    assert read_numbers(pl.Series([text]), ".").to_list() == [number]
    assert read_numbers(pl.Series([text.replace(".", ",")]), ",").to_list() == [number]


def test_times_are_no_numbers() -> None:
    """A time of Parquet is none, though inside it is counted in microseconds."""
    for native in (time(6), NOW, NOW.date()):
        assert read_numbers(pl.Series([native]), ".").to_list() == [None]
