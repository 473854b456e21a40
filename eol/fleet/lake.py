"""A lake as readers see it: which plants published what, each plant as of one publishing, never between two."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from eol.errors import EngineError, StoreError
from eol.fleet.layout import part_path
from eol.fleet.manifest import (
    Commit,
    Manifest,
    commit_from,
    commit_path,
    manifest_from,
    manifest_path,
)
from eol.fleet.place import Place
from eol.store.schema import SCHEMA_VERSION


@dataclass(frozen=True, slots=True)
class PlantParts:
    """What one plant published; `waiting` are the parts (path, where it waits) not yet in their place."""

    manifest: Manifest
    waiting: dict[str, str]

    @property
    def plant(self) -> str:
        """Name of the plant in the lake."""
        return self.manifest.plant

    def paths(self, table: str) -> tuple[str, ...]:
        """Return the files of a table below the lake's root, where they lie now."""
        parts = [part for part in self.manifest.written() if part.table == table]
        paths = [part_path(table, self.plant, part.month) for part in parts]
        return tuple(self.waiting.get(path, path) for path in paths)


@dataclass(frozen=True, slots=True)
class Lake:
    """A lake at one moment: its place and its plants, by name."""

    place: Place
    plants: tuple[PlantParts, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The plants' names."""
        return tuple(parts.plant for parts in self.plants)

    def unchanged(self) -> bool:
        """Tell whether no plant has published since; else what was read may be of two publishings."""
        return read_lake(self.place, self.names) == self

    def require(self, tables: Iterable[str]) -> None:
        """See that each plant has the tables that will be read.

        Raises:
            EngineError: a plant did not publish one, or a part of it is gone.
        """
        wanted = list(tables)
        for parts in self.plants:
            self._require_of(parts, wanted)

    def _require_of(self, parts: PlantParts, tables: list[str]) -> None:
        lacking = sorted(set(tables) - parts.manifest.tables)
        paths = [path for table in tables for path in parts.paths(table)]
        gone = sorted(set(paths) - self.place.present(paths))
        if lacking or gone:
            raise EngineError(
                f"plant {parts.plant} lacks {', '.join(lacking or gone[:3])}",
                where=self.place.name,
                hint=f"Publish it again at the plant: eol publish --lake {self.place.name}.",
            )


def read_lake(place: Place, plants: Iterable[str] = ()) -> Lake:
    """Read the manifests of a lake.

    Args:
        place: where it lies.
        plants: the plants asked for; none named: all there are.

    Raises:
        EngineError: the lake is empty, a plant asked for is not there, or one has another schema version.
        StoreError: the lake cannot be reached, or a manifest cannot be read.
    """
    there = _names(place)
    if not there:
        raise EngineError(
            "no plant has published into this lake",
            where=place.name,
            hint=f"Run eol publish --lake {place.name} at a plant first.",
        )
    asked = sorted(set(plants)) or list(there)
    unknown = [name for name in asked if name not in there]
    if unknown:
        raise EngineError(
            f"there is no plant {', '.join(unknown)} in this lake",
            where=place.name,
            hint=f"Plants that published: {', '.join(there)}.",
        )
    return Lake(place, tuple(_parts(place, name) for name in asked))


def _names(place: Place) -> tuple[str, ...]:
    """The plants with a manifest, or whose first publishing is being put in place."""
    names = {
        name.removesuffix(".json")
        for folder in ("_manifest", "_commit")
        for name in place.listed(folder)
        if name.endswith(".json")
    }
    return tuple(sorted(names))


def _parts(place: Place, name: str) -> PlantParts:
    manifest_text, commit_text = (place.read_text(f(name)) for f in (manifest_path, commit_path))
    try:
        commit = commit_from(commit_text) if commit_text else None
        manifest = commit.manifest if commit else manifest_from(manifest_text or "{}")
    except ValueError as error:
        raise StoreError(
            f"the manifest of plant {name} cannot be read: {error}",
            where=place.name,
            hint=f"Remove _manifest/{name}.json and publish that plant again.",
        ) from error
    _same_schema(place, manifest)
    return PlantParts(manifest, _waiting(place, commit) if commit else {})


def _waiting(place: Place, commit: Commit) -> dict[str, str]:
    """The parts of a commit that still wait; of a part that is put in place twice, the last."""
    last = {path: staged for staged, path in commit.moves}
    there = place.present(last.values())
    return {path: staged for path, staged in last.items() if staged in there}


def _same_schema(place: Place, manifest: Manifest) -> None:
    found = manifest.schema_version
    if found != SCHEMA_VERSION:
        hint = (
            "Publish that plant again with the version of the tool that reads the lake."
            if found < SCHEMA_VERSION
            else "Install the newer version of the tool here."
        )
        raise EngineError(
            f"plant {manifest.plant} published tables of schema version {found},"
            f" this tool reads version {SCHEMA_VERSION}",
            where=place.name,
            hint=hint,
        )
