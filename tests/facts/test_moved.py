"""Figures that were sent or had settled, and are others now."""

from __future__ import annotations

from datetime import timedelta

import builders as b
import plants
from second_opinion import File
from shift_rows import asking, built, runs

from eol.facts.moved import MovedFigure, _moved, moved_figures, moved_remarks
from eol.plant.folder import PlantFolder

THURSDAY = b.TUESDAY + timedelta(days=2)
LATER = b.MADE_AT + timedelta(days=4)
KEY = {"production_date": "2026-09-08", "shift": "E", "test": "water"}


def load_settled(folder: PlantFolder, vins: list[str], *more: File) -> None:
    """Units of Tuesday, two of them through both tests, and on Thursday something newer of every station."""
    tests = {
        test: runs(["U1", "U2"], clock, test=test) + b.run("U9", b.at(clock, THURSDAY), test=test)
        for test, clock in (("electrical", "08:00"), ("water", "08:10"))
    }
    files = [b.file(test, rows) for test, rows in tests.items()]
    plants.load(folder, b.file("units", built(vins)), *files, *more)


def test_settled_figure_that_a_late_file_moved(folder: PlantFolder) -> None:
    """A late version turns a pass into a fail: what had settled and what it is now are told."""
    load_settled(folder, ["U1", "U2"])
    with asking(folder) as question:
        assert moved_figures(question) == ()
    plants.load(folder, b.file("water", b.run("U1", "08:10", "fail", "LEAK"), made_at=LATER))
    with asking(folder) as question:
        moved = {(one.figure, one.key.get("test")): one for one in moved_figures(question)}
    ftt = moved["ftt_by_shift.ftt", "water"]
    assert (ftt.key, ftt.sent_at, ftt.sent_value, ftt.value) == (KEY, None, 1.0, 0.5)
    assert ftt.words == "2026-09-08/E water FTT was 100.0% of 2, is 50.0% of 2"


def test_code_that_json_must_escape(folder: PlantFolder) -> None:
    """A code with quotes, backslashes and tabs is named whole where its figure has moved."""
    code = 'SEAL 5" \\ TOP\tX'
    leak = b.file("water", b.run("U3", "08:20", "fail", code))
    load_settled(folder, ["U1", "U2", "U3"], leak)
    plants.load(folder, b.file("water", b.run("U4", "08:30"), made_at=LATER))
    with asking(folder) as question:
        assert code in {one.key.get("code") for one in moved_figures(question)}


def test_key_with_a_sign_that_json_forbids() -> None:
    """A control sign in a name, which Parquet may bring, ends nothing."""
    told = {"figure": "ftt_by_shift.ftt", "sent_at": None, "sent_n": 2, "sent_value": 0.5, "n": 3}
    key = '{"production_date":"2026-09-08","shift":"E","test":"wa\x01ter"}'
    assert _moved(told | {"value": 0.1, "key": key}).key["test"] == "wa\x01ter"


def moved(figure: str, n: int | None, value: float | None) -> MovedFigure:
    """A figure that was sent as 0.5 of 2 units."""
    return MovedFigure(figure, KEY, None, 2, 0.5, n, value)


def test_words() -> None:
    """Each figure in the words of the page; one that is gone has none."""
    told = [
        moved("dphu_by_shift.dphu", 3, 33.333).words,
        moved("line_by_shift.rty", None, None).words,
    ]
    assert told == [
        "2026-09-08/E water DPHU was 0.50 of 2, is 33.33 of 3",
        "2026-09-08/E water RTY was 50.0% of 2, is none of 0",
    ]


def test_first_three_are_told_the_rest_counted() -> None:
    """Many moved figures make one sentence that says where the rest is."""
    (look,) = moved_remarks([moved("ftt_by_shift.ftt", 3, 0.1)] * 5)
    assert (look.kind, look.n) == ("look", 5)
    assert look.text.startswith("5 figures already sent or settled have moved: 2026-09-08/E water")
    assert look.text.endswith("; 2 more in figure_change")
    assert list(moved_remarks([])) == []
