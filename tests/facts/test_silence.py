"""Who is silent: by the wall clock, since the shift's end, while the shift ran."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import builders as b
import plants
import pytest
from shift_rows import asking, heard_after, runs, vins

from eol.facts.silence import (
    AbsentPlace,
    QuietPlace,
    Silence,
    Silent,
    silence_facts,
    silence_remarks,
)
from eol.plant.folder import PlantFolder

UNITS = vins(150)


def bays() -> list[dict[str, Any]]:
    """150 units over three bays, a unit every 3 min; bay C sends nothing from 09:00 on for 150 min."""
    rows = [
        row | {"bay": "ABC"[number % 3]} for number, row in enumerate(runs(UNITS, "06:10", every=3))
    ]
    silent = (b.at("09:00"), b.at("11:30"))
    return [row for row in rows if row["bay"] != "C" or not silent[0] < row["ended_at"] < silent[1]]


@pytest.fixture(scope="module")
def quiet(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant of working days in which bay C of the water test fell silent for a while; to read."""
    working = b.settings()
    working["shift"] = [shift | {"days": "mon-fri"} for shift in working["shift"]]
    folder = plants.made(tmp_path_factory.mktemp("quiet") / "plant", working)
    later = b.at("23:00", b.TUESDAY + timedelta(days=3))
    plants.load(folder, b.file("water", bays()), *heard_after(b.TUESDAY, "electrical", "water"))
    plants.load(folder, b.file("water", b.run("U998", later)))
    return folder


def facts(folder: PlantFolder, now: str, days: int = 0) -> Silence:
    """The silences of the Tuesday's early shift at a wall clock."""
    with asking(folder) as question:
        return silence_facts(question, now=b.at(now, b.TUESDAY + timedelta(days=days)))


def test_bay_silent_while_the_others_ran(quiet: PlantFolder) -> None:
    """What the other bays of its test ran meanwhile tells how many runs are missing."""
    silence = facts(quiet, "15:10")
    places = {place.bay: place for place in silence.quiet if place.test == "water"}
    assert [place.missed > 15 for place in places.values()] == [False, False, True]
    (told,) = [one for one in silence_remarks(silence, running=False) if "bay C" in one.text]
    words = (
        "W1 bay C sent nothing from 08:58 to 11:31; about 18 runs were due by what the others ran"
    )
    assert (told.kind, told.text) == ("look", words)


def test_silent_by_the_wall_clock(quiet: PlantFolder) -> None:
    """A station silent for longer than silence_limit, over shifts that were worked, is named."""
    silent = [one.station for one in facts(quiet, "15:10", days=3).silent]
    assert silent == ["E1"]
    told = list(silence_remarks(facts(quiet, "15:10", days=3), running=False))
    assert "E1 has sent nothing since 2026-09-08 14:50, 3 days ago" in [one.text for one in told]


def test_weekend_is_no_silence(quiet: PlantFolder) -> None:
    """Saturday and Sunday without a shift: the station that sent in Friday's last one is not silent."""
    assert [one.station for one in facts(quiet, "15:10", days=5).silent] == ["E1"]
    assert [one.station for one in facts(quiet, "15:10", days=6).silent] == ["E1", "W1"]


def test_beyond_the_calendar_silence_counts(quiet: PlantFolder) -> None:
    """The calendar ends a week after the data; later nothing excuses silence."""
    silence = facts(quiet, "15:10", days=60)
    told = [one.text for one in silence_remarks(silence, running=False)]
    assert "W1 has sent nothing since 2026-09-11 23:00, 57 days ago" in told


def test_heard_since_the_end(quiet: PlantFolder) -> None:
    """A station heard from after the shift's end leaves no doubt."""
    assert facts(quiet, "15:10").unheard == ()


def silence(**fields: Any) -> Silence:
    """Silences of nobody."""
    base: dict[str, Any] = {"now": b.at("15:10"), "heard": 2, "silent": (), "unheard": ()}
    return Silence(**base | {"quiet": (), "absent": ()} | fields)


def test_all_silent_is_one_sentence() -> None:
    """When every station has fallen silent, it is told once."""
    both = tuple(Silent("water", name, b.at("06:10")) for name in ("W1", "W2"))
    (look,) = silence_remarks(silence(silent=both), running=False)
    assert (look.n, look.text) == (2, "nothing has come since 2026-09-08 06:10, 9 h ago")


def test_never_heard_of() -> None:
    """A declared station of which nothing ever came is told, and asks for nothing."""
    (note,) = silence_remarks(silence(silent=(Silent("water", "W2", None),)), running=False)
    assert (note.kind, note.text) == ("note", "W2: declared, but nothing has come yet")


def test_nothing_is_asked_of_a_running_shift() -> None:
    """While a shift runs, stations may yet send: no doubt, no place absent."""
    gone = AbsentPlace("water", "W1", "A", 8, 96, 108)
    told = silence(unheard=("E1", None), absent=(gone,))
    assert list(silence_remarks(told, running=True)) == []
    assert [one.text for one in silence_remarks(told, running=False)] == [
        "E1 and the units feed have sent nothing since the shift's end",
        "W1 bay A sent no run of the shift, 96 to 108 in the shifts before",
    ]


def test_few_runs_cannot_tell() -> None:
    """A silence in which fewer than 15 runs were due, or a place that runs little, says nothing."""
    short = QuietPlace("water", "W1", "A", b.at("08:00"), b.at("08:30"), 100, 14.9)
    rare = AbsentPlace("water", "W2", None, 8, 1, 40)
    assert list(silence_remarks(silence(quiet=(short,), absent=(rare,)), running=False)) == []


def test_absent_place_is_found(folder: PlantFolder) -> None:
    """A place that ran in six of the eight shifts before and not in this one."""
    ends = [
        b.at(clock, b.TUESDAY - timedelta(days=days))
        for clock in ("08:00", "15:00", "23:00")
        for days in (1, 2)
    ]
    rows = [row for number, end in enumerate(ends) for row in b.run(f"U{number}", end)]
    plants.load(folder, b.file("water", rows + b.run("U9", "08:00", station="W2")))
    with asking(folder) as question:
        found = silence_facts(question, now=b.at("15:10")).absent
    assert found == (AbsentPlace("water", "W1", None, 6, 1, 1),)
