"""The proof of the store: it holds for a sound one, and sees each kind of harm."""

from __future__ import annotations

import shutil
from pathlib import Path

import builders as b
import plants
import pytest
from partly import every_third

from eol.plant.folder import PlantFolder
from eol.sqlfiles import sql_files
from eol.store.connect import open_store, write_lock
from eol.store.verify import STAMPED, verify

HARM = {
    "doubled_run": "INSERT INTO run FROM run LIMIT 1",
    "doubled_name": "INSERT INTO run SELECT * REPLACE (run_id + 1 AS run_id) FROM run LIMIT 1",
    "lost_finding": "INSERT INTO finding (run_id, code, file_id) VALUES (7, 'LEAK', 7)",
    "lost_reading": "INSERT INTO reading (run_id, name, value) VALUES (7, 'pressure_kpa', 250)",
    "unknown_file": "DELETE FROM source_file WHERE feed = 'water'",
    "unknown_unit": "DELETE FROM unit WHERE kind = 'production'",
    "outranked": "INSERT INTO superseded.run SELECT * REPLACE (9 AS revision) FROM run",
    "circular_code": "INSERT INTO defect_code (code, same_as) VALUES ('A', 'B'), ('B', 'A')",
    "other_unit": "UPDATE run SET earliest_at = earliest_at - INTERVAL 1 DAY",
    "run": "UPDATE run SET attempt = attempt + 1",
    "finding": "UPDATE finding SET counts_as = 'void'",
    "unit": "UPDATE unit SET line_state = 'undecided'",
    "unit_status": "UPDATE unit_status SET status = 'passed'",
    "shift_window": "DELETE FROM shift_window WHERE shift = 'N'",
    "station_heard": "UPDATE station_heard SET last_at = last_at - INTERVAL 1 HOUR",
    "twin": "INSERT INTO twin (run_id, vin, by_name) SELECT run_id, vin, false FROM run",
}
"""A statement that breaks what each check proves."""


@pytest.fixture
def small(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The small plant, to write to."""
    return PlantFolder(shutil.copytree(small_plant.root, tmp_path / "Werk Süd's plant"))


def test_every_check_is_harmed_here() -> None:
    """No check is without a store that it refuses."""
    assert set(HARM) == {*(file.name for file in sql_files("verify")), *STAMPED}


def test_sound_store_holds(small: PlantFolder) -> None:
    """Nothing differs in a store that only the tool wrote to, and it is left as it is."""
    before = small.store.read_bytes()
    result = verify(small)
    assert (result.holds, result.units, result.checks) == (True, 4, len(HARM))
    assert small.store.read_bytes() == before


@pytest.mark.parametrize("check", every_third(HARM))
def test_harm_is_seen(small: PlantFolder, check: str) -> None:
    """A broken invariant or a stamp that is not the rules' is named, with rows as examples."""
    with write_lock(small), open_store(small) as store:
        store.execute(HARM[check], {})
    found = {difference.check: difference for difference in verify(small).differences}
    assert check in found
    assert found[check].title
    assert found[check].examples


def test_waiting_findings_are_no_harm(folder: PlantFolder) -> None:
    """A finding whose run has not come yet waits, and the store holds."""
    [run] = b.run("U1", "08:00")
    named = {name: run[name] for name in ("vin", "station", "started_at")}
    plants.load(folder, b.file("water_findings", [named | {"code": "LEAK"}]))
    assert verify(folder).holds


@pytest.mark.slow
def test_what_a_killed_load_left_is_proved_too(folder: PlantFolder) -> None:
    """Rows that came just before a kill lie in the log beside the store, with their stamps."""
    plants.killed_after_commit(folder, b.file("water", b.run("U1")))
    assert (verify(folder).holds, verify(folder).units) == (True, 1)
