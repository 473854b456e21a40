"""What the store keeps of mails: a row a recipient, the figures stated, and what became of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime

import polars as pl

from eol.mail.outbox import Kept
from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock
from eol.store.database import Database
from eol.store.publish import publish
from eol.store.stamp import stamps_due
from eol.store.upgrade import open_upgraded

_SENT = {
    "period": pl.String(),
    "production_date": pl.Date(),
    "shift": pl.String(),
    "recipient": pl.String(),
    "message_id": pl.String(),
    "state": pl.String(),
    "tries": pl.Int64(),
    "sent_at": pl.Datetime("us", "UTC"),
}
_TRIED = {
    name: kind for name, kind in _SENT.items() if name not in {"period", "production_date", "shift"}
}
FIGURES = {
    "message_id": pl.String(),
    "figure": pl.String(),
    "key": pl.String(),
    "n": pl.Int64(),
    "value": pl.Float64(),
    "low": pl.Float64(),
    "high": pl.Float64(),
}
"""The columns of `figure_sent`."""


@dataclass(frozen=True, slots=True)
class Leaving:
    """A report or an alarm about to leave, as the store keeps it.

    Attributes:
        period: `shift` or `alarm`.
        page: the file in `reports` that goes with it, which counts as a recipient; None for an alarm.
        figures: the rows of `figure_sent`, without their message_id.
    """

    period: str
    production_date: date
    shift: str | None
    message_id: str
    made_at: datetime
    recipients: tuple[str, ...]
    page: str | None
    figures: pl.DataFrame


@contextmanager
def writing(folder: PlantFolder) -> Iterator[Database]:
    """Open the store under its write lock, its schema up to date.

    Raises:
        StoreError: another process holds it for too long, or it cannot be used.
    """
    with write_lock(folder), open_upgraded(folder) as store:
        yield store


def known_letters(store: Database, message_ids: Sequence[str]) -> set[str]:
    """Return those of some mails that the store knows."""
    found = store.run("mail", "known_letters", message_ids=list(message_ids))
    return set(found["message_id"])


def note_leaving(store: Database, leaving: Leaving) -> None:
    """Write a report or an alarm down, in one transaction, before its first try."""
    rows = [_row(leaving, one, state="waiting", sent_at=None) for one in leaving.recipients]
    if leaving.page is not None:
        rows.append(_row(leaving, leaving.page, state="sent", sent_at=leaving.made_at))
    named = leaving.figures.with_columns(message_id=pl.lit(leaving.message_id))
    figures = named.select(pl.col(name).cast(kind) for name, kind in FIGURES.items())
    with store.transaction():
        with store.lent("arriving", pl.DataFrame(rows, schema=_SENT, orient="row")):
            store.run("mail", "note_letter")
        with store.lent("arriving", figures):
            store.run("mail", "note_figures")


def note_tries(store: Database, mails: Sequence[Kept]) -> None:
    """Bring the rows of mails to what their journals tell; doing it again changes nothing."""
    rows = [_tried(mail, recipient) for mail in mails for recipient in mail.recipients]
    with (
        store.transaction(),
        store.lent("arriving", pl.DataFrame(rows, schema=_TRIED, orient="row")),
    ):
        store.run("mail", "note_tries")


def publish_letters(folder: PlantFolder) -> None:
    """Publish what was written down; a load under way publishes it itself.

    Raises:
        StoreError: the store or the copy cannot be used.
    """
    with write_lock(folder):
        with open_store(folder) as store:
            due = stamps_due(store)
        if not due:
            publish(folder)


def _row(
    leaving: Leaving, recipient: str, *, state: str, sent_at: datetime | None
) -> tuple[object, ...]:
    named = (leaving.period, leaving.production_date, leaving.shift, recipient, leaving.message_id)
    return (*named, state, int(sent_at is not None), sent_at)


def _tried(mail: Kept, recipient: str) -> tuple[object, ...]:
    tries = mail.tries_of(recipient)
    sent = next((one.at for one in tries if one.outcome.state == "sent"), None)
    return (recipient, mail.message_id, mail.state_of(recipient), len(tries), sent)
