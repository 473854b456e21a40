"""Files to rows: fingerprints, ranks, times, and the one row of each key that wins (rule 1)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from typing import Any

from second_opinion.records import File, Plant, Row
from second_opinion.times import sent_time, to_utc, zone_of

TIME_COLUMNS = {
    "units": ["line_off_at"],
    "attributes": ["at"],
    "unit_keys": ["valid_from", "valid_to"],
    "repairs": ["started_at", "ended_at", "entered_at"],
    "events": ["at"],
    "defect_codes": ["valid_from", "valid_to"],
    "shifts": ["starts_at", "ends_at"],
    "corrections": ["made_at"],
    "lots": ["from_at", "to_at"],
    "countermeasures": ["cut_in_at"],
}
RUN_TIMES = ["started_at", "ended_at"]
NEVER = datetime.min.replace(tzinfo=UTC)
Rank = tuple[datetime, str]


@dataclass(frozen=True)
class Ranked:
    """A content with the earliest time under which it came, its rows read."""

    rank: Rank
    feed: str
    rows: list[Row]


def ranked_files(plant: Plant) -> list[Ranked]:
    """Each content once, the lowest rank first."""
    first: dict[str, tuple[Rank, File]] = {}
    for file in plant.files:
        rank = (file.made_at, file.fingerprint)
        if file.fingerprint not in first or rank < first[file.fingerprint][0]:
            first[file.fingerprint] = (rank, file)
    return [
        Ranked(rank, file.feed, read_rows(file, plant.settings))
        for rank, file in sorted(first.values(), key=lambda pair: pair[0])
    ]


def read_rows(file: File, settings: dict[str, Any]) -> list[Row]:
    """The rows of a file with empty cells as None and times in UTC; bad times drop the row."""
    feed = settings.get("feed", {}).get(file.feed, {})
    zone = zone_of(feed.get("timezone", settings["plant"]["timezone"]))
    sent = [{k: None if v == "" else v for k, v in row.items()} for row in file.rows]
    rows = [dict(row) for row in sent]
    for column in TIME_COLUMNS.get(file.feed, RUN_TIMES):
        if any(column in row for row in rows):
            cells = [row.get(column) for row in sent]
            times = to_utc(cells, zone, ordered=feed.get("ordered", False))
            for row, at in zip(rows, times, strict=True):
                row[column] = at
    if file.feed in settings["test"]:
        for row, told in zip(rows, sent, strict=True):
            row["started_at"] = start_before(told["started_at"], row, zone)
            row["ended_at"] = end_after(told.get("ended_at"), row, zone)
    return [
        row | {"file_row": number}
        for number, row in enumerate(rows, start=1)
        if not any(value == NEVER for value in row.values() if isinstance(value, datetime))
    ]


def end_after(told: Any, row: Row, zone: tzinfo) -> datetime | None:
    """The end of a run: of a time that came twice the earlier one that is not before the start."""
    local, as_read = sent_time(told), row.get("ended_at")
    if local is None or local.tzinfo or as_read == NEVER or row["started_at"] == NEVER:
        return as_read
    both = [local.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1)]
    return next((at for at in both if at >= row["started_at"]), as_read)


def start_before(told: Any, row: Row, zone: tzinfo) -> datetime | None:
    """The start of a run: of a time that came twice the later one that is not after the end."""
    local, end = sent_time(told), row.get("ended_at")
    as_read: datetime | None = row["started_at"]
    if local is None or end is None or local.tzinfo or as_read == NEVER:
        return as_read
    both = [local.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (1, 0)]
    return next((at for at in both if at <= end), as_read)


def table(files: list[Ranked], feed: str, key: Callable[[Row], Any]) -> list[Row]:
    """The rows of a feed, of each key the one of the highest ranked file (rule 1)."""
    winning: dict[Any, Row] = {}
    for file in files:
        if file.feed == feed:
            for row in file.rows:
                winning[key(row)] = row | {"rank": file.rank}
    return list(winning.values())


def all_of(row: Row) -> tuple[Any, ...]:
    """A key for rows without an id: everything the row says."""
    return tuple((k, v) for k, v in sorted(row.items()) if k not in ("file_row", "rank"))


def by_id(column: str) -> Callable[[Row], Any]:
    """A key that is the row's own id, else everything it says."""
    return lambda row: row.get(column) or all_of(row)


def number(value: Any) -> float | None:
    """A number as sent, None where the cell is empty."""
    return None if value is None or value == "" else float(value)


def whole(value: Any) -> int | None:
    """A whole number as sent, None where the cell is empty."""
    return None if value is None or value == "" else int(value)


def truth(value: Any) -> bool | None:
    """A yes or no as sent."""
    return None if value is None else str(value).lower() in ("true", "1", "yes")


def second_of(at: datetime) -> datetime:
    """A time cut to its second."""
    return at.replace(microsecond=0)


def latest(rows: list[Row], column: str) -> Row:
    """The row whose time is the latest, an unknown time being the earliest."""
    return max(rows, key=lambda row: sent_time(row.get(column)) or NEVER)
