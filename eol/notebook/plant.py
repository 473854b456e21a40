"""A plant for a notebook or a script: SQL, one method a view and an answer, charts, and what it all means."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

import polars as pl
import pyarrow as pa

from eol.ask.dictionary import dictionary
from eol.ask.limits import Limits
from eol.ask.questions import ask_question
from eol.ask.session import open_session
from eol.ask.unit import UnitTrail, unit_trail
from eol.errors import UsageError
from eol.facts.actions import Action, action_facts
from eol.facts.shift import ShiftFacts, shift_facts
from eol.facts.status import PlantStatus, plant_status
from eol.facts.trace import trace_code
from eol.facts.trace_result import Trace
from eol.facts.which_shift import last_shift, named_shift
from eol.notebook.charts import Charts
from eol.notebook.docs import Docs
from eol.notebook.views import Views
from eol.plant.folder import PlantFolder, open_folder
from eol.plant.settings import read_settings
from eol.store.connect import open_copy


class OpenPlant(Views):
    """An open plant; it reads the published copy alone, the newest at each call, and writes nothing.

    Views come as methods, such as `plant.ftt_by_shift(shift="night")`; frames are polars frames, times UTC.

    Attributes:
        folder: its folder.
        attached: other data that SQL sees beside the copy, paths by name.
        limits: what a statement may take.
    """

    def __init__(
        self,
        folder: PlantFolder,
        *,
        attached: Mapping[str, Path] | None = None,
        limits: Limits | None = None,
    ) -> None:
        super().__init__(folder)
        self.attached = dict(attached or {})
        self.limits = limits or Limits()

    def sql(self, statement: str, **values: object) -> pl.DataFrame:
        """Run one statement and return its rows.

        Args:
            statement: SQL that reads the copy and what is attached.
            **values: values for its `$name`.

        Raises:
            UsageError: the statement is wrong, does more than read or goes past a limit.
        """
        with open_session(self.folder, attached=self.attached, limits=self.limits) as session:
            return session.ask(statement, values)

    def arrow(self, statement: str, **values: object) -> pa.Table:
        """Run one statement and return its rows as an Arrow table; as `sql` otherwise."""
        with open_session(self.folder, attached=self.attached, limits=self.limits) as session:
            return session.arrow(statement, values)

    def ask(self, question: str, **values: object) -> pl.DataFrame:
        """Ask a worked question, such as `rattle_by_lot`; `eol sql --ask` lists them.

        Raises:
            UsageError: there is no such question or value, or something has to be attached for it.
        """
        with open_session(self.folder, attached=self.attached, limits=self.limits) as session:
            return ask_question(session, question, values)

    def status(self, shift: str | None = None) -> PlantStatus:
        """Tell whether the figures of a shift can be believed; the last that ended where None.

        Raises:
            UsageError: the calendar has no such shift.
        """
        with open_copy(self.folder) as copy:
            return plant_status(copy, now=datetime.now(UTC), shift=shift)

    def shift(self, shift: str | None = None) -> ShiftFacts:
        """Return all that the page says of a shift, as values.

        Args:
            shift: `DATE/SHIFT`, such as `2026-09-14/night`; the last that ended where None.

        Raises:
            UsageError: there is no such shift, or none has ended yet.
        """
        report = read_settings(self.folder.toml).report
        with open_copy(self.folder) as copy:
            found = last_shift(copy) if shift is None else named_shift(copy, shift)
            if found is None:
                raise UsageError("no shift has ended yet by the data received")
            return shift_facts(
                copy,
                production_date=found[0],
                shift=found[1],
                target=report.target,
                usual_shifts=report.usual_shifts,
            )

    def unit(self, vin: str) -> UnitTrail:
        """Return everything known of a unit, in order.

        Raises:
            UsageError: the plant knows no such unit; the nearest VINs are named.
        """
        return unit_trail(self.folder, vin)

    def trace(self, code: str, *, zone: str | None = None, test: str | None = None) -> Trace:
        """Tell where a defect comes from: which attributes, places and times go with it.

        Raises:
            UsageError: nobody knows the code or the zone, or several tests have the code.
        """
        persons = read_settings(self.folder.toml).persons.figures
        with open_copy(self.folder) as copy:
            return trace_code(copy, code, zone=zone, test=test, persons=persons)

    def actions(self) -> tuple[Action, ...]:
        """Tell of each action whether it worked: by the order of building, with interval and verdict."""
        with open_copy(self.folder) as copy:
            return action_facts(copy)

    def charts(self, shift: str | None = None) -> Charts:
        """Return the charts of a shift; the last that ended where None.

        Raises:
            UsageError: there is no such shift, or none has ended yet.
        """
        return Charts(self.shift(shift))

    @property
    def docs(self) -> Docs:
        """What the tables, views and columns of the copy hold, in words."""
        return Docs(dictionary(self.folder))


def open_plant(
    folder: Path | str,
    *,
    attached: Mapping[str, Path | str] | None = None,
    limits: Limits | None = None,
) -> OpenPlant:
    """Open a plant to read.

    Args:
        folder: the plant folder.
        attached: other data that SQL is to see beside the copy: DuckDB files, folders or files of
            Parquet or CSV, paths by name.
        limits: how long a statement may run and how much memory it may take.

    Raises:
        PlantFileError: there is no plant in the folder.
    """
    paths = {name: Path(path) for name, path in (attached or {}).items()}
    return OpenPlant(open_folder(folder), attached=paths, limits=limits)
