"""All that is known of a foreign file in, the keys of [feed.NAME] that would read it out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from eol.feeds.columns import Type
from eol.feeds.foreign_columns import Sent
from eol.feeds.foreign_words import bracketed_unit
from eol.feeds.guess_times import ISO_DATE, name_patterns
from eol.feeds.guess_units import sent_unit
from eol.feeds.placing import Placing, free_numbers, own_word
from eol.plant.settings import Settings

_PACKED = (".gz", ".gzip", ".zst", ".zstd")


@dataclass(frozen=True, slots=True)
class Guess:
    """All that is known of a file.

    Attributes:
        path: the file; sent: its columns; placing: the feed it seems to be of.
        settings: plant.toml.
        encoding: None where it is UTF-8; delimiter: None where it is the usual one.
    """

    path: Path
    placing: Placing
    sent: tuple[Sent, ...]
    settings: Settings
    encoding: str | None
    delimiter: str | None


def own_keys(guess: Guess) -> dict[str, object]:
    """Return the keys of the section itself; those that need no word are left out."""
    name = guess.path.name
    for ending in _PACKED:
        name = name.removesuffix(ending)
    files, made_at = name_patterns(name, zone=guess.settings.plant.timezone)
    comma = any(one.has_comma_numbers() for one in _numbers(guess))
    forms = (one.form for one in guess.placing.sources.values())
    keys: dict[str, object | None] = {
        "files": files,
        "made_at": made_at,
        "named_by": guess.placing.key_kind if guess.placing.kind != "unit_keys" else None,
        "delimiter": guess.delimiter,
        "encoding": guess.encoding,
        "decimal": "," if comma else None,
        "time_format": next((form for form in forms if form and form != ISO_DATE), None),
    }
    return {key: value for key, value in keys.items() if value is not None}


def sections(guess: Guess) -> Iterator[tuple[str, Mapping[str, object]]]:
    """Give the name and the keys of each section below it; an empty one needs no line."""
    sources = guess.placing.sources
    yield "rename", _renames(guess)
    yield "join", {name: list(one.names) for name, one in sources.items() if len(one.names) > 1}
    yield "constants", constants(guess)
    yield "measure_units", _measure_units(guess)
    for name, values in _values(guess):
        yield f"values.{name}", values


def _renames(guess: Guess) -> dict[str, object]:
    """Their names to the tool's; a column that only bears a name of the tool is put out of the way."""
    sources = {
        one.names[0]: name for name, one in guess.placing.sources.items() if len(one.names) == 1
    }
    own = {column.name for column in guess.placing.columns}
    renames: dict[str, object] = {}
    for one in guess.sent:
        sent = one.name
        if sent in sources and sent.strip().lower() != sources[sent]:
            renames[sent] = sources[sent]
        elif sent not in sources and sent.strip().lower() in own:
            renames[sent] = f"{sent.strip().lower()}_sent"
    return renames


def constants(guess: Guess) -> dict[str, object]:
    """Return what no column gives but all rows share: the station, or the kind of unit key."""
    placing = guess.placing
    if placing.kind == "unit_keys" and "kind" not in placing.sources and placing.key_kind:
        return {"kind": placing.key_kind}
    if placing.test is None or "station" in placing.sources:
        return {}
    declared = [one.name for one in guess.settings.stations if one.test == placing.test]
    return {"station": declared[0] if declared else f"{placing.test[:1].upper()}1"}


def _measure_units(guess: Guess) -> dict[str, object]:
    """The units of conditions that are not the declared ones, and of wide readings that name theirs."""
    placing = guess.placing
    if placing.test is None:
        return {}
    declared = {c.name: c for c in guess.settings.tests[placing.test].condition}
    units: dict[str, object] = {
        name: unit
        for name, one in placing.sources.items()
        if name in declared and (unit := sent_unit(one, declared[name]))
    }
    if placing.kind == "readings" and "value" not in placing.sources:
        free = free_numbers(placing, guess.sent)
        units |= {one.name: unit for one in free if (unit := bracketed_unit(one.name))}
    return units


def _values(guess: Guess) -> Iterator[tuple[str, dict[str, object]]]:
    """By column of words what the file's words mean; a word that is the tool's own needs no line."""
    for column in guess.placing.columns:
        one = guess.placing.sources.get(column.name)
        if column.type is Type.WORD and one is not None:
            pairs = {cell: own_word(column, cell) for cell in sorted(one.cells)}
            yield (
                column.name,
                {
                    cell: word
                    for cell, word in pairs.items()
                    if word and cell.lower() != word.lower()
                },
            )


def _numbers(guess: Guess) -> Iterator[Sent]:
    """The columns that are read as numbers."""
    for column in guess.placing.columns:
        read = column.type in (Type.NUMBER, Type.INTEGER) or column.name == "text_value"
        if read and column.name in guess.placing.sources:
            yield guess.placing.sources[column.name]
    if guess.placing.kind in ("readings", "units"):
        yield from free_numbers(guess.placing, guess.sent)
