"""The yardstick: a plain pandas script that reads the same files and prints the same three figures by shift."""

from __future__ import annotations

import sys
from pathlib import Path

import pandas as pd

folder = Path(sys.argv[1])
tests = ("electrical", "water", "squeak_rattle")
units = pd.concat(pd.read_parquet(path) for path in sorted(folder.glob("units_*.parquet")))
frames = []
for test in tests:
    files = sorted(folder.glob(f"{test}_2*.parquet"))
    frames.append(pd.concat(pd.read_parquet(path) for path in files).assign(test=test))
runs = pd.concat(frames)
runs = runs.merge(units[["vin", "model"]], on="vin", how="left")

local = runs["ended_at"].dt.tz_convert("Europe/Berlin")
hour = local.dt.hour
runs["shift"] = "night"
runs.loc[(hour >= 6) & (hour < 14), "shift"] = "early"
runs.loc[(hour >= 14) & (hour < 22), "shift"] = "late"
day = local.dt.normalize().dt.tz_localize(None)
runs["production_date"] = day.where(hour >= 6, day - pd.Timedelta(days=1))

weak = (runs["test"] == "water") & (runs["result"] == "pass") & (runs["pressure_kpa"] < 220)
counted = runs[~weak].sort_values(["vin", "test", "started_at"])
starts = counted.drop_duplicates(["vin", "test", "started_at"])
first = starts.drop_duplicates(["vin", "test"])
keys = ["production_date", "shift", "test"]

ftt = first.groupby(keys)["result"].agg(tested="size", passed=lambda r: (r == "pass").sum())
ftt["ftt"] = ftt["passed"] / ftt["tested"]
seen = counted.merge(first[["vin", "test", "started_at"]], on=["vin", "test", "started_at"])
defects = seen[seen["code"].notna()].drop_duplicates(["vin", "test", "code", "zone"])
dphu = 100 * defects.groupby(keys).size() / ftt["tested"]
pareto = defects.groupby([*keys, "code"]).size().rename("defects").reset_index()
pareto["rank"] = pareto.groupby(keys)["defects"].rank(method="min", ascending=False)
print(len(ftt), round(float(ftt["ftt"].mean()), 6), round(float(dphu.mean()), 6), len(pareto))
