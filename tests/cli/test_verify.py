"""`eol verify`: silence and 0 for a sound store, rows and 1 for another."""

from __future__ import annotations

import builders as b
import plants
from called import Eol

from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock


def test_sound_store(eol: Eol, small_plant: PlantFolder) -> None:
    """Exit 0, no data, one line of what was checked."""
    answer = eol("--plant", small_plant.root, "verify")
    assert (answer.code, answer.out) == (0, "")
    assert answer.err.endswith("checks over 4 units: 0 do not hold.\n")


def test_store_that_does_not_hold(eol: Eol, folder: PlantFolder) -> None:
    """Exit 1, the check with some of its rows; as JSON all of them."""
    plants.load(folder, b.file("water", b.run("U1")))
    with write_lock(folder), open_store(folder) as store:
        store.execute("UPDATE run SET attempt = 99", {})
    answer = eol("--plant", folder.root, "verify")
    assert answer.code == 1
    assert answer.out.splitlines()[0].startswith("run: rows of run differ")
    told = eol("--plant", folder.root, "verify", "--json").json
    assert [difference["check"] for difference in told["differences"]] == ["run"]
