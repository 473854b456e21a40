"""Plants on disk: a folder made, files written and loaded, rows of the published copy read.

A VIN may be given short, as in "U1": it is written with noughts before it, and read back without.
"""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import builders as b
from second_opinion import File, Plant

from eol.load.ingest import IngestResult, ingest
from eol.plant.folder import PlantFolder, init_folder
from eol.store.connect import open_copy

Row = dict[str, Any]
VIN_COLUMNS = ("vin", "vin_sent")


KEY = "5a" * 32
"""The key of every plant's pseudonyms, so that two plants can be compared."""


def made(root: Path, settings: Row | None = None) -> PlantFolder:
    """Make a plant folder, by default with the settings of `builders`, and a store without rows."""
    folder = bare(root, settings or b.settings())
    folder.store.write_bytes(blank_store())
    ingest(folder, [])
    return folder


def bare(root: Path, settings: Row) -> PlantFolder:
    """Make a plant folder without a store."""
    folder = init_folder(root, name="Quillbrook", starts_on=date(2026, 1, 1))
    folder.pseudonym_key.write_text(KEY, encoding="ascii")
    declare(folder, settings)
    return folder


@cache
def blank_store() -> bytes:
    """A store with its schema and views and no rows; making them takes longer than a load."""
    with TemporaryDirectory() as place:
        folder = bare(Path(place) / "plant", b.settings())
        ingest(folder, [])
        return folder.store.read_bytes()


def declare(folder: PlantFolder, settings: Row) -> None:
    """Write a plant.toml."""
    folder.toml.write_text(b.plant_toml(settings), encoding="utf-8")


def write(folder: PlantFolder, *files: File, kind: str = "csv") -> list[Path]:
    """Write files beside the inbox, made when they say."""
    place = folder.root / "files"
    taken = len(list(place.iterdir())) if place.exists() else 0
    whole = [replace(file, rows=[with_vins(row) for row in file.rows]) for file in files]
    return b.write_files(Plant({}, whole), place / f"{taken:03d}", kind=kind)[1]


def vin(short: str) -> str:
    """A VIN of 17 signs from its last ones."""
    return short.rjust(17, "0")


def with_vins(row: Row) -> Row:
    """A row of a file with whole VINs, those of corrections included."""
    names = ["vin", "value"] if row.get("field") == "vin" else ["vin"]
    return row | {name: vin(row[name]) for name in names if row.get(name)}


def load(folder: PlantFolder, *files: File, **options: Any) -> IngestResult:
    """Write files and take them in, with the options of `ingest`."""
    return ingest(folder, write(folder, *files), **options)


def rows(folder: PlantFolder, name: str, **equals: object) -> list[Row]:
    """The rows of a table or view of the published copy."""
    asked = {k: vin(str(v)) if k in VIN_COLUMNS else v for k, v in equals.items()}
    with open_copy(folder) as copy:
        found = copy.view(name, **asked).to_dicts()
    return [row | {n: str(row[n]).lstrip("0") for n in VIN_COLUMNS if row.get(n)} for row in found]


def column(folder: PlantFolder, name: str, field: str, **equals: object) -> list[Any]:
    """One column of a table or view, sorted by its text."""
    return sorted((row[field] for row in rows(folder, name, **equals)), key=str)


def count(folder: PlantFolder, name: str, **equals: object) -> int:
    """The number of rows of a table or view."""
    return len(rows(folder, name, **equals))


def small_files() -> list[File]:
    """Four units of one shift: two go through, one is repaired, one waits; one of them is a trial."""
    vins = ["U1", "U2", "U3"]
    water = b.run("U1", "08:00") + b.run("U2", "08:10", "fail", "LEAK/RRQ") + b.run("U2", "12:00")
    water += b.run("U3", "08:20", "fail", "LEAK/LRQ", "HISS/LRQ") + b.run("U9", "08:30")
    return [
        b.file("units", [b.unit(vin, build_seq=n, roof="fixed") for n, vin in enumerate(vins)]),
        b.file("units", [b.unit("U9", kind="trial")], name="units_trial"),
        b.file("defect_codes", [b.code("LEAK", handling="Dry it."), b.code("HISS", severity="D")]),
        b.file(
            "electrical", [row for vin in vins for row in b.run(vin, "07:00", test="electrical")]
        ),
        b.file("water", water),
        b.file("repairs", [b.repair("U2")]),
        b.file("events", [b.event(vin, "line_off", "06:30") for vin in vins]),
    ]


KILLED = """
import os, sys
from pathlib import Path
from eol.load import ingest as module
from eol.plant.folder import PlantFolder

def die(*arguments):
    os._exit(9)

module._new_doubles = die
module.ingest(PlantFolder(Path(sys.argv[1])), [Path(sys.argv[2])])
"""


def killed_after_commit(folder: PlantFolder, file: File) -> None:
    """Load a file in a process that dies when its rows are in and nothing is published."""
    [path] = write(folder, file)
    there = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run([sys.executable, "-c", KILLED, str(folder.root), str(path)], env=there)
    assert done.returncode == 9
    assert folder.store.with_suffix(".duckdb.wal").exists()
