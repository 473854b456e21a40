"""Makes the page and the mail of a shift, and writes both down before the first try."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

import polars as pl

from eol.facts.late import LATE
from eol.facts.reader import Reader
from eol.facts.shift import ShiftFacts, shift_facts
from eol.mail import outbox
from eol.mail.asked import Asked
from eol.mail.letter import Occasion, shift_letters
from eol.mail.message import Attachment, Letter, letter_bytes
from eol.mail.outbox import Kept
from eol.mail.record import Leaving, known_letters, note_leaving, writing
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings
from eol.report.formats import Form, moment_words, written_as
from eol.report.plant import keep_answers
from eol.report.shift import write_page
from eol.store.connect import open_copy

NOBODY = "eol@localhost"
"""Sender and recipient of a mail that is only written as a file, where [mail] names none."""


@dataclass(frozen=True, slots=True)
class Made:
    """A report made: its page, its mail with and without the page, and the figures that it states."""

    page: Path
    whole: Letter
    small: Letter
    figures: pl.DataFrame

    @property
    def message_id(self) -> str:
        """What names it, the same in every process."""
        return self.whole.message_id


def make_report(folder: PlantFolder, settings: Settings, asked: Asked, *, now: datetime) -> Made:
    """Write the page of a shift and make its mail, from one and the same copy.

    Args:
        folder: the plant folder.
        settings: plant.toml.
        asked: which report.
        now: the wall clock, UTC; the mail's Date.

    Raises:
        StoreError: nothing has been loaded yet.
        ReportError: page or pictures cannot be drawn or written.
    """
    with open_copy(folder) as copy:
        facts = _facts(copy, settings, asked)
        figures = copy.run(
            "mail", "figures", production_date=asked.production_date, shift=asked.shift
        )
    facts = keep_answers(folder, facts)
    form = Form(settings.report.dates, settings.report.decimal)
    page = write_page(facts, folder.reports, paper=settings.report.paper, form=form)
    attachment = Attachment(page.name, page.read_bytes())
    with written_as(form):
        whole, small = shift_letters(facts, _occasion(settings, asked, now), attachment)
    return Made(page, whole, small, figures)


def leave(folder: PlantFolder, settings: Settings, asked: Asked, *, now: datetime) -> Made:
    """Make a report and write it down; its mail then waits in the outbox. The caller holds `mail_lock`.

    A report that an interrupted process has written down already stays as that one made it.

    Raises:
        StoreError: the store cannot be used.
        ReportError: page or pictures cannot be drawn or written.
        MailError: the outbox cannot be written to.
    """
    made = make_report(folder, settings, asked, now=now)
    recipients = settings.mail.to if settings.mail.host and settings.mail.sender else ()
    with writing(folder) as store:
        if not known_letters(store, [made.message_id]):
            if recipients:
                keep_for(folder, made, recipients, now)
            note_leaving(store, _leaving(asked, made, recipients, now))
    return made


def message_id(settings: Settings, *parts: object) -> str:
    """Return a Message-ID from the plant and what names a report: the same on every try."""
    words = [settings.plant.name, *(str(part) for part in parts)]
    # The words are for people; the sum keeps apart what they write alike.
    digest = hashlib.sha256("\x1f".join(words).encode()).hexdigest()[:10]
    domain = (settings.mail.sender or "eol@eol.invalid").partition("@")[2]
    domain = domain if domain.isascii() else "eol.invalid"
    return f"<{'.'.join([*(slug(word) for word in words), digest])}@{domain}>"


def slug(text: str) -> str:
    """Return a text in small letters, digits and dashes; `x` where nothing is left of it."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40] or "x"


def _facts(copy: Reader, settings: Settings, asked: Asked) -> ShiftFacts:
    return shift_facts(
        copy,
        production_date=asked.production_date,
        shift=asked.shift,
        target=settings.report.target,
        usual_shifts=settings.report.usual_shifts,
        grace=settings.schedule.grace,
    )


def _occasion(settings: Settings, asked: Asked, now: datetime) -> Occasion:
    return Occasion(
        message_id=message_id(
            settings, asked.production_date, asked.shift or "between", asked.revision
        ),
        sender=settings.mail.sender or NOBODY,
        recipients=settings.mail.to or (NOBODY,),
        made_at=now.astimezone(settings.plant.zone),
        late=_late(settings, asked, now),
        changes=asked.changes,
        reason=asked.reason,
    )


def _late(settings: Settings, asked: Asked, now: datetime) -> str:
    """A sentence where the first report of a shift is made long after it was due."""
    if asked.ends_at is None or asked.revision:
        return ""
    due = asked.ends_at + timedelta(seconds=settings.schedule.grace)
    if now - due <= LATE:
        return ""
    zone = settings.plant.zone
    was, made = moment_words(due.astimezone(zone)), moment_words(now.astimezone(zone))
    return f"This report is late: it was due {was} and was made {made}."


def keep_for(folder: PlantFolder, made: Made, recipients: tuple[str, ...], now: datetime) -> None:
    """Put a report's mail into the outbox, for some recipients.

    Raises:
        MailError: the outbox cannot be written to.
    """
    mail = Kept(
        stem=made.message_id.strip("<>").partition("@")[0],
        message_id=made.message_id,
        sender=made.whole.sender,
        recipients=recipients,
        made_at=now,
    )
    outbox.keep(folder.outbox, mail, whole=letter_bytes(made.whole), small=letter_bytes(made.small))


def _leaving(asked: Asked, made: Made, recipients: tuple[str, ...], now: datetime) -> Leaving:
    return Leaving(
        period="shift",
        production_date=asked.production_date,
        shift=asked.shift,
        message_id=made.message_id,
        made_at=now,
        recipients=recipients,
        page=made.page.name,
        figures=made.figures,
    )
