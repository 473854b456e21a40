"""The random plants reach what the counting rules speak of; else agreement would prove little."""

from __future__ import annotations

import pytest
from second_opinion import Opinion, evaluate
from strategies import random_plant

SEEDS = range(16)


@pytest.fixture(scope="module")
def opinions() -> list[Opinion]:
    """The second opinion on some random plants."""
    return [evaluate(random_plant(seed)) for seed in SEEDS]


def met(opinions: list[Opinion], table: str, field: str) -> set[object]:
    """Every value of a field in a table or view of any plant."""
    rows = [row for one in opinions for row in (one.tables | one.views)[table]]
    return {row[field] for row in rows}


def test_a_seed_decides_everything() -> None:
    """The same seed makes the same plant, another one another."""
    assert random_plant(3) == random_plant(3)
    assert random_plant(3) != random_plant(4)


@pytest.mark.slow
def test_every_void_reason(opinions: list[Opinion]) -> None:
    """Rules 2, 4, 5, 6: each reason for not counting occurs."""
    reasons = {"suspect_double", "bypass", "aborted", "equipment", "missing", "weak", "harsh"}
    assert met(opinions, "run", "void_reason") == reasons | {None}


@pytest.mark.slow
def test_every_role_of_a_finding(opinions: list[Opinion]) -> None:
    """Rule 8: each role of a finding occurs."""
    roles = {"defect", "retest", "masked", "repeat", "observation", "equipment", "void"}
    assert met(opinions, "finding", "counts_as") == roles


@pytest.mark.slow
def test_every_status(opinions: list[Opinion]) -> None:
    """Rule 14: each status of a unit in a test occurs."""
    settled = {"scrapped", "diverted", "passed", "released", "held"}
    waiting = {"failed", "disturbed", "bypassed", "pending", "void", "untested"}
    assert met(opinions, "unit_status", "status") == settled | waiting


@pytest.mark.slow
def test_every_reason_of_an_escape(opinions: list[Opinion]) -> None:
    """Rule 14: each reason of an escape occurs, and so do units not yet provable."""
    reasons = {"failed", "disturbed", "bypassed", "void", "no_record"}
    assert met(opinions, "escape", "reason") == reasons
    assert any(one.views["unproven"] for one in opinions)


@pytest.mark.slow
def test_every_state_of_a_feed(opinions: list[Opinion]) -> None:
    """Rules 13, 14: stations that are silent or never sent; checks of one fault and of two."""
    assert met(opinions, "feed_status", "state") == {"never", "silent", "sending"}
    rows = [row for one in opinions for row in one.views["reference_check"]]
    checks = {(row["declared"], row["shown"]) for row in rows}
    assert checks == {(1, 0), (1, 1), (2, 0), (2, 1), (2, 2)}


@pytest.mark.slow
def test_every_state_of_the_line(opinions: list[Opinion]) -> None:
    """Rules 3, 11, 13: states, runs between shifts, unchecked passes, settled shifts occur."""
    assert met(opinions, "unit", "line_state") == {"went_through", "failed_one", "undecided"}
    assert None in met(opinions, "ftt_by_shift", "shift")
    assert met(opinions, "ftt_by_shift", "settled") == {True, False}
    assert any(one.views["unchecked"] for one in opinions)
