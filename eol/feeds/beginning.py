"""A foreign file of a plant that is not there yet in, what its first plant.toml may say out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

import polars as pl

from eol.feeds.parse import parse_file
from eol.feeds.propose import Proposal, propose
from eol.feeds.unit_keys import KEYS_SCHEMA, OWN_TIMES
from eol.plant.folder import plant_toml
from eol.plant.settings import Settings, parse_settings

_EARLIEST = date(1990, 1, 1)


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a new plant may begin with.

    Attributes:
        proposal: how the file may be read.
        starts_on: first day of the record: as asked for, else the first day of the file, else today.
    """

    proposal: Proposal
    starts_on: date


def propose_beginning(
    path: Path, *, name: str, timezone: str, starts_on: date | None = None
) -> Beginning:
    """Propose how a file is read by a plant that is yet to be made.

    Args:
        path: the file.
        name: the plant's name.
        timezone: its IANA time zone.
        starts_on: first day of the record, None where the file may say it.

    Raises:
        FeedFileError: the file cannot be read, or it is like no feed.
        UsageError: the name or the time zone cannot be used.
    """
    text = plant_toml(name, starts_on=starts_on or _EARLIEST, timezone=timezone)
    proposal = propose(path, parse_settings(text))
    if starts_on is None and not proposal.missing:
        starts_on = _first_day(path, parse_settings(f"{text}\n{proposal.text}"))
    return Beginning(proposal, starts_on or date.today())


def _first_day(path: Path, settings: Settings) -> date | None:
    """The local day of the earliest time that the file tells of a unit."""
    batch = parse_file(path, settings)
    if batch.waiting.height:
        batch = parse_file(path, settings, unit_keys=_any_units(batch.waiting["waits_for"]))
    told = [
        first.astimezone(settings.plant.zone).date()
        for table in batch.tables.values()
        for name in OWN_TIMES
        if name in table.columns and isinstance(first := table[name].min(), datetime)
    ]
    return min(told, default=None)


def _any_units(waits_for: pl.Series) -> pl.DataFrame:
    """Unit keys under which no row waits; which units they name is of no account here."""
    pairs = [text.split("=", maxsplit=1) for text in waits_for.unique()]
    keys = [(kind, value, "", None, None) for kind, value in pairs]
    return pl.DataFrame(keys, schema=KEYS_SCHEMA, orient="row")
