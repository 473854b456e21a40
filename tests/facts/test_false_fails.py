"""Fails that pass elsewhere without a repair."""

from __future__ import annotations

from eol.facts.false_fails import false_fails


def row(station: str, told: int, elsewhere: int, **more: object) -> dict[str, object]:
    """A row of `seeing/passed_elsewhere`."""
    base = {"test": "electrical", "station": station, "bay": None, "code": "EL-CHARGE"}
    return base | {"loops": told, "told": told, "elsewhere": elsewhere} | more


def test_false_bench_is_named_with_its_code() -> None:
    """39 of 51 against 1 of 46: named, with the interval of the share."""
    (found,) = false_fails([row("E2-2", 51, 39), row("E1-1", 30, 1), row("E1-2", 16, 0)])
    assert (found.name, found.code, found.others_told) == ("E2-2", "EL-CHARGE", 46)
    assert 0.62 < found.low < 0.77 < found.high < 0.87


def test_bench_is_not_named_beside_its_code() -> None:
    """Where a code tells it the bench as a whole adds nothing; without one it is named."""
    whole = [row("E2-2", 80, 39, code=None), row("E1-1", 90, 3, code=None)]
    coded = [row("E2-2", 51, 39), row("E1-1", 46, 1)]
    assert [one.code for one in false_fails([*whole, *coded])] == ["EL-CHARGE"]
    assert [one.code for one in false_fails(whole)] == [None]


def test_too_little_known_is_not_judged() -> None:
    """Of a bench with under 80 % of its loops told nothing is said, nor of one with few (rule 15)."""
    others = row("E1-1", 46, 1)
    assert false_fails([row("E2-2", 39, 39, loops=51), others]) == ()
    assert false_fails([row("E2-2", 4, 4), others]) == ()


def test_one_bench_and_none() -> None:
    """A test with one bench has no other to pass at; no loop gives nothing; all alike gives nothing."""
    assert false_fails([row("T1", 50, 0)]) == ()
    assert false_fails([]) == ()
    assert false_fails([row("E1-1", 40, 40), row("E1-2", 40, 40)]) == ()
