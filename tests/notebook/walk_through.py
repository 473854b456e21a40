# %% [markdown]
# # A morning with the demo plant
# Each cell runs on its own after the first; in a terminal: `python walk_through.py quillbrook`.

# %%
import sys

import polars as pl

import eol

plant = eol.open_plant(sys.argv[1] if len(sys.argv) > 1 else "quillbrook")
plant.docs

# %% Can the figures of the shift be believed?
SHIFT = "2026-09-14/night"
status = plant.status(SHIFT)
assert status.belief is not None
for remark in status.belief.remarks:
    print(remark.kind, "-", remark.text)

# %% How many went through, and what failed?
ftt = plant.ftt_by_shift(shift="night").filter(pl.col("production_date") == pl.date(2026, 9, 14))
print(ftt.select("test", "tested", "passed_first", "ftt", "low", "high"))
charts = plant.charts(SHIFT)
charts.pareto()

# %% The water test is low. Which build window leaks, and what did the robot lay there?
windows = plant.ask("leaks_by_build_window", zone="RR-QTR", window=400)
worst = windows.sort("per_100", descending=True).head(3)
print(
    worst.select(
        "from_build_seq", "to_build_seq", "robot", "units", "leaking", "bead_median_of_leaking"
    )
)
assert set(worst["robot"]) == {"R07"}

# %% Does each bay see the same? One lets far more through than the others did in the same shifts.
bays = plant.ask("bays_side_by_side", first_date="2026-09-07", last_date="2026-09-10")
print(bays)
assert bays.row(0, named=True)["bay"] == "B"

# %% Its pressure fell before its limit was passed.
pressure = plant.ask("condition_by_bay", name="pressure_kpa").filter(pl.col("bay") == "B")
print(pressure.select("production_date", "shift", "median", "lower_limit", "under").tail(24))

# %% The next question, in SQL: how many of that bay's void passes are on the road?
shipped = plant.sql(
    """
    SELECT count(DISTINCT run.vin) AS units
    FROM run
    JOIN escape USING (vin, test)
    WHERE run.bay = $bay AND run.void_reason = 'weak' AND escape.reason = 'void'
    """,
    bay="B",
)
print(shipped)
assert shipped.item() > 100

# %% What is known of one of them?
vin = plant.escape(test="water", reason="void")["vin"][0]
trail = plant.unit(vin)
print(trail.rows.select("at", "what"))
