"""Limits of a statement: what they say, and what happens to one that does not look up."""

from __future__ import annotations

import threading
import time

import pytest

from eol.ask.limits import Limits, Watch, bounded, resident_bytes
from eol.errors import UsageError
from eol.store.connect import open_apart


@pytest.mark.parametrize(
    ("text", "size"),
    [("4GB", 4 * 10**9), ("500 MB", 5 * 10**8), ("1.5g", 1_500_000_000), ("900", 900)],
)
def test_sizes(text: str, size: int) -> None:
    """A size is a number and a unit."""
    assert Limits(memory=text).bytes == size


@pytest.mark.parametrize("text", ["", "much", "-1GB", "0", "4 parsecs"])
def test_no_size(text: str) -> None:
    """What is no size is a wrong call."""
    with pytest.raises(UsageError, match="is no size of memory"):
        _ = Limits(memory=text).bytes


def test_stuck_statement_is_handed_over() -> None:
    """What goes on after it was stopped, and its grace, is told to the command, with the limit."""
    told: list[str] = []
    called = threading.Event()

    def stuck(reason: str) -> None:
        told.append(reason)
        called.set()

    with (
        open_apart({}) as database,
        Watch(database.connection, Limits(seconds=0.05, grace=0.05), stuck) as watch,
    ):
        assert called.wait(10)
    assert told == [watch.reason] == ["the statement ran for 0.05 s and was stopped"]


def test_statement_within_its_limits_has_no_reason() -> None:
    """A statement that ends in time is not stopped."""
    with open_apart({}) as database, Watch(database.connection, Limits(), None) as watch:
        time.sleep(0.12)
    assert watch.reason == ""


def test_bound_of_the_process_is_taken_away() -> None:
    """While a bound stands nothing large can be taken; afterwards it can, also where two overlapped."""
    if not resident_bytes():
        return
    with bounded(200_000_000), bounded(200_000_000), pytest.raises(MemoryError):
        bytearray(2_000_000_000)
    assert len(bytearray(250_000_000)) == 250_000_000
