"""A made-up plant of any length, as Parquet files a month and feed: 1,200 units a day through three tests."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import polars as pl

UNITS_A_DAY = 1_200
FAIL_SHARE = {"electrical": 0.035, "water": 0.05, "squeak_rattle": 0.04}
MINUTES_AFTER = {"electrical": 30, "water": 75, "squeak_rattle": 120}
STATIONS = {"electrical": ("E1", "E2"), "water": ("W1",), "squeak_rattle": ("T1",)}
SECONDS = {"electrical": 300, "water": 240, "squeak_rattle": 420}
RETEST_MINUTES = 150
CODES_A_TEST = 20
SAFETY_RELATED = "-00"
"""How the codes end whose units wait for a release."""

PLANT = """
[plant]
name = "Quillbrook"
timezone = "Europe/Berlin"
starts_on = {first}

[[shift]]
name = "early"
starts = "06:00"
ends = "14:00"
days = "all"
[[shift]]
name = "late"
starts = "14:00"
ends = "22:00"
days = "all"
[[shift]]
name = "night"
starts = "22:00"
ends = "06:00"
days = "all"

[test.electrical]
length = 300
[test.water]
length = 240
[[test.water.condition]]
name = "pressure_kpa"
lower = 220
upper = 280
measure_unit = "kPa"
required = true
[[test.water.condition]]
name = "duration_s"
lower = 230
upper = 260
measure_unit = "s"
required = true
[test.squeak_rattle]
length = 420
"""


def write_plant(
    folder: Path, first: date, days: int, *, readings: int = 0, yard: bool = False
) -> list[Path]:
    """Write the files of so many days, month by month; nothing but units and tests where no more is asked.

    Args:
        folder: where to.
        first: the first day.
        days: how many.
        readings: so many more readings a water run, in files of their own.
        yard: also the repairs, the sign-offs and the catalogue.
    """
    folder.mkdir(parents=True, exist_ok=True)
    paths: list[Path] = []
    for start, length in months(first, days):
        frames = dict(month_frames(start, (start - first).days, length, readings=readings))
        for feed, frame in {**frames, **(yard_frames(frames) if yard else {})}.items():
            path = folder / f"{feed}_{start:%Y-%m-%d}.parquet"
            frame.write_parquet(path, compression="zstd")
            paths.append(path)
    return paths


def yard_frames(frames: dict[str, pl.DataFrame]) -> dict[str, pl.DataFrame]:
    """A repair of each failed run, a sign-off of each unit, releases, and the catalogue of the codes."""
    tests = [
        frames[test].select("vin", "code", "zone", "ended_at", test=pl.lit(test))
        for test in FAIL_SHARE
    ]
    failed = pl.concat(tests).drop_nulls("code")
    signed_off = frames["units"].select(
        "vin", at=pl.col("line_off_at") + timedelta(hours=9), kind=pl.lit("signed_off")
    )
    released = failed.filter(pl.col("code").str.ends_with(SAFETY_RELATED)).select(
        "vin",
        at=pl.col("ended_at") + timedelta(hours=5),
        kind=pl.lit("release"),
        entered_by=pl.lit("quality"),
        reference=pl.lit("R-1"),
    )
    codes = failed.select("code").unique().sort("code")
    return {
        "repairs": failed.select(
            "vin",
            "test",
            "code",
            "zone",
            ended_at=pl.col("ended_at") + timedelta(minutes=60),
            action=pl.lit("sealed"),
            **{"class": pl.lit("repaired")},
        ),
        "events": pl.concat([signed_off, released], how="diagonal"),
        "defect_codes": codes.with_columns(
            title=pl.lit("Fault ") + pl.col("code"),
            severity=pl.lit("C"),
            owner_area=pl.lit("body"),
            safety_related=pl.col("code").str.ends_with(SAFETY_RELATED),
        ),
    }


def months(first: date, days: int) -> Iterator[tuple[date, int]]:
    """Split days into calendar months: first day and length of each."""
    last = first + timedelta(days=days)
    while first < last:
        following = (first.replace(day=1) + timedelta(days=32)).replace(day=1)
        upto = min(following, last)
        yield first, (upto - first).days
        first = upto


def month_frames(
    start: date, before: int, days: int, *, readings: int
) -> Iterator[tuple[str, pl.DataFrame]]:
    """Yield the feeds of some days; `before` is how many days of the plant came earlier."""
    rng = np.random.default_rng([before, days])
    units = days * UNITS_A_DAY
    numbers = before * UNITS_A_DAY + np.arange(units)
    midnight = datetime(start.year, start.month, start.day, tzinfo=UTC)
    seconds = np.arange(units) * (86_400 // UNITS_A_DAY)
    base = pl.DataFrame({"vin": [f"0ZZKA{n:012d}" for n in numbers], "second": seconds})
    at = pl.lit(midnight) + pl.duration(seconds=pl.col("second"))
    yield (
        "units",
        base.select(
            "vin",
            build_seq=pl.Series(numbers + 1),
            model=pl.Series(rng.choice(["WAG", "WAGL", "VAN"], units)),
            line_off_at=at,
            roof=pl.Series(rng.choice(["fixed", "opening"], units, p=[0.8, 0.2])),
        ),
    )
    for test in FAIL_SHARE:
        runs = test_frame(base, at, test, rng)
        yield test, runs
        if test == "water" and readings:
            yield "water_readings", reading_frame(runs, readings, rng)


def test_frame(
    base: pl.DataFrame, at: pl.Expr, test: str, rng: np.random.Generator
) -> pl.DataFrame:
    """Every unit once through a test, and again after a fail."""
    units = base.height
    failed = pl.Series("failed", rng.random(units) < FAIL_SHARE[test])
    first = base.with_columns(failed).select(
        "vin",
        station=pl.Series(rng.choice(STATIONS[test], units)),
        started_at=at + timedelta(minutes=MINUTES_AFTER[test]),
        result=pl.when("failed").then(pl.lit("fail")).otherwise(pl.lit("pass")),
        code=pl.when("failed").then(pl.Series(codes(test, units, rng))),
        zone=pl.when("failed").then(pl.lit("RR-QTR")),
        severity=pl.when("failed").then(pl.lit("C")),
        program=pl.lit("P1"),
    )
    again = first.filter(pl.col("result") == "fail").with_columns(
        pl.col("started_at") + timedelta(minutes=RETEST_MINUTES),
        result=pl.lit("pass"),
        code=pl.lit(None, dtype=pl.String),
        zone=pl.lit(None, dtype=pl.String),
        severity=pl.lit(None, dtype=pl.String),
    )
    runs = (
        pl.concat([first, again])
        .sort("started_at")
        .with_columns(ended_at=pl.col("started_at") + timedelta(seconds=SECONDS[test]))
    )
    if test != "water":
        return runs
    return runs.with_columns(
        pressure_kpa=pl.Series(np.round(rng.normal(250, 5, runs.height), 1)),
        duration_s=pl.Series(np.round(rng.normal(242, 2, runs.height), 1)),
    )


def reading_frame(runs: pl.DataFrame, count: int, rng: np.random.Generator) -> pl.DataFrame:
    """So many further readings of each water run, long."""
    keys = runs.select("vin", "station", "started_at")
    return pl.concat(
        [
            keys.with_columns(
                name=pl.lit(f"flow_{number:02d}"),
                value=pl.Series(np.round(rng.normal(10, 1, keys.height), 2)),
            )
            for number in range(count)
        ]
    ).sort("started_at")


def codes(test: str, count: int, rng: np.random.Generator) -> list[str]:
    """Codes of a test, the first ones the most frequent."""
    weights = 1 / np.arange(1, CODES_A_TEST + 1)
    drawn = rng.choice(CODES_A_TEST, count, p=weights / weights.sum())
    return [f"{test[:2].upper()}-{number:02d}" for number in drawn]
