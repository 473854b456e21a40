"""Stations and bays as sent in, declared names out, with notes of those not declared."""

from __future__ import annotations

from functools import reduce

import polars as pl

from eol.feeds.feed import Feed
from eol.plant.settings import StationSettings


def with_declared_bays(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Give each bay that was sent under another name its own."""
    return rows.with_columns(reduce(_renamed, _stations(feed), pl.col("bay")).alias("bay"))


def place_notes(rows: pl.DataFrame, feed: Feed) -> tuple[str, ...]:
    """Say which stations and bays plant.toml does not declare; their rows are kept."""
    stations = {station.name: station.bays for station in _stations(feed)}
    if not stations:
        return ()
    sent = rows["station"].unique().drop_nulls().sort().to_list()
    unknown = [name for name in sent if name not in stations]
    notes = [
        f"station '{name}' is not declared for {feed.test}; its rows are kept" for name in unknown
    ]
    return (*notes, *(_bay_notes(rows, stations) if "bay" in rows.columns else ()))


def _stations(feed: Feed) -> list[StationSettings]:
    return [station for station in feed.settings.stations if station.test == feed.test]


def _renamed(bay: pl.Expr, station: StationSettings) -> pl.Expr:
    if not station.bay_alias:
        return bay
    here = pl.col("station") == station.name
    return pl.when(here).then(bay.replace(station.bay_alias)).otherwise(bay)


def _bay_notes(rows: pl.DataFrame, stations: dict[str, tuple[str, ...]]) -> list[str]:
    sent = rows.select("station", "bay").unique().drop_nulls().sort("station", "bay").rows()
    return [
        f"bay '{bay}' of station '{station}' is not declared; its rows are kept"
        for station, bay in sent
        if stations.get(station) and bay not in stations[station]
    ]
