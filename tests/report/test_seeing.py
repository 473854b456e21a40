"""Whether the tests could see, on the page: one line a rule that fires, none where all is well."""

from __future__ import annotations

from dataclasses import replace

from made_up_follow import drift, queue, seeing, wait
from made_up_shift import quiet_shift

from eol.facts.seeing import Seeing
from eol.report.look import Look
from eol.report.seeing import queue_words, seeing_looks, seeing_tables
from eol.report.tables import tables


def looks(found: Seeing) -> list[Look]:
    """The lines of a shift."""
    return list(seeing_looks(replace(quiet_shift(), seeing=found)))


def test_quiet_shift_has_no_line() -> None:
    """Checks that were good, nothing that moves: nothing is said."""
    assert looks(Seeing()) == []
    assert looks(replace(Seeing(), checks=seeing().checks[1:])) == []


def test_each_rule_gives_one_line() -> None:
    """Missed check, drift, false bench and audits: a line each, which says where to start."""
    heads = [look.head for look in looks(seeing())]
    assert heads == [
        "W1 bay B missed its reference unit, 4 times in a row",
        "W1 B: pressure_kpa at 227 kPa, usually 250",
        "E2: fails with EL-CHARGE pass elsewhere without a repair",
        "Squeak and rattle track: audits do not agree with it",
    ]
    assert "finds at least 46%" in looks(seeing())[0].start


def test_drift_says_what_is_left_or_that_it_is_beyond() -> None:
    """A trend tells the runs left; beyond the limit the void tests cost more."""
    (near,) = looks(Seeing(drifts=(drift(runs_left=260),)))
    (beyond,) = looks(Seeing(drifts=(drift(level=212.0),)))
    assert "in about 260 runs" in near.start
    assert "beyond its lower limit" in beyond.start
    assert beyond.cost < near.cost


def test_queue_that_does_not_add_up() -> None:
    """Stuck units are a line of data; the caption says how long clearing takes."""
    stuck = queue(*[wait(at, 1) for at in range(25)], *[wait(-100, None)] * 9)
    (look,) = seeing_looks(replace(quiet_shift(), queue=stuck))
    assert (look.kind, look.head) == ("data", "More units wait than arrivals and time explain")
    assert queue_words(stuck) == "Half are clear within 1 h. "
    assert queue_words(None) == ""


def test_tables_hold_what_the_lines_say() -> None:
    """Each line leads to a table that is there."""
    facts = replace(quiet_shift(), seeing=seeing(), queue=queue())
    places = {table.place for table in tables(facts)}
    assert {"t-checks", "t-drifts", "t-false", "t-queue"} <= places
    for table in seeing_tables(facts):
        assert {len(row) for row in table.rows} == {len(table.columns)}
