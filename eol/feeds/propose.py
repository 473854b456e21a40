"""A foreign file in, a section of plant.toml that reads it out: a guess, to be mended by hand.

Nothing is loaded and nothing is written; every line of the proposal says that it is a guess.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from eol.errors import FeedFileError
from eol.feeds.columns import COLUMNS, Type
from eol.feeds.csv_head import read_head
from eol.feeds.encoding import to_utf8
from eol.feeds.foreign_columns import sent_columns
from eol.feeds.guess_mapping import Guess, constants, own_keys, sections
from eol.feeds.placing import Placing, best_placing, free_numbers, own_word
from eol.feeds.raw import ReadOptions
from eol.feeds.read import read_file
from eol.feeds.sniff import FileKind, source_kind
from eol.feeds.unpack import content, open_source
from eol.plant.settings import Settings

GUESS = "# a guess: mend by hand"
"""What stands behind every line that was guessed."""

_USUAL = {FileKind.CSV: ",", FileKind.TSV: "\t"}


@dataclass(frozen=True, slots=True)
class Proposal:
    """How a foreign file may be read.

    Attributes:
        feed: the feed it seems to belong to.
        text: the section [feed.NAME] of plant.toml, a remark behind every line.
        unplaced: the file's columns that have no place in the feed.
        missing: columns without which the file cannot be loaded and that nothing gives.
        unknown: words whose meaning is not known, as "result: X"; their rows would be refused.
    """

    feed: str
    text: str
    unplaced: tuple[str, ...]
    missing: tuple[str, ...]
    unknown: tuple[str, ...]


def propose(path: Path, settings: Settings) -> Proposal:
    """Propose how a foreign file is read.

    Args:
        path: the file.
        settings: plant.toml, for its tests, conditions and stations.

    Raises:
        FeedFileError: the file cannot be read, or it is like no feed.
    """
    encoding, delimiter = _spelling(path)
    raw = read_file(path, ReadOptions(delimiter=delimiter, encoding=encoding))
    sent = sent_columns(raw.frame, zone=settings.plant.timezone)
    placing = best_placing(sent, settings, file_name=path.name)
    if placing is None:
        names = ", ".join(one.name for one in sent if len(one.names) == 1)
        raise FeedFileError(
            f"the file is like no feed; its columns are {names or 'none'}",
            where=str(path),
            hint="Write [feed.NAME.rename] into plant.toml by hand: their column = our column.",
        )
    guess = Guess(path, placing, sent, settings, encoding, delimiter)
    unplaced, missing, unknown = _unplaced(guess), _missing(guess), _unknown_words(guess)
    text = "\n".join(_lines(guess, unplaced, missing, unknown)) + "\n"
    return Proposal(_feed_name(placing), text, unplaced, missing, unknown)


def _spelling(path: Path) -> tuple[str | None, str | None]:
    """The encoding and the delimiter of a text file, where they are not the usual ones."""
    source = open_source(path, max_bytes=ReadOptions().max_bytes)
    kind = source_kind(source)
    if kind not in (FileKind.CSV, FileKind.TSV, FileKind.JSON_LINES):
        return None, None
    text = to_utf8(content(source), None, where=str(path))
    encoding = None if text.encoding == "utf-8" else text.encoding
    if kind is FileKind.JSON_LINES:
        return encoding, None
    usual = _USUAL[kind]
    head = read_head(text.data, ReadOptions(), where=str(path), usual=usual)
    return encoding, None if head.delimiter == usual else head.delimiter


def _feed_name(placing: Placing) -> str:
    if placing.test is None:
        return placing.kind
    return placing.test if placing.kind == "test" else f"{placing.test}_{placing.kind}"


def _lines(
    guess: Guess, unplaced: Iterable[str], missing: Iterable[str], unknown: Iterable[str]
) -> Iterator[str]:
    name = _feed_name(guess.placing)
    yield f"# Proposed from {_toml(guess.path.name)}; eol ingest --explain FILE shows what comes of it."
    yield from (f"# No column of the file gives {column}." for column in missing)
    yield from (f"# What does this word mean? {_toml(word)}" for word in unknown)
    if unplaced:
        use = "an attribute each" if name == "units" else "not used"
        yield f"# Columns without a place, {use}: {', '.join(map(_toml, unplaced))}"
    yield f"[feed.{name}] {GUESS}"
    yield from _assigned(own_keys(guess))
    for section, values in sections(guess):
        if values:
            yield f"[feed.{name}.{section}]"
            yield from _assigned(values)


def _assigned(values: Mapping[str, object]) -> Iterator[str]:
    for key, value in values.items():
        spelt = key if key.isidentifier() and key.isascii() else _toml(key)
        yield f"{spelt} = {_toml(value)} {GUESS}"


def _toml(value: object) -> str:
    """A value as TOML writes it, in one line; JSON's spelling serves but for one sign."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _unplaced(guess: Guess) -> tuple[str, ...]:
    placed = {name for one in guess.placing.sources.values() for name in one.names}
    if guess.placing.kind == "readings" and "value" not in guess.placing.sources:
        placed |= {one.name for one in free_numbers(guess.placing, guess.sent)}
    return tuple(one.name for one in guess.sent if len(one.names) == 1 and one.name not in placed)


def _missing(guess: Guess) -> tuple[str, ...]:
    given = {*guess.placing.sources, *constants(guess)}
    if guess.placing.key_kind:
        given.add("vin")
    required = (column.name for column in COLUMNS[guess.placing.kind] if column.required)
    return tuple(name for name in required if name not in given)


def _unknown_words(guess: Guess) -> tuple[str, ...]:
    return tuple(
        f"{column.name}: {cell}"
        for column in guess.placing.columns
        if column.type is Type.WORD and column.name in guess.placing.sources
        for cell in guess.placing.sources[column.name].cells
        if own_word(column, cell) is None
    )
