"""What was lost on the way: void runs by place, refused and waiting rows, doubles, escapes."""

from __future__ import annotations

from typing import Any

import builders as b
import plants
import pytest
from shift_rows import asking, runs, vins

from eol.facts.losses import Losses, Lost, VoidPlace, loss_facts, loss_remarks
from eol.plant.folder import PlantFolder

NONE = Lost(0, 0)


@pytest.fixture(scope="module")
def lossy(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A day with six weak runs in bay B, one of the day before, a bad row and an orphan finding."""
    folder = plants.made(tmp_path_factory.mktemp("lossy") / "plant")
    weak = runs(vins(6), "08:00", bay="B", pressure_kpa=180.0)
    before = b.run("U050", b.at("08:00", b.TUESDAY.replace(day=7)), pressure_kpa=180.0)
    bad = b.run("U051", "09:00", started_at="yesterday")
    orphan = {"vin": "U052", "station": "W1", "started_at": b.at("10:00"), "code": "LEAK"}
    plants.load(
        folder,
        b.file("water", weak + runs(vins(9, 20), "08:00", bay="A") + before + bad),
        b.file("water_findings", [orphan]),
        b.file("electrical", b.run("U001", "15:00", test="electrical")),
    )
    return folder


def test_counts_since_the_shift_began_and_in_all(lossy: PlantFolder) -> None:
    """Void runs are new by their time, refused rows by the load of their file."""
    with asking(lossy) as question:
        losses = loss_facts(question)
    assert losses.void_runs == Lost(new=6, all=7)
    assert (losses.rejected, losses.rows_loaded) == (Lost(1, 1), 19)
    assert (losses.waiting_parts, losses.waiting, losses.doubles) == (Lost(1, 1), NONE, NONE)


def test_void_place_is_named(lossy: PlantFolder) -> None:
    """A place of which more than 5 % of runs, and at least five, do not count is named with its reason."""
    with asking(lossy) as question:
        losses = loss_facts(question)
    assert losses.void_places == (VoidPlace("water", "W1", "B", "weak", 6, 6),)
    told = [one.text for one in loss_remarks(losses)]
    assert told[0] == "W1 bay B: 6 of 6 runs do not count (weak)"
    assert "7 runs do not count, 6 of them since the shift began" in told


def losses(**fields: Any) -> Losses:
    """Nothing lost of a thousand rows."""
    names = ("void_runs", "doubles", "rejected", "waiting", "waiting_parts", "escapes")
    base = dict.fromkeys(names, NONE)
    return Losses(**base | {"rows_loaded": 1000, "void_places": ()} | fields)


def test_nothing_lost_says_nothing() -> None:
    """Without a loss there is no sentence."""
    assert list(loss_remarks(losses())) == []


@pytest.mark.parametrize(
    ("fields", "kind", "told"),
    [
        ({"escapes": Lost(1, 3)}, "look", "1 escape (past a proof event without proof"),
        ({"escapes": Lost(0, 3)}, "note", "3 escapes (past a proof event without proof"),
        ({"doubles": Lost(5, 5)}, "look", "5 doubled runs (a re-export moved by an hour"),
        ({"rejected": Lost(50, 50)}, "look", "50 refused rows (rejected_row tells why)"),
        ({"rejected": Lost(51, 51)}, "doubt", "51 of 1000 rows loaded since it began were refused"),
        ({"waiting": Lost(0, 1)}, "note", "1 row waits for the name of a unit, 0 of them new"),
        ({"waiting_parts": Lost(2, 2)}, "note", "2 findings and readings wait for a run"),
    ],
)
def test_what_is_new_asks_for_a_look(fields: dict[str, Any], kind: str, told: str) -> None:
    """New losses ask for a look, old ones are told; refused rows beyond 5 % are a doubt."""
    (remark,) = loss_remarks(losses(**fields))
    assert remark.kind == kind
    assert remark.text.startswith(told)


@pytest.mark.parametrize(
    ("reason", "void", "told"),
    [("weak", 5, True), ("weak", 4, False), ("aborted", 50, False), ("suspect_double", 50, False)],
)
def test_few_void_runs_and_aborted_ones_are_no_place_to_look_at(
    reason: str, void: int, told: bool
) -> None:
    """Aborted runs and doubles are counted elsewhere; four void runs may be chance."""
    place = VoidPlace("water", "W1", None, reason, void, 60)
    assert bool(list(loss_remarks(losses(void_places=(place,))))) is told
