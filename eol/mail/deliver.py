"""Tries every mail that waits in the outbox, recipient by recipient, and writes down what became of it."""

from __future__ import annotations

import smtplib
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from filelock import FileLock, Timeout

from eol.errors import MailError
from eol.mail import outbox
from eol.mail.outbox import Kept, Try
from eol.mail.record import known_letters, note_tries, writing
from eol.mail.relay import Outcome, hand_over, outcome_of, relay_of, session
from eol.mail.secrets import read_login
from eol.plant.folder import PlantFolder
from eol.plant.sections import MailSettings

SETTINGS_AGAIN = timedelta(days=1)
"""How long a fault of the settings rests where nothing was mended: wrong passwords close accounts."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """What became of one mail for one recipient in this pass; `state` is an outcome's."""

    message_id: str
    recipient: str
    state: str
    words: str


@dataclass(frozen=True, slots=True)
class Pass:
    """What one pass over the outbox did; `wrote` where the store now holds what is not published."""

    deliveries: tuple[Delivery, ...] = ()
    wrote: bool = False


@contextmanager
def mail_lock(folder: PlantFolder, *, wait_seconds: float = 60) -> Iterator[None]:
    """Let one process at a time compose and send; the lock goes with the process.

    Raises:
        MailError: another process held it for the whole wait.
    """
    try:
        with FileLock(folder.mail_lock, timeout=wait_seconds):
            yield
    except Timeout as error:
        raise MailError(
            f"another process has been sending mails for {wait_seconds:.0f} s",
            where=str(folder.root),
            hint="Wait for it; nothing is sent twice.",
        ) from error


def deliver(folder: PlantFolder, mail: MailSettings, *, now: datetime, hurry: bool = False) -> Pass:
    """Try the mails that are due, the oldest first. The caller holds `mail_lock`.

    Args:
        folder: the plant folder.
        mail: the section `[mail]`.
        now: the wall clock, UTC.
        hurry: try again at once what is waiting for its next try.

    Returns:
        What became of each try; nothing where nothing was due. What a killed pass left is written
        down too.

    Raises:
        MailError: the outbox cannot be used.
        StoreError: the store cannot be used; what was sent stands in the outbox's journals.
    """
    there = outbox.kept(folder.outbox)
    due = {one.stem: _due(folder, one, mail, now=now, hurry=hurry) for one in there}
    work = [one for one in there if due[one.stem] or not one.waiting]
    if not work:
        return Pass()
    work = _without_strangers(folder, work)
    made = list(_tried(folder, mail, [(one, due[one.stem]) for one in work], now))
    _settle(folder, work)
    told = (Delivery(mail_id, one.recipient, *_told(one)) for mail_id, one in made)
    return Pass(tuple(told), wrote=True)


def _told(one: Try) -> tuple[str, str]:
    return one.outcome.state, one.outcome.words


def _without_strangers(folder: PlantFolder, mails: Sequence[Kept]) -> list[Kept]:
    """Leave out mails that the store does not know: their sender died before they were to leave."""
    with writing(folder) as store:
        known = known_letters(store, [one.message_id for one in mails])
    for one in mails:
        if one.message_id not in known:
            outbox.forget(folder.outbox, one)
    return [one for one in mails if one.message_id in known]


def _settle(folder: PlantFolder, mails: Sequence[Kept]) -> None:
    """Bring the store to what the journals tell; a mail that nobody waits for leaves the outbox."""
    stems = {one.stem for one in mails}
    now = [one for one in outbox.kept(folder.outbox) if one.stem in stems]
    with writing(folder) as store:
        note_tries(store, now)
    for one in now:
        if not one.waiting:
            outbox.forget(folder.outbox, one)


def _due(
    folder: PlantFolder, mail: Kept, settings: MailSettings, *, now: datetime, hurry: bool
) -> tuple[str, ...]:
    """The recipients of a mail to be tried now."""
    mended = _mended_at(folder)

    def is_due(recipient: str) -> bool:
        tries = mail.tries_of(recipient)
        if hurry or not tries:
            return True
        last = tries[-1]
        if last.outcome.state == "settings":
            return mended > last.at or now - last.at >= SETTINGS_AGAIN
        return now - last.at >= timedelta(seconds=settings.retry_after)

    return tuple(one for one in mail.waiting if is_due(one))


def _mended_at(folder: PlantFolder) -> datetime:
    """When plant.toml or the file of secrets was last changed."""
    times = [p.stat().st_mtime for p in (folder.toml, folder.mail_secrets) if p.exists()]
    return datetime.fromtimestamp(max(times), UTC)


def _tried(
    folder: PlantFolder,
    settings: MailSettings,
    work: Sequence[tuple[Kept, tuple[str, ...]]],
    now: datetime,
) -> Iterator[tuple[str, Try]]:
    """Try what is due over one connection; each outcome is in its journal before the next try."""
    due = [(mail, recipient) for mail, recipients in work for recipient in recipients]
    if not due:
        return
    clock = _clock(now)
    with _line(folder, settings) as line:
        for mail, recipient in due:
            for outcome in line.outcomes(mail, recipient):
                one = Try(clock(), recipient, _given_up(outcome, mail, settings, now))
                outbox.note_try(folder.outbox, mail, one)
                yield mail.message_id, one


def _given_up(outcome: Outcome, mail: Kept, settings: MailSettings, now: datetime) -> Outcome:
    """A recipient put off for days is given up; a relay that is away never makes one so."""
    days = settings.give_up_days
    if outcome.state == "later" and now - mail.made_at >= timedelta(days=days):
        return Outcome("failed", f"given up after {days} days: {outcome.words}")
    return outcome


def _clock(now: datetime) -> Callable[[], datetime]:
    """The moment of each try, from the pass's own start on."""
    started = datetime.now(UTC)
    return lambda: now + (datetime.now(UTC) - started)


class _Line:
    """One connection for a whole pass, or the reason why there is none."""

    def __init__(self, place: Path, smtp: smtplib.SMTP | Outcome) -> None:
        self.place = place
        self.smtp = smtp

    def outcomes(self, mail: Kept, recipient: str) -> Iterator[Outcome]:
        """Try one recipient; where the whole is too large, once more without its page."""
        outcome = self._outcome(mail, recipient)
        if outcome.state == "large" and mail.is_large:
            outcome = Outcome("failed", f"too large without its page too: {outcome.words}")
        yield outcome
        if outcome.state == "large":
            yield from self.outcomes(replace(mail, tries=(Try(_NEVER, "", outcome),)), recipient)

    def _outcome(self, mail: Kept, recipient: str) -> Outcome:
        if isinstance(self.smtp, Outcome):
            return self.smtp
        content = outbox.content_of(self.place, mail)
        outcome = hand_over(self.smtp, sender=mail.sender, recipient=recipient, content=content)
        if outcome.state in ("away", "settings"):
            # What ended the connection ends it for those who come after too; they wait.
            self.smtp = outcome
        return outcome


_NEVER = datetime.min.replace(tzinfo=UTC)


@contextmanager
def _line(folder: PlantFolder, settings: MailSettings) -> Iterator[_Line]:
    with ExitStack() as stack:
        try:
            relay = relay_of(folder, settings, read_login(folder))
            smtp: smtplib.SMTP | Outcome = stack.enter_context(session(relay))
        except MailError as error:
            smtp = Outcome("settings", str(error))
        except (OSError, smtplib.SMTPException) as error:
            smtp = outcome_of(error)
        yield _Line(folder.outbox, smtp)
