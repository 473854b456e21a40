"""A plant publishes its touched months; a reader sees the old or the new, never half, and no row twice."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import made_up_lake as made
import polars as pl
import pytest

from eol.errors import EngineError, StoreError, UsageError
from eol.fleet import publish as publishing
from eol.fleet.asked import Asked
from eol.fleet.lake import read_lake
from eol.fleet.on_duckdb import duckdb_engine
from eol.fleet.place import Place, open_place
from eol.fleet.publish import finish_commit, publish_lake
from eol.plant.folder import PlantFolder
from eol.sqlfiles import sql_file
from eol.store.schema import SCHEMA_VERSION

RUNS = pl.DataFrame(
    {
        "run_id": ["1", "2", "3"],
        "vin": ["U1", "U2", "U3"],
        "test": ["water"] * 3,
        "at": ["2026-03-10 08:00:00+00", "2026-03-11 08:00:00+00", "2026-04-10 08:00:00+00"],
        "production_date": ["2026-03-10", "2026-03-11", "2026-04-10"],
        "file_id": ["1"] * 3,
        "file_row": ["1", "2", "3"],
    }
)
UNITS = pl.DataFrame(
    {"vin": ["U1", "U2", "U3"], "kind": ["production"] * 3, "line_date": RUNS["production_date"]}
)
FINDINGS = pl.DataFrame(
    {"run_id": ["1", "3"], "code": ["LEAK", "LEAK"], "file_id": ["1", "1"], "file_row": ["1", "3"]}
)
SWAP = (
    "UPDATE run SET production_date = CASE run_id WHEN 1 THEN DATE '2026-04-01'"
    " WHEN 3 THEN DATE '2026-03-31' ELSE production_date END;"
    "UPDATE finding SET production_date = run.production_date FROM run WHERE run.run_id = finding.run_id"
)


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plant with runs in two months, published; to copy."""
    root = tmp_path_factory.mktemp("kept")
    shared = made.given(made.QUERIES / "plant")
    folder = made.made_plant(
        root / "plant", {**shared, "run": RUNS, "unit": UNITS, "finding": FINDINGS}
    )
    made.publish(folder, root / "lake", "P1")
    return root


@pytest.fixture
def plant(kept: Path, tmp_path: Path) -> PlantFolder:
    """The plant, to change."""
    shutil.copytree(kept, tmp_path, dirs_exist_ok=True)
    return PlantFolder(tmp_path / "plant")


@pytest.fixture
def place(plant: PlantFolder) -> Place:
    """Its lake."""
    return open_place(plant.root.parent / "lake")


def again(plant: PlantFolder) -> publishing.LakePublished:
    """Publish the plant once more."""
    return made.publish(plant, plant.root.parent / "lake", "P1")


def found(place: Place) -> tuple[list[tuple[object, ...]], list[int]]:
    """Runs with their dates, and the runs of findings, as a reader of the lake sees them."""
    with duckdb_engine(read_lake(place)) as engine:
        runs = engine.rows(Asked(sql_file("views", "run_of_unit")))
        findings = engine.rows(Asked(sql_file("views", "classed_finding")))
    dates = sorted(runs.select("run_id", "production_date").cast(pl.String).rows())
    return dates, sorted(findings["run_id"])


def plain(place: Place) -> list[int]:
    """The runs that a reader without the tool finds by the pattern of the folders."""
    assert place.local is not None
    return sorted(
        pl.read_parquet(place.local / "run/**/*.parquet", hive_partitioning=True)["run_id"]
    )


def test_parts_lie_by_plant_and_month(place: Place) -> None:
    """Months of runs and units have parts of one fixed name; what the plant declares has one."""
    assert {
        "run/plant=P1/production_month=2026-03/part-0.parquet",
        "run/plant=P1/production_month=2026-04/part-0.parquet",
        "unit/plant=P1/production_month=2026-04/part-0.parquet",
        "defect_code/plant=P1/part-0.parquet",
    } <= set(place_paths(place))
    assert plain(place) == [1, 2, 3]


def place_paths(place: Place) -> list[str]:
    """The paths of all parts in a lake."""
    assert place.local is not None
    return [str(path.relative_to(place.local)) for path in place.local.rglob("*.parquet")]


def test_manifest_says_what_was_published(place: Place) -> None:
    """Schema version, plant and data clock stand in it."""
    manifest = json.loads(place.read_text("_manifest/P1.json") or "")
    told = (manifest["plant"], manifest["schema_version"], manifest["generation"])
    assert told == ("P1", SCHEMA_VERSION, 1)
    assert manifest["data_clock"] == "2026-04-10T08:00:00Z"


def test_twice_writes_nothing(plant: PlantFolder, place: Place) -> None:
    """What did not change is not written again, and the manifest stays."""
    before = place.read_text("_manifest/P1.json")
    done = again(plant)
    assert (done.written, done.removed, done.generation) == ((), (), 1)
    assert place.read_text("_manifest/P1.json") == before


def test_touched_months_alone(plant: PlantFolder) -> None:
    """A changed stamp writes its month and no other."""
    made.change(plant, "UPDATE run SET counts = true WHERE run_id = 3")
    assert again(plant).written == ("run/plant=P1/production_month=2026-04/part-0.parquet",)


