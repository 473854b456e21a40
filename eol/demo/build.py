"""The demo: a plant folder made from `demo_parquet/`, its files loaded, the most telling page written."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from eol.errors import PlantFileError
from eol.load.ingest import IngestResult, Progress, ingest
from eol.plant.folder import PlantFolder, init_folder
from eol.report.plant import report_shift
from eol.sqlfiles import demo_folder
from eol.store.connect import open_copy

DIRT = "dirt"
"""Files as benches really send them: late, doubled, moved by an hour, with a renamed header or a torn tail."""


@dataclass(frozen=True, slots=True)
class DemoResult:
    """The demo plant: its folder, what was loaded, the page and what to look at on it."""

    folder: PlantFolder
    loaded: IngestResult
    page: Path
    shift: str
    look_at: tuple[str, ...]


def build_demo(root: Path, *, progress: Progress | None = None) -> DemoResult:
    """Make the plant Quillbrook in a folder, load its files and write the page of its most telling shift.

    Args:
        root: folder to make; a demo that is there already is loaded again, which changes nothing.
        progress: told each file as it is read.

    Raises:
        PlantFileError: the folder holds another plant.
        StoreError: the store cannot be written.
    """
    source = demo_folder()
    settings = (source / "plant.toml").read_text(encoding="utf-8")
    folder = _demo_folder(root, settings)
    files = [*sorted(source.glob("*.parquet")), *sorted((source / DIRT).iterdir())]
    loaded = ingest(folder, files, progress=progress)
    truth = json.loads((source / "truth.json").read_text(encoding="utf-8"))
    shift = "{production_date}/{shift}".format(**truth["telling_shift"])
    page = report_shift(folder, shift=shift)
    return DemoResult(folder, loaded, page, shift, _look_at(folder, shift))


def _demo_folder(root: Path, settings: str) -> PlantFolder:
    if (root / "plant.toml").exists():
        if (root / "plant.toml").read_text(encoding="utf-8") != settings:
            raise PlantFileError(
                "this folder holds another plant",
                where=str(root),
                hint="Name a folder of its own for the demo: eol demo FOLDER.",
            )
        return PlantFolder(root.absolute())
    folder = init_folder(
        root, name="Quillbrook", starts_on=(datetime.now(UTC) - timedelta(days=1)).date()
    )
    folder.toml.write_text(settings, encoding="utf-8", newline="\n")
    return folder


def _look_at(folder: PlantFolder, shift: str) -> tuple[str, ...]:
    """Say in figures what stands out in the shift, from the views alone."""
    production_date, name = shift.split("/")
    with open_copy(folder) as copy:
        rows = copy.run("demo", "look_at", production_date=production_date, shift=name)
    return tuple(rows["words"])
