"""Clocks: times as sent to UTC, the calendar, the window that holds a time (rule 3)."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta, timezone, tzinfo
from typing import Any
from zoneinfo import ZoneInfo

from second_opinion.records import Row

DAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def zone_of(name: str) -> tzinfo:
    """A zone by its name, or a fixed one such as +01:00."""
    if name[0] in "+-":
        hours, minutes = int(name[1:3]), int(name[4:6])
        shift = timedelta(hours=hours, minutes=minutes)
        return timezone(-shift if name[0] == "-" else shift)
    return ZoneInfo(name)


def sent_time(value: Any) -> datetime | None:
    """A time as it stands in a file: with an offset, or local and naive."""
    if value is None or value == "":
        return None
    return value if isinstance(value, datetime) else datetime.fromisoformat(str(value))


def exists(local: datetime, zone: tzinfo) -> bool:
    """False for a local time that a clock change leaves out."""
    there = local.replace(tzinfo=zone)
    return there.astimezone(UTC).astimezone(zone).replace(tzinfo=None) == local


def repeats(local: datetime, zone: tzinfo) -> bool:
    """True for a local time that comes twice."""
    first, second = (local.replace(tzinfo=zone, fold=fold).utcoffset() for fold in (0, 1))
    return first != second


def to_utc(values: Iterable[Any], zone: tzinfo, *, ordered: bool) -> list[datetime | None]:
    """Turn one column of a file into UTC, in the file's order.

    In the repeated hour of a clock change an ordered file means the first pass until its times
    run backwards, then the second. A time that never was becomes `datetime.min`.
    """
    before: datetime | None = None
    second = False
    result: list[datetime | None] = []
    for value in values:
        sent = sent_time(value)
        if sent is None or sent.tzinfo is not None:
            result.append(sent and sent.astimezone(UTC))
            continue
        if not exists(sent, zone):
            result.append(datetime.min.replace(tzinfo=UTC))
            continue
        backwards = before is not None and sent < before and repeats(sent, zone)
        second = ordered and (second or backwards)
        before = sent
        result.append(sent.replace(tzinfo=zone, fold=int(second)).astimezone(UTC))
    return result


def midnight(day: date, zone: tzinfo) -> datetime:
    """Midnight of a day of the plant, in UTC."""
    return datetime.combine(day, time(0), tzinfo=zone).astimezone(UTC)


def days_of(text: str) -> set[int]:
    """Numbers of the weekdays that `mon-fri` or `mon,wed` names."""
    found: set[int] = set()
    for part in text.split(","):
        first, _, last = part.strip().partition("-")
        start, stop = DAYS.index(first), DAYS.index(last or first)
        found |= {(start + step) % 7 for step in range((stop - start) % 7 + 1)}
    return found


def planned_windows(settings: dict[str, Any], last: date) -> list[Row]:
    """The windows that plant.toml draws, from its first day to `last`."""
    plant = settings["plant"]
    zone = zone_of(plant["timezone"])
    by_end = plant.get("date_by", "start") == "end"
    windows = []
    for number in range(-1, (last - plant["starts_on"]).days + 1):
        day = plant["starts_on"] + timedelta(days=number)
        for shift in settings["shift"]:
            begins, ends = time.fromisoformat(shift["starts"]), time.fromisoformat(shift["ends"])
            end_day = day if ends > begins else day + timedelta(days=1)
            production_date = end_day if by_end else day
            if day.weekday() not in days_of(shift["days"]):
                continue
            if production_date < plant["starts_on"]:
                continue
            windows.append(
                {
                    "production_date": production_date,
                    "shift": shift["name"],
                    "crew": shift.get("crew"),
                    "starts_at": datetime.combine(day, begins, tzinfo=zone).astimezone(UTC),
                    "ends_at": datetime.combine(end_day, ends, tzinfo=zone).astimezone(UTC),
                    "cancelled": False,
                }
            )
    return windows


def calendar(settings: dict[str, Any], sent: list[Row], last: date) -> list[Row]:
    """All windows that were worked, in order; a sent row replaces the planned one (rule 3)."""
    windows = {(w["production_date"], w["shift"]): w for w in planned_windows(settings, last)}
    windows |= {(w["production_date"], w["shift"]): w for w in sent}
    worked = [window for window in windows.values() if not window["cancelled"]]
    return sorted(worked, key=lambda window: (window["starts_at"], window["ends_at"]))


def shift_at(windows: list[Row], at: datetime, zone: tzinfo) -> tuple[date, str | None]:
    """Production date and shift of a time; between windows the last date and no shift (rule 3)."""
    begun = [window for window in windows if window["starts_at"] <= at]
    for window in reversed(begun):
        if at < window["ends_at"]:
            return window["production_date"], window["shift"]
    if begun:
        return begun[-1]["production_date"], None
    return at.astimezone(zone).date(), None