def test_late_rows_reach_their_month(plant: PlantFolder, place: Place) -> None:
    """A run that comes late writes its old month again, and what its station sent in all."""
    made.put(plant, {"run": RUNS.head(1).with_columns(run_id=pl.lit("9"))}, instead=False)
    assert again(plant).written == (
        "run/plant=P1/production_month=2026-03/part-0.parquet",
        "station_heard/plant=P1/part-0.parquet",
    )
    assert plain(place) == [1, 2, 3, 9]


def test_month_that_is_left_empty_goes(plant: PlantFolder, place: Place) -> None:
    """A month whose last row went has no part any more, and its findings went with the run."""
    made.change(plant, "UPDATE run SET production_date = DATE '2026-03-31' WHERE run_id = 3")
    assert again(plant).removed == (
        "finding/plant=P1/production_month=2026-04/part-0.parquet",
        "run/plant=P1/production_month=2026-04/part-0.parquet",
    )
    assert plain(place) == [1, 2, 3]


class KilledError(BaseException):
    """Stands for a kill: nothing but the end of the process follows."""


def kill_at(monkeypatch: pytest.MonkeyPatch, step: int, seen: Callable[[], None]) -> None:
    """Let a publishing die at its n-th change of the lake; look at the lake before each."""
    steps = iter(range(step + 1))

    def counted(name: str) -> Callable[..., object]:
        real = getattr(Place, name)

        def do(self: Place, *arguments: str) -> object:
            seen()
            if next(steps, None) is None:
                raise KilledError
            return real(self, *arguments)

        return do

    for name in ("move", "remove", "write_text", "open_output"):
        monkeypatch.setattr(Place, name, counted(name))


@pytest.mark.slow
def test_killed_at_any_step(
    plant: PlantFolder, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Killed anywhere, a reader sees all of the old or all of the new; nobody ever sees a row twice."""
    made.change(plant, SWAP)
    old, new = (
        found(place),
        ([("1", "2026-04-01"), ("2", "2026-03-11"), ("3", "2026-03-31")], [1, 3]),
    )
    kept = shutil.copytree(place.root, plant.root.parent / "before")
    states = []

    def seen() -> None:
        runs = plain(place)
        assert len(runs) == len(set(runs))

    for step in range(40):
        shutil.rmtree(place.root)
        shutil.copytree(kept, place.root)
        with monkeypatch.context() as patch:
            kill_at(patch, step, seen)
            try:
                again(plant)
            except KilledError:
                states.append(found(place))
            else:
                break
    assert states[0] == old
    assert states[-1] == new
    assert all(state in (old, new) for state in states)
    assert states == sorted(states, key=lambda state: state == new)


def test_next_publishing_finishes_a_killed_one(
    plant: PlantFolder, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a killed publishing had named is put in place, and nothing of it is left waiting."""
    made.change(plant, SWAP)
    with monkeypatch.context() as patch:
        kill_at(patch, 6, lambda: None)
        with pytest.raises(KilledError):
            again(plant)
    finish_commit(place, "P1")
    done = again(plant)
    assert plain(place) == [1, 2, 3]
    assert done.kept > 0
    assert place.local is not None
    assert not list(place.local.rglob("*.tmp"))
    assert place.listed("_commit") == ()


def test_plants_never_touch_each_other(plant: PlantFolder, place: Place, tmp_path: Path) -> None:
    """A second plant adds its own parts and leaves the first one's as they are."""
    before = {path: (Path(place.root) / path).stat().st_mtime_ns for path in place_paths(place)}
    other = made.made_plant(tmp_path / "other", {"run": RUNS.head(1), "unit": UNITS.head(1)})
    made.publish(other, Path(place.root), "P2")
    after = {path: (Path(place.root) / path).stat().st_mtime_ns for path in before}
    assert after == before
    assert read_lake(place).names == ("P1", "P2")


def test_name_of_another_plant_is_refused(plant: PlantFolder, tmp_path: Path) -> None:
    """Another plant cannot publish under a name that is taken."""
    other = made.made_plant(tmp_path / "other", {})
    with pytest.raises(UsageError, match="another plant publishes into this lake as 'P1'"):
        made.publish(other, plant.root.parent / "lake", "P1")


def test_name_that_is_no_folder_is_refused(plant: PlantFolder) -> None:
    """The plant's name must be one that every storage takes."""
    with pytest.raises(UsageError, match="cannot be the name of a plant"):
        publish_lake(plant, plant.root.parent / "lake", plant="a/b")


def test_lake_that_cannot_be_written(plant: PlantFolder, tmp_path: Path) -> None:
    """A file in the lake's place is told, and nothing is changed."""
    (tmp_path / "file").write_text("")
    with pytest.raises(StoreError, match="the lake cannot be"):
        publish_lake(plant, tmp_path / "file" / "lake", plant="P1")


def test_plant_without_rows_has_all_its_tables(tmp_path: Path) -> None:
    """An empty plant is a plant of the fleet: no run, no error."""
    folder = made.made_plant(tmp_path / "empty", {})
    made.publish(folder, tmp_path / "lake", "P1")
    assert found(open_place(tmp_path / "lake")) == ([], [])


def test_copy_of_another_schema_is_told(plant: PlantFolder) -> None:
    """A copy that a newer tool wrote is not published by an older one."""
    made.change(plant, "UPDATE schema_version SET version = 99")
    with pytest.raises(EngineError, match="schema version 99"):
        again(plant)
