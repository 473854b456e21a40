"""How files would load, told before they do."""

from __future__ import annotations

import builders as b
import plants

from eol.load.explained import explain_files
from eol.plant.folder import PlantFolder

ROWS = [{"skid": "12", "station": "W1", "started_at": b.at("08:00"), "result": "pass"}]


def test_known_unit_key_names_the_unit(folder: PlantFolder) -> None:
    """A row named by a key that was loaded is shown with its VIN; nothing is loaded."""
    plants.declare(folder, b.settings(feed={"water": {"named_by": "skid"}}))
    plants.load(folder, b.file("unit_keys", [{"kind": "skid", "value": "12", "vin": "U1"}]))
    [told] = explain_files(folder, plants.write(folder, b.file("water", ROWS)))
    assert told.first["run"]["vin"].to_list() == [plants.vin("U1")]
    assert plants.count(folder, "run") == 0


def test_before_the_first_ingest(folder: PlantFolder) -> None:
    """Without a copy no key is known: the row would wait."""
    plants.declare(folder, b.settings(feed={"water": {"named_by": "skid"}}))
    folder.read_copy.unlink()
    [told] = explain_files(folder, plants.write(folder, b.file("water", ROWS)))
    assert told.reasons.rows() == [("waits for the unit key skid …", 1)]
