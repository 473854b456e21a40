"""Writes computed figures into the table `answer`; never part of a load.

A report or a command makes them; they are written only where they differ from what is there. A large store
is not published for them: the copy has them with the next load, or the next turn of `eol run`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import asdict
from datetime import date

import polars as pl

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy, write_lock
from eol.store.database import Database
from eol.store.publish import publish_small
from eol.store.stamp import stamps_due
from eol.store.upgrade import open_upgraded
from eol.words import Answer

_SCHEMA = {
    "production_date": pl.Date(),
    "shift": pl.String(),
    "question": pl.String(),
    "test": pl.String(),
    "code": pl.String(),
    "zone": pl.String(),
    "subject": pl.String(),
    "name": pl.String(),
    "n": pl.Int64(),
    "value": pl.Float64(),
    "low": pl.Float64(),
    "high": pl.Float64(),
    "words": pl.String(),
    "method": pl.String(),
}


def write_answers(
    folder: PlantFolder,
    production_date: date,
    shift: str | None,
    rows: Sequence[Answer],
    *,
    questions: Collection[str] | None = None,
    wait_seconds: float = 60,
) -> bool:
    """Replace a shift's answers to some questions; the copy that is read has them at once where it is small.

    Args:
        folder: the plant folder.
        production_date: day of the shift.
        shift: its name; None for what was tested between shifts.
        rows: the answers.
        questions: the questions asked, so that an old answer to one that has none now goes; those
            of the rows where None. Answers to other questions stay.
        wait_seconds: how long to wait for another process that writes.

    Returns:
        True where something was written; False where the same answers were there, which takes no lock
        where the copy has them.

    Raises:
        StoreError: there is no store, another process wrote for the whole wait, or the disk is full.
    """
    asked = sorted({row.question for row in rows} | set(questions or ()))
    wanted = _frame(production_date, shift, rows)
    with open_copy(folder) as copy:
        if _there(copy, production_date, shift, asked).equals(wanted):
            return False
    if not folder.store.exists():
        raise StoreError("there is no store to write answers to", where=str(folder.store))
    try:
        with write_lock(folder, wait_seconds=wait_seconds):
            return _replaced(folder, production_date, shift, asked, wanted)
    except OSError as error:
        raise StoreError(
            f"the store cannot be written: {error.strerror}", where=str(folder.store)
        ) from error


def _replaced(
    folder: PlantFolder,
    production_date: date,
    shift: str | None,
    asked: list[str],
    wanted: pl.DataFrame,
) -> bool:
    """Write the rows in one transaction where they are not there; publish a small store."""
    with open_upgraded(folder) as store:
        new = not _there(store, production_date, shift, asked).equals(wanted)
        if new:
            with store.transaction(), store.lent("arriving", wanted):
                store.run(
                    "load",
                    "replace_answers",
                    production_date=production_date,
                    shift=shift,
                    questions=asked,
                )
        due = stamps_due(store)
    if not due:
        publish_small(folder)
    return new


def _there(
    database: Database, production_date: date, shift: str | None, asked: list[str]
) -> pl.DataFrame:
    """The answers that a database holds, in the order of `_frame`."""
    if not database.has_relation("answer"):
        return pl.DataFrame(schema=_SCHEMA)
    found = database.view("answer", production_date=production_date, shift=shift)
    return _ordered(found.filter(pl.col("question").is_in(asked)))


def _frame(production_date: date, shift: str | None, rows: Iterable[Answer]) -> pl.DataFrame:
    of_shift = {"production_date": production_date, "shift": shift}
    return _ordered(pl.DataFrame([of_shift | asdict(row) for row in rows], schema=_SCHEMA))


def _ordered(frame: pl.DataFrame) -> pl.DataFrame:
    return frame.select(pl.col(name).cast(kind) for name, kind in _SCHEMA.items()).sort(
        *_SCHEMA, nulls_last=True
    )
