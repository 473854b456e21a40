"""A thread of polars that panics prints nothing; whatever else is printed is kept."""

from __future__ import annotations

import os
from io import BytesIO
from random import Random

import polars as pl
import pytest

from eol.errors import FeedFileError
from eol.feeds.hushed import hushed
from eol.feeds.read_parquet import read_parquet


def test_other_words_are_kept(capfd: pytest.CaptureFixture[str]) -> None:
    """What another thread writes meanwhile comes out afterwards."""
    with hushed():
        os.write(2, b"still here")
    assert capfd.readouterr().err == "still here"


@hushed()
def panic() -> None:
    """Fail as polars does: a trace on stderr, and an exception."""
    os.write(2, b"thread panicked at")
    raise pl.exceptions.PanicException("index out of bounds")


def test_panic_is_dropped(capfd: pytest.CaptureFixture[str]) -> None:
    """The trace of a panic goes, the exception comes."""
    with pytest.raises(pl.exceptions.PanicException):
        panic()
    assert capfd.readouterr().err == ""


def test_damaged_files_print_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """Of 400 damaged Parquet files each is read or refused, and no line of a library comes out."""
    frame = pl.DataFrame({"vin": [f"U{n % 50}" for n in range(200)], "value": range(200)})
    buffer = BytesIO()
    frame.write_parquet(buffer)
    for seed in range(400):
        dice, damaged = Random(seed), bytearray(buffer.getvalue())
        for _ in range(3):
            damaged[dice.randrange(len(damaged))] = dice.randrange(256)
        try:
            read_parquet(bytes(damaged), where="w", limit=1_000_000_000)
        except FeedFileError:
            continue
    assert capfd.readouterr().err == ""
