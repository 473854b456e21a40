"""Does all that is due in a plant, once and in order: files, reports, mails, alarms, backup.

Each step stands for itself: what fails is told and tried again by the next call, and stops no other.
What only a step with work needs is imported there: a machine asks each minute, mostly for nothing.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path

from eol.errors import EolError, MailError
from eol.facts.late import LATE
from eol.load.outcome import IngestResult
from eol.load.waiting import has_work
from eol.mail.asked import Asked
from eol.mail.changes import late_runs, moved_since, reason_words, reports_since
from eol.mail.deliver import Delivery, deliver, mail_lock
from eol.mail.lost import lost_reports, make_again
from eol.mail.outbox import Kept, kept
from eol.mail.record import publish_letters
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings, read_settings
from eol.schedule.due import due_shifts
from eol.store.backup import backup
from eol.store.connect import open_copy
from eol.store.database import Database
from eol.words import counted

LOOK_BACK = timedelta(days=30)
"""How old a shift may be whose moved figures are mailed; later changes stand in `figure_change`."""

Tell = Callable[["Done"], None]


@dataclass(frozen=True, slots=True)
class Done:
    """One thing done, or not.

    Attributes:
        at: the wall clock, UTC.
        step: `ingest`, `report`, `mail`, `alarm` or `backup`.
        level: `done`; `look` (done, but a person should look); `failed`.
        text: what it was, one line.
        exit_code: that of the error, 0 where there is none.
    """

    at: datetime
    step: str
    level: str
    text: str
    exit_code: int = 0


@dataclass(frozen=True, slots=True)
class RunResult:
    """All that one call did, in order; empty where nothing was due."""

    done: tuple[Done, ...]

    @property
    def exit_code(self) -> int:
        """That of the gravest error, 1 where a person should look, else 0."""
        gravest = max((one.exit_code for one in self.done), default=0)
        return gravest or int(any(one.level == "look" for one in self.done))


@dataclass(slots=True)
class _Run:
    """One call under way.

    Attributes:
        wrote: the store holds reports that are not published yet.
        held_back: a report that figures have moved is not told again yet.
    """

    folder: PlantFolder
    settings: Settings
    now: datetime
    wrote: bool = False
    held_back: bool = False

    def done(self, step: str, text: str, level: str = "done", exit_code: int = 0) -> Done:
        return Done(self.now, step, level, " ".join(text.split()), exit_code)


def run_due(
    folder: PlantFolder, *, now: datetime | None = None, tell: Tell | None = None
) -> RunResult:
    """Do all that is due, in order.

    Args:
        folder: the plant folder.
        now: the wall clock, UTC.
        tell: told of each thing as it is done.

    Returns:
        What was done; where nothing was due, nothing.

    Raises:
        PlantFileError: plant.toml is wrong; nothing was done.
    """
    moment = (now or datetime.now(UTC)).astimezone(UTC)
    run = _Run(folder, read_settings(folder.toml), moment)
    steps = {
        "ingest": _ingest,
        "report": _reports,
        "mail": _mails,
        "alarm": _alarms,
        "backup": _backup,
    }
    done: list[Done] = []
    for name, step in steps.items():
        for one in _guarded(run, name, step):
            done.append(one)
            if tell:
                tell(one)
    return RunResult(tuple(done))


def _guarded(run: _Run, name: str, step: Callable[[_Run], Iterator[Done]]) -> Iterator[Done]:
    """Give what a step does; an error of it is one thing more, and the end of it."""
    try:
        yield from step(run)
    except EolError as error:
        yield run.done(name, str(error), "failed", error.exit_code)
    except Exception as error:
        # A fault of the tool in one step must not keep the mails of another from leaving.
        if os.environ.get("EOL_DEBUG"):
            raise
        text = f"the program failed: {type(error).__name__}: {error}; run it again with EOL_DEBUG=1"
        yield run.done(name, text, "failed", EolError.exit_code)


def _ingest(run: _Run) -> Iterator[Done]:
    if not has_work(run.folder, run.settings):
        return
    from eol.load.ingest import ingest

    result = ingest(run.folder, now=run.now)
    for file in result.files:
        text = f"{file.path.name}: {file.state}, {file.accepted} of {file.rows} rows"
        if file.message:
            yield run.done("ingest", file.message, "look")
        elif file.rejected:
            yield run.done("ingest", f"{text}, {file.rejected} refused", "look")
        else:
            yield run.done("ingest", text)
    yield from _doubles(run, result)


def _doubles(run: _Run, result: IngestResult) -> Iterator[Done]:
    if result.doubles:
        text = f"{result.doubles} runs equal others but for one hour; they do not count"
        yield run.done("ingest", text, "look")


def _reports(run: _Run) -> Iterator[Done]:
    """Make the reports that are due, then those that a late file has moved; each by itself."""
    with mail_lock(run.folder):
        with open_copy(run.folder) as copy:
            due = due_shifts(copy, run.settings, now=run.now)
            moved = _moved(run, copy) if _is_new(run) else ()
            lost = lost_reports(copy, run.folder)
        if lost and (made := make_again(run.folder, run.settings, now=run.now)):
            yield run.done("report", f"{counted(made, 'lost mail')} made again", "look")
        for one in due:
            asked = Asked(one.production_date, one.shift, one.ends_at)
            yield from _guarded(run, "report", partial(_report, asked=asked))
        for asked in moved:
            yield from _guarded(run, "report", partial(_report, asked=asked))
        if run.wrote:
            publish_letters(run.folder)


def _report(run: _Run, asked: Asked) -> Iterator[Done]:
    from eol.mail.leave import leave

    made = leave(run.folder, run.settings, asked, now=run.now)
    run.wrote = True
    text = f"{asked.production_date}/{asked.shift}: {made.page.name}"
    if asked.changes:
        yield run.done("report", f"{text} again: {asked.changes[0].news}, {asked.reason}")
        return
    late = asked.ends_at is not None and _lateness(run, asked.ends_at)
    yield run.done("report", f"{text}, late by {late}" if late else text)


def _lateness(run: _Run, ends_at: datetime) -> str:
    after = run.now - ends_at - timedelta(seconds=run.settings.schedule.grace)
    return f"{after / timedelta(hours=1):.0f} h" if after > LATE else ""


def _moved(run: _Run, copy: Database) -> tuple[Asked, ...]:
    """The shifts whose figures, as printed, are others now than their latest report said."""
    since = (run.now - LOOK_BACK).date()
    moved = moved_since(copy, since)
    if not moved:
        return ()
    left = {(one.production_date, one.shift): one for one in reports_since(copy, since)}
    waiting = {one.message_id for one in kept(run.folder.outbox) if not _got_through(one)}
    gap = timedelta(seconds=run.settings.mail.corrected_after)
    asked = []
    for one in moved:
        report = left[one.production_date, one.shift]
        if report.message_id in waiting or run.now - report.made_at < gap:
            run.held_back = True
            continue
        reason = reason_words(late_runs(copy, report))
        asked.append(
            Asked(one.production_date, one.shift, None, report.letters, one.changes, reason)
        )
    return tuple(asked)


def _got_through(mail: Kept) -> bool:
    return any(one.outcome.state == "sent" for one in mail.tries)


def _mails(run: _Run) -> Iterator[Done]:
    with mail_lock(run.folder):
        yield from _delivered(run, "mail")


def _alarms(run: _Run) -> Iterator[Done]:
    if not run.settings.alarm.on or not _is_new(run):
        _note_looked(run)
        return
    from eol.mail.alarm import raise_alarms

    with mail_lock(run.folder):
        told = raise_alarms(run.folder, run.settings, now=run.now)
        for alarm in told:
            yield run.done("alarm", alarm.head, "look")
        if told:
            yield from _delivered(run, "alarm")
    _note_looked(run)


def _delivered(run: _Run, step: str) -> Iterator[Done]:
    made = deliver(run.folder, run.settings.mail, now=run.now)
    if made.wrote:
        publish_letters(run.folder)
    for one in made.deliveries:
        yield _of_try(run, step, one)


def _of_try(run: _Run, step: str, one: Delivery) -> Done:
    text = f"{one.recipient}: {one.state}" + (f": {one.words}" if one.words else "")
    if one.state == "settings":
        return run.done(step, text, "failed", MailError.exit_code)
    level = "done" if one.state in ("sent", "large") else "look"
    return run.done(step, text, level)


def _backup(run: _Run) -> Iterator[Done]:
    schedule = run.settings.schedule
    if schedule.backup is None:
        return
    target = run.folder.root / Path(schedule.backup).expanduser()
    last = last_backup(run.folder, target)
    if last is None or run.now - last >= timedelta(days=schedule.backup_days):
        copy = backup(run.folder, target, now=run.now)
        yield run.done("backup", f"{copy.place}, {copy.bytes} bytes, read back and compared")


def last_backup(folder: PlantFolder, target: Path) -> datetime | None:
    """Return when the newest whole copy of a plant below a folder was made; None where there is none."""
    found = []
    for place in target.glob(f"{folder.root.name}-*Z"):
        stamp = place.name.removeprefix(f"{folder.root.name}-")
        # The key is copied last: a copy without it was broken off.
        if (place / folder.pseudonym_key.name).exists():
            with suppress(ValueError):
                found.append(datetime.strptime(stamp, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC))
    return max(found, default=None)


def _is_new(run: _Run) -> bool:
    """Tell whether the copy is another one than that looked at last for moved figures and alarms."""
    return _looked(run) != _stamp(run)


def _looked(run: _Run) -> str:
    mark = _mark(run)
    return mark.read_text(encoding="ascii") if mark.exists() else ""


def _note_looked(run: _Run) -> None:
    if not run.held_back and _is_new(run):
        _mark(run).write_text(_stamp(run), encoding="ascii")


def _mark(run: _Run) -> Path:
    return run.folder.run_lock.with_suffix(".seen")


def _stamp(run: _Run) -> str:
    copy = run.folder.read_copy
    return str(copy.stat().st_mtime_ns) if copy.exists() else ""
