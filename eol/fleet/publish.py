"""Publishes a plant into a lake: Parquet by plant and month, the touched months alone, replaced safely.

All parts are first written whole beside the lake's own (where no engine looks), then named in a
commit, then put in place one by one, each at once. A plant that is killed before the commit changed
nothing; one killed after it is finished by its next publishing, and until then `eol fleet` reads
the parts that wait.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

import duckdb
from filelock import FileLock, Timeout

from eol.errors import EngineError, StoreError, UsageError
from eol.fleet import layout
from eol.fleet.manifest import (
    Commit,
    Manifest,
    Part,
    commit_from,
    commit_path,
    manifest_from,
    manifest_path,
    to_json,
)
from eol.fleet.marks import part_marks
from eol.fleet.moved import Moved, moved_keys
from eol.fleet.parts import write_part
from eol.fleet.place import Place, open_place
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy
from eol.store.database import Database
from eol.store.schema import SCHEMA_VERSION, found_version, tool_version

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")
LOCK_SECONDS = 60.0


@dataclass(frozen=True, slots=True)
class LakePublished:
    """What one publishing did.

    `written` are the parts written anew (paths below the lake), `removed` those whose last row
    went, `rows` the rows written, `kept` the parts that had not changed; `data_clock` is ISO 8601
    in UTC, empty while nothing is loaded.
    """

    lake: str
    plant: str
    generation: int
    data_clock: str
    written: tuple[str, ...]
    removed: tuple[str, ...]
    rows: int
    kept: int


def publish_lake(
    folder: PlantFolder, lake: str | Path, *, plant: str | None = None
) -> LakePublished:
    """Bring a plant's part of a lake to what its published copy holds.

    Args:
        folder: the plant; its read copy is read, so that an ingest is never waited for.
        lake: a folder, or a URI that pyarrow's filesystems know.
        plant: name of the plant in the lake; None takes the name in plant.toml.

    Raises:
        UsageError: the name cannot be one of a partition, or another plant publishes under it.
        StoreError: nothing was loaded yet, or the lake cannot be written.
        EngineError: the address is none of a lake.
    """
    place = open_place(lake)
    with _only_publisher(folder), open_copy(folder) as copy:
        try:
            return _publish(folder, copy, place, plant)
        except OSError as error:
            raise StoreError(
                f"the lake cannot be written: {error.strerror or error}",
                where=place.name,
                hint="What was there stays as it was; mend the cause and publish again.",
            ) from error


def finish_commit(place: Place, plant: str) -> None:
    """Put in place what a killed publishing had written and named; remove what it had not named."""
    text = place.read_text(commit_path(plant))
    if text is not None:
        put_in_place(place, commit_from(text))
    place.clear(f"_stage/{plant}")


def put_in_place(place: Place, commit: Commit) -> None:
    """Carry a commit out; done once or again, the outcome is the same."""
    for path in commit.removals:
        place.remove(path)
    for staged, path in commit.moves:
        place.move(staged, path)
    plant = commit.manifest.plant
    place.write_text(manifest_path(plant), to_json(commit.manifest))
    place.remove(commit_path(plant))


def _publish(folder: PlantFolder, copy: Database, place: Place, plant: str | None) -> LakePublished:
    fresh = _manifest(folder, copy, plant)
    finish_commit(place, fresh.plant)
    known = _known(place, fresh)
    touched = _touched(known, fresh)
    removed = _removed(known, fresh)
    if known is not None and not touched and not removed:
        return _told(place, known, (), ())
    generation = known.generation + 1 if known else 1
    manifest = replace(fresh, generation=generation)
    moves = _stage(copy, place, manifest, touched)
    commit = Commit(manifest, moves, removed)
    place.write_text(commit_path(manifest.plant), to_json(commit))
    put_in_place(place, commit)
    place.clear(f"_stage/{manifest.plant}")
    return _told(place, manifest, touched, removed)


def _stage(
    copy: Database,
    place: Place,
    manifest: Manifest,
    touched: tuple[Part, ...],
) -> tuple[tuple[str, str], ...]:
    """Write the touched parts where no engine looks; return how they are put in place, in order.

    A row that went to another month is taken out of the old part before the new one shows it, so
    that nobody reads it twice. A month that rows both left and reached is put in place twice, first
    without those that reached it.
    """
    moved = {
        table: moved_keys(copy, place, manifest.plant, table, touched) for table in ("run", "unit")
    }
    first: list[tuple[str, str]] = []
    last: list[tuple[str, str]] = []
    for part in touched:
        path = layout.part_path(part.table, manifest.plant, part.month)
        moving = moved["run" if part.table in layout.BY_RUN else "unit"]
        if part.table not in layout.KEY:
            moving = Moved.none()
        gains, loses = part.month in moving.reached, part.month in moving.left
        if gains and loses:
            early = layout.staged_path(manifest.plant, manifest.generation, path, 0)
            write_part(copy, place, part, early, left_out=moving.keys_reaching(part.month))
            first.append((early, path))
        staged = layout.staged_path(manifest.plant, manifest.generation, path, 1)
        write_part(copy, place, part, staged)
        (last if gains else first).append((staged, path))
    return (*first, *last)


def _manifest(folder: PlantFolder, copy: Database, plant: str | None) -> Manifest:
    """Say what the plant's copy holds, as a manifest not yet numbered."""
    if found_version(copy) != SCHEMA_VERSION:
        raise EngineError(
            f"the published copy has schema version {found_version(copy)}, this tool writes {SCHEMA_VERSION}",
            where=str(folder.read_copy),
            hint="Run eol ingest once with this version of the tool.",
        )
    settings = copy.view("plant_setting")
    name = str(settings["name"][0]) if settings.height else ""
    clock = copy.view("as_of")["as_of"][0]
    return Manifest(
        plant=_partition(plant or name),
        name=name,
        identity=_identity(folder),
        schema_version=SCHEMA_VERSION,
        tool=tool_version(),
        hashed_by=f"duckdb {duckdb.__version__}",
        data_clock="" if clock is None else f"{clock:%Y-%m-%dT%H:%M:%SZ}",
        generation=0,
        parts=part_marks(copy),
    )


