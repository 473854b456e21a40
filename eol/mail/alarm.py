"""Mails each alarm once: it is written down with its mail, before the first try."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import datetime, timedelta

import polars as pl

from eol.errors import PlantFileError
from eol.mail import outbox
from eol.mail.alarms import Alarm, alarms, summary
from eol.mail.leave import message_id
from eol.mail.letter import NOT_PROTECTIVE, rendered
from eol.mail.message import Letter, letter_bytes, one_line
from eol.mail.outbox import Kept
from eol.mail.record import FIGURES, Leaving, note_leaving, writing
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings
from eol.report.formats import Form, moment_words, written_as
from eol.store.connect import open_copy
from eol.store.database import Database
from eol.words import CAUTION

FRESH = timedelta(hours=24)
"""What is older belongs to the reports; a plant that switches alarms on is not told its history."""

SHOWN_UNITS = 12


def raise_alarms(folder: PlantFolder, settings: Settings, *, now: datetime) -> tuple[Alarm, ...]:
    """Write a mail of all alarms that were not told before; it then waits in the outbox.

    The caller holds `mail_lock`.

    Returns:
        The alarms of this mail; empty where there is none, or alarms are off.

    Raises:
        PlantFileError: alarms are on, but nobody is named to get them.
        StoreError: the store cannot be used.
    """
    if not settings.alarm.on:
        return ()
    recipients = settings.alarm.to or settings.mail.to
    if not (recipients and settings.mail.host and settings.mail.sender):
        raise PlantFileError(
            "alarms are on, but nobody gets them",
            where=f"{folder.toml}, [alarm]",
            hint="Set host and sender in [mail], and to in [alarm] or [mail].",
        )
    with (
        open_copy(folder) as copy,
        written_as(Form(settings.report.dates, settings.report.decimal)),
    ):
        found = alarms(copy, settings.alarm, since=now - FRESH)
        if not found or not _untold(copy, found):
            return ()
        with writing(folder) as store:
            fresh = _untold(store, found)
            if fresh:
                clock = copy.run("page", "plant")["data_clock"].item()
                letter = _letter(settings, fresh, recipients, clock, now)
                _keep(folder, letter, now)
                note_leaving(store, _leaving(settings, fresh, letter, now))
    return tuple(fresh)


def _untold(database: Database, found: Sequence[Alarm]) -> list[Alarm]:
    told = set(database.run("mail", "alarms_known").iter_rows())
    return [alarm for alarm in found if (f"alarm.{alarm.kind}", alarm.key) not in told]


def _letter(
    settings: Settings,
    fresh: Sequence[Alarm],
    recipients: tuple[str, ...],
    clock: datetime | None,
    now: datetime,
) -> Letter:
    told = hashlib.sha256("\n".join(alarm.key for alarm in fresh).encode()).hexdigest()[:12]
    subject = one_line(f"[alarm] {settings.plant.name}: {summary(fresh)}")
    context = {
        "subject": subject,
        "preheader": " ".join(f"{alarm.head}. {alarm.start}" for alarm in fresh)[:160],
        "title": f"Alarm: {summary(fresh)}",
        "plant": settings.plant.name,
        "data_clock": moment_words(clock),
        "alarms": fresh,
        "shown": SHOWN_UNITS,
        "received": f"From data received up to {moment_words(clock)}.",
        "caution": CAUTION.replace("This page", "This mail"),
        "not_protective": NOT_PROTECTIVE,
    }
    return Letter(
        message_id=message_id(settings, "alarm", now.date(), told),
        sender=settings.mail.sender or "",
        recipients=recipients,
        subject=subject,
        made_at=now.astimezone(settings.plant.zone),
        text=rendered("alarm.txt", context),
        html=rendered("alarm.html", context),
    )


def _keep(folder: PlantFolder, letter: Letter, now: datetime) -> None:
    mail = Kept(
        stem=letter.message_id.strip("<>").partition("@")[0],
        message_id=letter.message_id,
        sender=letter.sender,
        recipients=letter.recipients,
        made_at=now,
    )
    content = letter_bytes(letter)
    outbox.keep(folder.outbox, mail, whole=content, small=content)


def _leaving(settings: Settings, fresh: Sequence[Alarm], letter: Letter, now: datetime) -> Leaving:
    """An alarm's rows in `figure_sent` have no number: they say that it was told."""
    told = pl.DataFrame(
        [(f"alarm.{alarm.kind}", alarm.key) for alarm in fresh],
        schema={"figure": pl.String(), "key": pl.String()},
        orient="row",
    )
    missing = [pl.lit(None, kind).alias(name) for name, kind in FIGURES.items() if name in _NUMBERS]
    return Leaving(
        period="alarm",
        production_date=now.astimezone(settings.plant.zone).date(),
        shift=None,
        message_id=letter.message_id,
        made_at=now,
        recipients=letter.recipients,
        page=None,
        figures=told.with_columns(missing),
    )


_NUMBERS = ("n", "value", "low", "high")
