"""The yardstick for memory: the same figures by a plain polars script that keeps nothing."""

from __future__ import annotations

import sys
from pathlib import Path

import polars as pl

folder = Path(sys.argv[1])
tests = ("electrical", "water", "squeak_rattle")
units = pl.concat(
    [pl.read_parquet(path) for path in sorted(folder.glob("units_*.parquet"))], how="diagonal"
)
runs = pl.concat(
    [
        pl.read_parquet(path).with_columns(test=pl.lit(test))
        for test in tests
        for path in sorted(folder.glob(f"{test}_2*.parquet"))
    ],
    how="diagonal",
).join(units.select("vin", "model"), on="vin", how="left")
local = pl.col("ended_at").dt.convert_time_zone("Europe/Berlin")
hour = local.dt.hour()
runs = runs.with_columns(
    shift=pl.when(hour.is_between(6, 13))
    .then(pl.lit("early"))
    .when(hour.is_between(14, 21))
    .then(pl.lit("late"))
    .otherwise(pl.lit("night")),
    production_date=pl.when(hour >= 6)
    .then(local.dt.date())
    .otherwise(local.dt.date() - pl.duration(days=1)),
)
weak = (pl.col("test") == "water") & (pl.col("result") == "pass") & (pl.col("pressure_kpa") < 220)
counted = runs.filter(~weak.fill_null(False)).sort("vin", "test", "started_at")
first = counted.unique(["vin", "test"], keep="first", maintain_order=True)
keys = ["production_date", "shift", "test"]
ftt = first.group_by(keys).agg(tested=pl.len(), passed=(pl.col("result") == "pass").sum())
seen = counted.join(first.select("vin", "test", "started_at"), on=["vin", "test", "started_at"])
defects = seen.filter(pl.col("code").is_not_null()).unique(["vin", "test", "code", "zone"])
pareto = defects.group_by(*keys, "code").agg(defects=pl.len())
print(ftt.height, round((ftt["passed"] / ftt["tested"]).mean(), 6), pareto.height)