def _partition(name: str) -> str:
    if not _NAME.fullmatch(name):
        raise UsageError(
            f"'{name}' cannot be the name of a plant in a lake",
            hint="Letters, digits, dot, dash and underscore may stand in it: eol publish --lake DIR --as NAME.",
        )
    return name


def _identity(folder: PlantFolder) -> str:
    """The plant's key tells it from another plant of its name, also after a move or a restore."""
    return hashlib.sha256(b"lake " + folder.pseudonym_key.read_bytes().strip()).hexdigest()[:16]


def _known(place: Place, fresh: Manifest) -> Manifest | None:
    text = place.read_text(manifest_path(fresh.plant))
    if text is None:
        return None
    known = manifest_from(text)
    if known.identity != fresh.identity:
        raise UsageError(
            f"another plant publishes into this lake as '{fresh.plant}'",
            where=place.name,
            hint="Give this one a name of its own: eol publish --lake DIR --as NAME.",
        )
    return known


def _touched(known: Manifest | None, fresh: Manifest) -> tuple[Part, ...]:
    """Return the parts that differ from what was published; all of them after another version of the tool."""
    same = known is not None and _comparable(known) == _comparable(fresh)
    before = set(known.parts) if known and same else set()
    return tuple(part for part in fresh.written() if part not in before)


def _comparable(manifest: Manifest) -> tuple[object, ...]:
    return manifest.schema_version, manifest.hashed_by, manifest.name


def _removed(known: Manifest | None, fresh: Manifest) -> tuple[str, ...]:
    paths = [_paths(manifest) if manifest else set() for manifest in (known, fresh)]
    return tuple(sorted(paths[0] - paths[1]))


def _paths(manifest: Manifest) -> set[str]:
    return {layout.part_path(part.table, manifest.plant, part.month) for part in manifest.written()}


def _told(
    place: Place, manifest: Manifest, touched: tuple[Part, ...], removed: tuple[str, ...]
) -> LakePublished:
    written = tuple(layout.part_path(p.table, manifest.plant, p.month) for p in touched)
    return LakePublished(
        lake=place.name,
        plant=manifest.plant,
        generation=manifest.generation,
        data_clock=manifest.data_clock,
        written=written,
        removed=removed,
        rows=sum(part.rows for part in touched),
        kept=len(manifest.written()) - len(touched),
    )


@contextmanager
def _only_publisher(folder: PlantFolder) -> Iterator[None]:
    """Let one publishing of a plant run at a time; the lock goes with the process."""
    lock = FileLock(folder.root / "publish.lock", timeout=LOCK_SECONDS)
    try:
        lock.acquire()
    except Timeout as error:
        raise StoreError(
            f"another publishing of this plant has been running for {LOCK_SECONDS:.0f} s",
            where=str(folder.root),
            hint="Wait for it or end it, then publish again.",
        ) from error
    try:
        yield
    finally:
        lock.release()
