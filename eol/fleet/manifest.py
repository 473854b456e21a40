"""A plant's manifest in a lake: the parts it published, of what schema, up to when; and what is on its way."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, field
from typing import Any

from eol.fleet import layout


@dataclass(frozen=True, slots=True, order=True)
class Part:
    """One Parquet file of a table: its month (empty where the table has none), rows and fingerprint."""

    table: str
    month: str
    rows: int
    fingerprint: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a plant has published.

    Args:
        plant: name of the plant's partitions.
        name: the plant's name in its plant.toml.
        identity: tells this plant folder from another one of that name.
        schema_version: number of the schema of the tables.
        tool: version of the tool that wrote them.
        hashed_by: what made the fingerprints; those of another version are not compared.
        data_clock: the newest run end or event time (UTC, ISO 8601); empty while nothing is loaded.
        generation: counts the times that something was published.
        parts: the parts, by table and month.
    """

    plant: str
    name: str
    identity: str
    schema_version: int
    tool: str
    hashed_by: str
    data_clock: str
    generation: int
    parts: tuple[Part, ...]

    @property
    def tables(self) -> frozenset[str]:
        """The tables that it published, those without rows included."""
        return frozenset(part.table for part in self.parts)

    def written(self) -> tuple[Part, ...]:
        """Return the parts that are files: a monthly table without rows has none."""
        return tuple(part for part in self.parts if part.rows or part.table in layout.WHOLE)


@dataclass(frozen=True, slots=True)
class Commit:
    """Parts that are written whole and are being put in place.

    `moves` are pairs (waiting place, place), in order; `removals` the parts whose last row went elsewhere.
    """

    manifest: Manifest
    moves: tuple[tuple[str, str], ...]
    removals: tuple[str, ...] = field(default=())


def manifest_path(plant: str) -> str:
    """Return where a plant's manifest lies below the lake's root."""
    return f"_manifest/{plant}.json"


def commit_path(plant: str) -> str:
    """Return where a plant tells what it is putting in place."""
    return f"_commit/{plant}.json"


def to_json(value: Manifest | Commit) -> str:
    """Write a manifest or commit as JSON."""
    return json.dumps(asdict(value), ensure_ascii=False, indent=1)


def manifest_from(text: str) -> Manifest:
    """Read a manifest.

    Raises:
        ValueError: it is none.
    """
    return _manifest(json.loads(text))


def commit_from(text: str) -> Commit:
    """Read a commit.

    Raises:
        ValueError: it is none.
    """
    found = json.loads(text)
    moves = tuple((str(staged), str(place)) for staged, place in found["moves"])
    return Commit(_manifest(found["manifest"]), moves, tuple(found["removals"]))


def _manifest(found: dict[str, Any]) -> Manifest:
    try:
        parts = tuple(Part(**part) for part in found["parts"])
        return Manifest(**{**found, "parts": parts})
    except (KeyError, TypeError) as error:
        raise ValueError(f"no manifest of a lake: {error}") from error
