"""Sends the report of a shift: once, and again only where a late file moved what it said."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path

from eol.errors import PlantFileError, ReportError, UsageError
from eol.facts.which_shift import last_shift, named_shift
from eol.mail.asked import Asked
from eol.mail.changes import late_runs, moved_since, reason_words, reports_since
from eol.mail.deliver import Delivery, deliver, mail_lock
from eol.mail.leave import leave, make_report
from eol.mail.message import letter_bytes
from eol.mail.record import publish_letters, writing
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings, read_settings
from eol.store.connect import open_copy
from eol.store.database import Database


@dataclass(frozen=True, slots=True)
class SendResult:
    """What a call of `send_report` did.

    Attributes:
        page: the page, where one was made in this call.
        mail: the file that a dry run wrote.
        message_id: the report made in this call; None where the shift's had left before, unchanged.
        deliveries: what became of each try, of this report and of others that waited.
    """

    page: Path | None
    mail: Path | None
    message_id: str | None
    deliveries: tuple[Delivery, ...] = ()

    @property
    def needs_a_look(self) -> bool:
        """True where a mail did not get through in this call."""
        return any(one.state not in ("sent", "large") for one in self.deliveries)


def send_report(
    folder: PlantFolder,
    *,
    shift: str | None = None,
    dry_run: bool = False,
    now: datetime | None = None,
) -> SendResult:
    """Send the report of a shift, and whatever waits to be sent.

    A report that has left is not sent again, unless a figure that it stated is another one now.

    Args:
        folder: the plant folder.
        shift: `DATE/SHIFT`; the last shift that ended by the data clock where None.
        dry_run: only write the mail into `reports`, as `2026-09-18_day.eml`; nothing is noted.
        now: the wall clock, UTC.

    Raises:
        UsageError: there is no such shift.
        PlantFileError: plant.toml is wrong or declares no mail.
        StoreError, ReportError, MailError: as their words tell; what waits is sent later.
    """
    settings, moment = read_settings(folder.toml), now or datetime.now(UTC)
    asked = _asked(folder, shift)
    if dry_run:
        made = make_report(folder, settings, replace(asked, ends_at=None), now=moment)
        mail = _write(made.page.with_suffix(".eml"), letter_bytes(made.whole))
        return SendResult(made.page, mail, made.message_id)
    _hold_declared(folder, settings)
    with mail_lock(folder):
        again = _again(folder, asked)
        made_now = leave(folder, settings, again, now=moment) if again else None
        tried = deliver(folder, settings.mail, now=moment, hurry=True)
        if made_now or tried.wrote:
            publish_letters(folder)
    page, letter = (made_now.page, made_now.message_id) if made_now else (None, None)
    return SendResult(page, None, letter, tried.deliveries)


def _asked(folder: PlantFolder, shift: str | None) -> Asked:
    with open_copy(folder) as copy:
        named = last_shift(copy) if shift is None else named_shift(copy, shift)
        if named is None:
            raise UsageError(
                "no shift has ended yet by the data received",
                hint="Load files with eol ingest, or name a shift with --shift DATE/SHIFT.",
            )
        return Asked(*named, ends_at=_ends_at(copy, *named))


def _ends_at(copy: Database, production_date: date, shift: str | None) -> datetime | None:
    found = copy.view("shift_window", production_date=production_date, shift=shift)["ends_at"]
    return found[0] if len(found) else None


def _again(folder: PlantFolder, asked: Asked) -> Asked | None:
    """The report to be made: the first one, or one that tells what moved; None where neither is due."""
    with writing(folder) as store:
        return again(store, asked)


def again(store: Database, asked: Asked) -> Asked | None:
    """Return which report of a shift is to be made, from what the store knows to have left."""
    key = (asked.production_date, asked.shift)
    since = asked.production_date
    left = {(one.production_date, one.shift): one for one in reports_since(store, since)}
    if key not in left:
        return asked
    moved = {(one.production_date, one.shift): one for one in moved_since(store, since)}
    if key not in moved:
        return None
    reason = reason_words(late_runs(store, left[key]))
    return Asked(*key, asked.ends_at, left[key].letters, moved[key].changes, reason)


def _hold_declared(folder: PlantFolder, settings: Settings) -> None:
    mail = settings.mail
    missing = [name for name in ("host", "sender", "to") if not getattr(mail, name)]
    if missing:
        raise PlantFileError(
            f"[mail] has no {', no '.join(missing)}",
            where=str(folder.toml),
            hint="Set them, or write the mail as a file with --dry-run.",
        )


def _write(path: Path, content: bytes) -> Path:
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        beside.write_bytes(content)
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        what, hint = (
            f"the mail cannot be written: {error.strerror}",
            "Make room, or mend its rights.",
        )
        raise ReportError(what, where=str(path), hint=hint) from error
    return path
