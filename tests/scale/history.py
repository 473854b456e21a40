"""Stores of three months and of ten years, of one made-up plant.

The three months are loaded through the tool, file by file. The ten years are the same three months
forty times over, each moved by thirteen weeks inside SQL, oldest first as a plant would have loaded
them: a true load of ten years takes minutes and gives the same rows to look through. Stamps go along
as they are, so that shifts of another clock time may be an hour off; nothing here reads them.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import duckdb
from made_plant import PLANT, write_plant
from measured import measure

from eol.plant.folder import PlantFolder, init_folder

QUARTERS = 40
DAYS = 91
LAST = date(2026, 6, 1)
"""The day after the history."""
FIRST = LAST - timedelta(days=DAYS)
READINGS = 3
"""So many more a water run, beside its two conditions: 23 million in ten years."""

MOVED = {
    "unit_sent": ("vin", "line_off_at", "file_id"),
    "unit": ("vin", "line_off_at", "line_date", "earliest_at", "file_id"),
    "attribute": ("vin", "at", "file_id"),
    "run": (
        *("run_id", "vin", "started_at", "ended_at", "vin_sent", "started_at_sent"),
        *("ended_at_sent", "at", "production_date", "earliest_at", "file_id"),
    ),
    "finding": ("run_id", "file_id", "vin", "at", "production_date", "line_date"),
    "reading": ("run_id", "file_id"),
    "repair": ("repair_id", "vin", "started_at", "ended_at", "entered_at", "file_id"),
    "event": ("event_id", "vin", "at", "file_id"),
    "unit_status": (
        *("vin", "first_run_id", "last_run_id", "clear_at", "waiting_since"),
        *("production_date", "line_date", "asked_at", "earliest_at"),
    ),
    "source_file": ("file_id", "sha256", "made_at", "loaded_at"),
}
"""Columns that tell of a time or a name, by table; the rest is the same in every quarter."""


AS_THEY_ARE = ("defect_code", "schema_version", "station_heard", "figure_sent")


def begin(main: Callable[[int, Path], None], rounds: int) -> None:
    """Start a benchmark as `ROUNDS FOLDER` of its command line say; without FOLDER no store is kept."""
    words = sys.argv[1:]
    kept = Path(words[1]) if len(words) > 1 else Path(tempfile.mkdtemp(prefix="eol-scale-"))
    try:
        main(int(words[0]) if words else rounds, kept)
    finally:
        if len(words) < 2:
            shutil.rmtree(kept)


def stores(place: Path) -> dict[str, PlantFolder]:
    """The two stores, made where they are not there yet."""
    recent, long = place / "three-months", place / "ten-years"
    if not long.exists():
        ten_years(place, three_months(place))
    return {"three months": PlantFolder(recent), "ten years": PlantFolder(long)}


def three_months(place: Path) -> PlantFolder:
    """Load three months through the tool, with readings, repairs and sign-offs."""
    paths = write_plant(place / "files", FIRST, DAYS, readings=READINGS, yard=True)
    folder = plant(place / "three-months", FIRST)
    measure("-m", "eol", "--plant", folder.root, "ingest", *paths)
    return folder


def ten_years(place: Path, recent: PlantFolder) -> PlantFolder:
    """Make a store of the same plant whose history is forty times as long."""
    folder = plant(place / "ten-years", LAST - timedelta(days=DAYS * QUARTERS))
    measure("-m", "eol", "--plant", folder.root, "ingest")
    with duckdb.connect(str(folder.store), config={"wal_autocheckpoint": "16MB"}) as store:
        store.execute("SET timezone = 'UTC'")
        store.execute(f"ATTACH '{recent.store}' AS recent (READ_ONLY)")
        for table in AS_THEY_ARE:
            store.execute(f"DELETE FROM {table}")
            store.execute(f"INSERT INTO {table} SELECT * FROM recent.{table}")
        for number in reversed(range(QUARTERS)):
            for table in MOVED:
                store.execute(moved(store, table, number))
    shutil.copyfile(folder.store, folder.read_copy)
    return folder


def plant(root: Path, starts_on: date) -> PlantFolder:
    """A plant without files, known since a day."""
    folder = init_folder(root, name="Quillbrook", starts_on=starts_on)
    folder.toml.write_text(PLANT.format(first=starts_on), encoding="utf-8")
    return folder


def moved(store: duckdb.DuckDBPyConnection, table: str, number: int) -> str:
    """The statement that adds a quarter of a table, so many quarters earlier."""
    columns = [row[0] for row in store.execute(f"DESCRIBE {table}").fetchall()]
    told = [
        earlier(column, number) if number and column in MOVED[table] else f'"{column}"'
        for column in columns
    ]
    return f"INSERT INTO {table} SELECT {', '.join(told)} FROM recent.{table}"


def earlier(column: str, number: int) -> str:
    """A column as it was so many quarters earlier, of other units."""
    days = number * DAYS
    if column in ("vin", "vin_sent"):
        return f"concat(left({column}, 4), '{chr(90 - number // 10)}{number % 10}', right({column}, 11))"
    if column.endswith("run_id"):
        return f"{column} - {days * 86_400 << 30}"
    if column.endswith(("_date", "_shift")):
        return f"{column} - {days}"
    if column in ("repair_id", "event_id", "sha256"):
        return f"concat({column}, '-{number}')"
    if column == "file_id":
        return f"{column} + {number}"
    return f'"{column}" - INTERVAL {days} DAY'
