"""Three made-up plants for a lake: the cases of tests/queries as the rows of plants.

Units and runs have the same names in two of the plants, so that whoever forgets the plant in a key is seen.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import duckdb
import plants
import polars as pl
from source_tree import ROOT
from stamped_cases import stamped

from eol.fleet.publish import LakePublished, publish_lake
from eol.plant.folder import PlantFolder

QUERIES = ROOT / "tests" / "queries"
OWN = ("applies", "defect_code", "plant_setting", "shift_window", "station", "test_definition")
"""Tables that a plant has once: a case that gives one is no part of a plant of many cases."""

NUMBERS = ("run_id", "first_run_id", "last_run_id", "file_id")
NAMES = ("vin", "message_id", "repair_id", "event_id")
SOUTH = (
    "pareto_window/trap_twenty_windows",
    "unit_at_risk/trap_every_clause",
    "feed_status/trap_feeds_without_stations",
)
WEST = (
    "unproven/trap_only_as_long_as_waited_for",
    "catalogue/trap_test_before_all_and_chain",
)

Tables = dict[str, pl.DataFrame]


def three_plants(root: Path) -> Path:
    """Publish three plants into `root/lake` and return it."""
    for name, cases in (("north", all_cases()), ("south", SOUTH), ("west", WEST)):
        publish(made_plant(root / name, tables_of(cases)), root / "lake", name)
    return root / "lake"


def publish(folder: PlantFolder, lake: Path, name: str) -> LakePublished:
    """Publish a plant under a name."""
    return publish_lake(folder, lake, plant=name)


def all_cases() -> list[str]:
    """The cases that give no table that a plant has once."""
    cases = sorted(path.parent for path in QUERIES.glob("*/*/expect.csv"))
    return [
        f"{case.parent.name}/{case.name}"
        for case in cases
        if not any((case / f"given_{table}.csv").exists() for table in OWN)
    ]


def tables_of(cases: Iterable[str]) -> Tables:
    """Put the rows of some cases together; units and numbers of all but the first are moved apart.

    A table that a case gives stands in place of the one that all cases share.
    """
    found: dict[str, list[pl.DataFrame]] = {}
    for number, case in enumerate(cases):
        for table, rows in given(QUERIES / case).items():
            found.setdefault(table, []).append(apart(rows, number))
    shared = {table: [rows] for table, rows in given(QUERIES / "plant").items()}
    return {table: pl.concat(each, how="diagonal") for table, each in {**shared, **found}.items()}


def given(folder: Path) -> Tables:
    """Read the tables that a case gives, all text, an empty field null."""
    return {
        path.stem.removeprefix("given_"): pl.read_csv(path, infer_schema=False)
        for path in folder.glob("given_*.csv")
    }


def apart(rows: pl.DataFrame, number: int) -> pl.DataFrame:
    """Give the units and numbers of a case names of their own."""
    if not number:
        return rows
    units = [pl.col(n) + f"-{number}" for n in NAMES if n in rows.columns]
    numbers = [
        (pl.col(n).cast(pl.Int64) + 100_000 * number).cast(pl.String)
        for n in NUMBERS
        if n in rows.columns
    ]
    return rows.with_columns(*units, *numbers)


def made_plant(root: Path, tables: Tables) -> PlantFolder:
    """A plant folder whose published copy holds the rows of some tables; it has no store."""
    folder = PlantFolder(root)
    folder.read_folder.mkdir(parents=True)
    folder.read_copy.write_bytes(plants.blank_store())
    folder.pseudonym_key.write_text(root.name.ljust(64, "0"), encoding="ascii")
    put(folder, tables)
    return folder


def put(folder: PlantFolder, tables: Tables, *, instead: bool = True) -> None:
    """Put rows into the published copy, by default in place of those that are there."""
    with duckdb.connect(str(folder.read_copy)) as connection:
        connection.execute("SET timezone = 'UTC'")
        for table, rows in tables.items():
            if instead:
                connection.execute(f"DELETE FROM {table}")
            connection.register("rows_in", rows.to_arrow())
            connection.execute(f"INSERT INTO {table} BY NAME SELECT * FROM rows_in")
            connection.unregister("rows_in")
        connection.execute(stamped())


def change(folder: PlantFolder, statement: str) -> None:
    """Change the published copy, as a later ingest would."""
    with duckdb.connect(str(folder.read_copy)) as connection:
        connection.execute(statement)
