"""Which shifts' reports are due: by the calendar, overtime and cancelled shifts included, and what has left."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from eol.facts.reader import Reader, rows
from eol.mail.changes import reports_since
from eol.plant.calendar import shift_windows
from eol.plant.settings import Settings

Key = tuple[date, str]
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class DueShift:
    """A shift whose report has not left; ends_at in UTC."""

    production_date: date
    shift: str
    ends_at: datetime


def due_shifts(reader: Reader, settings: Settings, *, now: datetime) -> tuple[DueShift, ...]:
    """Return the shifts whose report is due, the oldest first.

    Args:
        reader: the published copy.
        settings: plant.toml; its grace after a shift's end and how many days are caught up.
        now: the wall clock, UTC.

    Returns:
        Shifts that ended, without a report, none older than `catch_up_days` and none before the
        first report that ever left; where none has left, the last shift that ended alone.
    """
    schedule = settings.schedule
    since = (now - timedelta(days=schedule.catch_up_days)).date() - _DAY
    ended = now - timedelta(seconds=schedule.grace)
    oldest = ended - timedelta(days=schedule.catch_up_days)
    windows = _windows(reader, settings, since, now.date() + _DAY)
    over = {key: end for key, end in windows.items() if oldest < end <= ended}
    left = {(one.production_date, one.shift) for one in reports_since(reader, since)}
    waiting = [DueShift(*key, end) for key, end in over.items() if key not in left]
    waiting.sort(key=lambda one: (one.ends_at, one.shift))
    first = reader.run("mail", "first_report").item()
    if first is None:
        return tuple(waiting[-1:])
    begin = _begin(windows, left, first)
    return tuple(one for one in waiting if one.production_date >= first and one.ends_at > begin)


def _begin(
    windows: Mapping[Key, datetime], left: Collection[tuple[date, str | None]], first: date
) -> datetime:
    """The end of the first shift that was ever reported; what ended before is history."""
    ends = [end for key, end in windows.items() if key in left and key[0] == first]
    return min(ends, default=min(windows.values(), default=datetime.max) - _DAY)


def _windows(reader: Reader, settings: Settings, since: date, until: date) -> dict[Key, datetime]:
    """The ends of the shifts of some days: as the calendar has them, else as plant.toml gives them.

    The calendar reaches a week beyond the data; a plant that hears nothing for longer still reports.
    """
    declared = shift_windows(settings, since, until)
    ends = {(one.production_date, one.shift): one.ends_at for one in declared}
    for row in rows(reader.run("mail", "windows", since=since, until=until)):
        key = (row["production_date"], row["shift"])
        if row["cancelled"]:
            ends.pop(key, None)
        else:
            ends[key] = row["ends_at"]
    return ends
