"""A file's name and the settings in, its feed out, with all that its rows are read by.

A file belongs to the feed whose `files` pattern it matches; without a mapping, to the longest feed
name that its name begins with.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from fnmatch import fnmatchcase
from pathlib import Path

import polars as pl

from eol.errors import FeedFileError
from eol.feeds.columns import COLUMNS, FIXED_FEEDS, Column, Type
from eol.feeds.own_files import own_feed
from eol.plant.clock import midnight
from eol.plant.nearest import nearest
from eol.plant.settings import FeedSettings, Settings, feed_names

Pseudonym = Callable[[str], str]
"""A person in, the keyed pseudonym out (rule 18)."""

FUTURE_SLACK = timedelta(minutes=5)
"""How far a bench clock may run ahead of the load before its times are refused."""

_PACKED = (".gz", ".gzip", ".zst", ".zstd")


@dataclass(frozen=True, slots=True)
class Feed:
    """All that the rows of one feed are read by.

    Attributes:
        name: the feed's name, such as water_readings.
        kind: test, findings, readings or the name of a fixed feed.
        test: the test whose runs it tells of, None for a fixed feed.
        columns: the columns it may have, declared conditions included.
        options: its mapping; the defaults for a file in the tool's own columns.
        settings: the whole of plant.toml.
        loaded_at: the wall clock of the load, UTC.
        pseudonym: what makes a person a pseudonym (rule 18); None drops persons.
        unit_keys: the unit keys known so far: kind, value, vin, valid_from, valid_to (UTC, half-open,
            null for an open end); None where there are none.
    """

    name: str
    kind: str
    test: str | None
    columns: tuple[Column, ...]
    options: FeedSettings
    settings: Settings
    loaded_at: datetime
    pseudonym: Pseudonym | None = None
    unit_keys: pl.DataFrame | None = field(default=None, compare=False, repr=False)

    @property
    def zone(self) -> str:
        """The zone of its local times: its own, else the plant's."""
        return self.options.timezone or self.settings.plant.timezone

    @property
    def key_kind(self) -> str | None:
        """The kind of unit key that names its units, None where the VIN does or rows have no unit."""
        if self.options.named_by == "vin" or not _names_units(self.kind):
            return None
        return self.options.named_by

    @property
    def conditions(self) -> dict[str, str | None]:
        """The declared conditions of its test with the measure unit of the newest declaration."""
        if self.test is None:
            return {}
        return {c.name: c.measure_unit for c in self.settings.tests[self.test].condition}

    @property
    def starts_at(self) -> datetime:
        """The first instant of the plant's record, UTC."""
        plant = self.settings.plant
        return midnight(plant.starts_on, plant.zone)

    @property
    def latest_at(self) -> datetime:
        """The latest time that can have been at the load, UTC."""
        return self.loaded_at + FUTURE_SLACK


def feed_of(path: Path, settings: Settings) -> str:
    """Return the feed a file belongs to, by its name alone.

    Raises:
        FeedFileError: no pattern matches and no feed's name begins the file's name; the hint
            lists the feeds.
    """
    if own := own_feed(path.name):
        return own[0]
    matching = [name for name, options in settings.feeds.items() if _matches(path.name, options)]
    if matching:
        return max(matching, key=lambda name: len(settings.feeds[name].files or ""))
    lower = path.name.lower()
    beginning = [name for name in feed_names(settings.tests) if lower.startswith(name.lower())]
    if beginning:
        return max(beginning, key=len)
    raise FeedFileError(
        "the file belongs to no feed",
        where=path.name,
        hint="Begin its name with a feed's name or set files in [feed.NAME]; the feeds are "
        + ", ".join(feed_names(settings.tests))
        + ".",
    )


def open_feed(
    name: str,
    settings: Settings,
    *,
    path: Path | None = None,
    now: datetime | None = None,
    pseudonym: Pseudonym | None = None,
    unit_keys: pl.DataFrame | None = None,
) -> Feed:
    """Return all that the rows of a feed are read by.

    Args:
        name: the feed's name.
        settings: plant.toml.
        path: the file; where the feed's `files` pattern does not match it, it is in the tool's own
            columns and the mapping is left aside.
        now: the wall clock of the load, UTC; by default the present.
        pseudonym: what makes a person a pseudonym; None drops persons.
        unit_keys: the unit keys known so far, as `Feed` has them.

    Raises:
        FeedFileError: there is no such feed.
    """
    kind, test = _kind(name, settings)
    options = settings.feeds.get(name, FeedSettings())
    if path is not None and options.files is not None and not _matches(path.name, options):
        options = FeedSettings()
    if path is not None and (own := own_feed(path.name)):
        options = own[1]
    columns = _columns(kind, test, options, settings)
    moment = now or datetime.now(UTC)
    return Feed(name, kind, test, columns, options, settings, moment, pseudonym, unit_keys)


def _matches(file_name: str, options: FeedSettings) -> bool:
    """Whether a name fits the pattern, as it is or without the ending of its compression."""
    if options.files is None:
        return False
    unpacked = file_name
    for ending in _PACKED:
        unpacked = unpacked.removesuffix(ending)
    return any(fnmatchcase(name, options.files) for name in (file_name, unpacked))


def _kind(name: str, settings: Settings) -> tuple[str, str | None]:
    if name in settings.tests:
        return "test", name
    test, _, kind = name.rpartition("_")
    if test in settings.tests and kind in ("findings", "readings"):
        return kind, test
    if name in FIXED_FEEDS:
        return name, None
    names = feed_names(settings.tests)
    near = nearest(name, names)
    hint = f"The nearest is {near}." if near else "The feeds are " + ", ".join(names) + "."
    raise FeedFileError(f"there is no feed named '{name}'", hint=hint)


def _columns(
    kind: str, test: str | None, options: FeedSettings, settings: Settings
) -> tuple[Column, ...]:
    columns = COLUMNS[kind]
    if kind == "test" and test is not None:
        names = dict.fromkeys(condition.name for condition in settings.tests[test].condition)
        columns = (*columns, *(Column(name, Type.NUMBER) for name in names))
    if options.named_by == "vin" or not _names_units(kind):
        return columns
    # A unit key stands in for the VIN, which the unit keys give (rule 17).
    by_key = (Column("vin", Type.VIN) if column.name == "vin" else column for column in columns)
    own = any(column.name == options.named_by for column in columns)
    return (*by_key, *(() if own else (Column(options.named_by),)))


def _names_units(kind: str) -> bool:
    """Whether each row of a kind of feed is of a unit; a correction may be of a run instead."""
    return kind not in ("corrections", "unit_keys") and any(c.name == "vin" for c in COLUMNS[kind])
