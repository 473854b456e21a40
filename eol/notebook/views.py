"""The views of a plant as methods: one a view, its rows as a frame; made to match `queries/views` by test."""

from __future__ import annotations

from datetime import date, datetime

import polars as pl

from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

Equal = str | int | float | bool | date | datetime | None
"""What a column may be asked to equal; None asks for null."""


class Views:
    """The views of the published copy; each call reads the newest copy.

    A method takes columns by name, such as `shift="night"`, and gives the rows that equal them.
    """

    def __init__(self, folder: PlantFolder) -> None:
        self.folder = folder

    def table(self, name: str, /, **equals: Equal) -> pl.DataFrame:
        """Return the rows of any table or view of the copy, such as `run` or `answer`.

        Raises:
            UsageError: there is none of that name.
            StoreError: nothing has been published yet.
        """
        with open_copy(self.folder) as copy:
            return copy.view(name, **equals)

    def as_of(self, **equals: Equal) -> pl.DataFrame:
        """One row is the data clock: the newest run end or event time received, never later than the load."""
        return self.table("as_of", **equals)

    def attribute_latest(self, **equals: Equal) -> pl.DataFrame:
        """One row is the latest value of an attribute of a unit (rule 10); key vin, name."""
        return self.table("attribute_latest", **equals)

    def catalogue(self, **equals: Equal) -> pl.DataFrame:
        """One row is what the catalogue says of a code in a test for a span of time.

        One row is what the catalogue says of a code in a test for a span of time (rules 4 and 12); key
        code, test, from_at.
        """
        return self.table("catalogue", **equals)

    def run_of_unit(self, **equals: Equal) -> pl.DataFrame:
        """One row is a run with its unit and the crew of its shift, counted or not, of a unit of any kind.

        One row is a run with its unit and the crew of its shift, counted or not, of a unit of any kind; key
        run_id.
        """
        return self.table("run_of_unit", **equals)

    def classed_finding(self, **equals: Equal) -> pl.DataFrame:
        """One row is a finding of any run with what the catalogue said of it at the run's end.

        One row is a finding of any run with what the catalogue said of it at the run's end (rules 4, 8,
        12); key run_id, code, zone, step.
        """
        return self.table("classed_finding", **equals)

    def defect_all(self, **equals: Equal) -> pl.DataFrame:
        """One row is a defect of a unit of any kind.

        One row is a defect of a unit of any kind: a code x zone on attempt 1 (rule 8); key run_id, code,
        zone.
        """
        return self.table("defect_all", **equals)

    def defect(self, **equals: Equal) -> pl.DataFrame:
        """One row is a defect of a production unit.

        One row is a defect of a production unit: a code x zone on attempt 1 (rules 8 and 13); key run_id,
        code, zone.
        """
        return self.table("defect", **equals)

    def first_run_all(self, **equals: Equal) -> pl.DataFrame:
        """One row is attempt 1 of a unit of any kind in a test (rule 7); key vin, test."""
        return self.table("first_run_all", **equals)

    def first_run(self, **equals: Equal) -> pl.DataFrame:
        """One row is attempt 1 of a production unit in a test (rules 7 and 13); key vin, test."""
        return self.table("first_run", **equals)

    def tested_unit(self, **equals: Equal) -> pl.DataFrame:
        """One row is a production unit x test at its first counted run, without its findings.

        One row is a production unit x test at its first counted run, without its findings (rules 7 and 13);
        key vin, test.
        """
        return self.table("tested_unit", **equals)

    def station_latest(self, **equals: Equal) -> pl.DataFrame:
        """One row is a station and the newest run it has sent, of any test and any kind of unit.

        One row is a station and the newest run it has sent, of any test and any kind of unit (rules 11 and
        14).
        """
        return self.table("station_latest", **equals)

    def ftt_by_shift(self, **equals: Equal) -> pl.DataFrame:
        """One row is the first-time-through of a test in a shift, of production units.

        One row is the first-time-through of a test in a shift, of production units (rules 9, 11, 13, 16);
        key production_date, shift, test.
        """
        return self.table("ftt_by_shift", **equals)

    def dphu_by_shift(self, **equals: Equal) -> pl.DataFrame:
        """One row is the defects per hundred units of a test in a shift, of production units.

        One row is the defects per hundred units of a test in a shift, of production units (rules 8, 9, 13,
        16); key production_date, shift, test.
        """
        return self.table("dphu_by_shift", **equals)

    def shift_cover(self, **equals: Equal) -> pl.DataFrame:
        """One row is a shift x one of the 20 shifts that end with it.

        One row is a shift x one of the 20 shifts that end with it; key production_date, shift, part_date,
        part_shift.
        """
        return self.table("shift_cover", **equals)

    def scoped_unit(self, **equals: Equal) -> pl.DataFrame:
        """One row is a tested production unit x test within a shift.

        One row is a tested production unit x test within a shift, or within the 20 shifts that end with it
        (rules 7 and 13); key windows, production_date, shift, run_id.
        """
        return self.table("scoped_unit", **equals)

    def unit_at_risk(self, **equals: Equal) -> pl.DataFrame:
        """One row is a first run of a production unit x code with applies_when.

        One row is a first run of a production unit x code with applies_when: whether the unit can have the
        code (rule 10); key windows, production_date, shift, run_id, code.
        """
        return self.table("unit_at_risk", **equals)

    def pareto_by_shift(self, **equals: Equal) -> pl.DataFrame:
        """One row is a code with a defect of production units in a test and shift.

        One row is a code with a defect of production units in a test and shift (rules 8, 10, 13); key
        production_date, shift, test, code.
        """
        return self.table("pareto_by_shift", **equals)

    def lacking_proof(self, **equals: Equal) -> pl.DataFrame:
        """One row is a production unit past a proof event, not clear in a required test and not released.

        One row is a production unit past a proof event, not clear in a required test and not released (rule
        14); key vin, test.
        """
        return self.table("lacking_proof", **equals)

    def escape(self, **equals: Equal) -> pl.DataFrame:
        """One row is a production unit past a proof event, not clear in a required test and not released.

        One row is a production unit past a proof event, not clear in a required test and not released (rule
        14); key vin, test.
        """
        return self.table("escape", **equals)

    def unproven(self, **equals: Equal) -> pl.DataFrame:
        """One row is a production unit past a proof event whose proof may still come from a silent station.

        One row is a production unit past a proof event whose proof may still come from a silent station
        (rule 14); key vin, test.
        """
        return self.table("unproven", **equals)

    def line_standing(self, **equals: Equal) -> pl.DataFrame:
        """One row is a production unit that left the line x test required of it or run.

        One row is a production unit that left the line x test required of it or run (rules 11 and 13); key
        vin, test.
        """
        return self.table("line_standing", **equals)

    def line_by_shift(self, **equals: Equal) -> pl.DataFrame:
        """One row is the units that left the line in a shift, all required tests together.

        One row is the units that left the line in a shift, all required tests together, of production units
        (rules 11, 12, 13, 16); key production_date, shift.
        """
        return self.table("line_by_shift", **equals)

    def open_unit(self, **equals: Equal) -> pl.DataFrame:
        """One row is a production unit x test in which it is not clear, where required or failed.

        One row is a production unit x test in which it is not clear, where required or failed; scrapped and
        diverted units are not open; key vin, test.
        """
        return self.table("open_unit", **equals)

    def bay_by_shift(self, **equals: Equal) -> pl.DataFrame:
        """One row is a bay of a test in a shift, of production units.

        One row is a bay of a test in a shift, of production units (rules 9, 13, 16); key production_date,
        shift, test, station, bay.
        """
        return self.table("bay_by_shift", **equals)

    def ftt_by_build(self, **equals: Equal) -> pl.DataFrame:
        """One row is the first-time-through of a test over the units.

        One row is the first-time-through of a test over the units of a model that left the line in a shift
        (rules 9, 11, 13, 16); key production_date, shift, model, test.
        """
        return self.table("ftt_by_build", **equals)

    def pareto_window(self, **equals: Equal) -> pl.DataFrame:
        """One row is a code with a defect of production units in a test.

        One row is a code with a defect of production units in a test, over the 20 shifts that end with this
        one (rules 8, 10, 13); key production_date, shift, test, code.
        """
        return self.table("pareto_window", **equals)

    def reference_check(self, **equals: Equal) -> pl.DataFrame:
        """One row is a counted run of a reference unit in its declared test.

        One row is a counted run of a reference unit in its declared test: a check of the bench (rule 13);
        key run_id.
        """
        return self.table("reference_check", **equals)

    def unchecked(self, **equals: Equal) -> pl.DataFrame:
        """One row is a counted pass.

        One row is a counted pass of a production unit from a bay that failed its check before the next good
        one (rule 13); key run_id.
        """
        return self.table("unchecked", **equals)

    def fail_loop(self, **equals: Equal) -> pl.DataFrame:
        """One row is a loop of a production unit in a test.

        One row is a loop of a production unit in a test, from its first counted fail since the last counted
        pass to the next counted pass (rules 7 and 15); key run_id.
        """
        return self.table("fail_loop", **equals)

    def fail_to_clear(self, **equals: Equal) -> pl.DataFrame:
        """One row is a loop of a production unit in a test.

        One row is a loop of a production unit in a test, from its first counted fail to the counted pass
        that ended it (rule 15); key run_id.
        """
        return self.table("fail_to_clear", **equals)

    def unit_timeline(self, **equals: Equal) -> pl.DataFrame:
        """One row is something that happened to a unit of any kind, or was found on it.

        One row is something that happened to a unit of any kind, or was found on it; order by at, step_no.
        """
        return self.table("unit_timeline", **equals)

    def feed_status(self, **equals: Equal) -> pl.DataFrame:
        """One row is a station of a test, or a feed without stations.

        One row is a station of a test, or a feed without stations: what it sent last (rule 14); key feed,
        station.
        """
        return self.table("feed_status", **equals)

    def figure_now(self, **equals: Equal) -> pl.DataFrame:
        """One row is a figure that a report states, as it stands now; key figure, key."""
        return self.table("figure_now", **equals)

    def figure_change(self, **equals: Equal) -> pl.DataFrame:
        """One row is a figure that was sent or settled and is another now.

        One row is a figure that was sent or settled and is another now (rule 4); key message_id, figure,
        key.
        """
        return self.table("figure_change", **equals)

    def release_given(self, **equals: Equal) -> pl.DataFrame:
        """One row is a release that someone gave by name and on a paper (rule 14); key event_id."""
        return self.table("release_given", **equals)

    def safety_listed(self, **equals: Equal) -> pl.DataFrame:
        """One row is a safety-related finding of a production unit's fail that no later release covers.

        One row is a safety-related finding of a production unit's fail that no later release covers (rules
        4 and 15); key vin, test, code, zone.
        """
        return self.table("safety_listed", **equals)
