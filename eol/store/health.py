"""How the machine's side of a plant stands: disk, sizes and growth, copies, lock, backup, mails, versions.

The answer behind the second half of `eol status`, for whoever runs the machine and for monitoring.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from filelock import FileLock, Timeout

from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings
from eol.store.backup import noted_backup
from eol.store.connect import open_copy, readable_copy
from eol.store.mine import OwnView, own_views
from eol.store.publish import SMALL
from eol.store.schema import SCHEMA_VERSION, tool_version

LEAST_FREE = 1_000_000_000
"""Bytes that stay free at least, beside what the next copy takes."""

SOON = 36
"""Months left from which on they are told."""

LATE_COPY = timedelta(minutes=10)
LATE_BACKUP = timedelta(days=7)
_MONTH_DAYS = 30


@dataclass(frozen=True, slots=True)
class HealthRemark:
    """A sentence on the machine; `look` where a person should see to it, else `note`."""

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class PlantHealth:
    """How the machine's side of a plant stands; sizes in bytes, times UTC.

    Attributes:
        tool: version of the tool.
        schema_version: that of the copy.
        tool_schema_version: that which the tool writes.
        copy: the copy that is read, and when it was published.
        copies_beside: copies that could not take its place.
        lock_held_by: the process that writes now; None where none does.
        disk_free: what is free where the plant lies.
        sizes: what store, copies, inbox, reports and outbox take.
        growth: what the store grows by in 30 days, from the rows of the newest 30.
        months_left: until the disk is full at that growth; None where it does not grow.
        last_loaded_at: when the newest file was loaded.
        last_backup_at: when the last checked backup was made here; None where none was.
        mails_unsent: mails that are still to leave.
        mails_failed: mails that were given up.
        own_views: the plant's own views that cannot be made, by file and fault.
        remarks: what of it a person should know, in sentences.
    """

    tool: str
    schema_version: int
    tool_schema_version: int
    copy: Path
    copy_published_at: datetime
    copies_beside: int
    lock_held_by: str | None
    disk_free: int
    sizes: dict[str, int]
    growth: int
    months_left: float | None
    last_loaded_at: datetime | None
    last_backup_at: datetime | None
    mails_unsent: int
    mails_failed: int
    own_views: dict[str, str]
    remarks: tuple[HealthRemark, ...]

    @property
    def needs_a_look(self) -> bool:
        """Whether a person should see to any of it."""
        return any(remark.kind == "look" for remark in self.remarks)


def plant_health(folder: PlantFolder, settings: Settings, *, now: datetime) -> PlantHealth:
    """Tell how the machine's side of a plant stands.

    Args:
        folder: the plant folder.
        settings: its plant.toml.
        now: the wall clock, UTC.

    Raises:
        StoreError: nothing has been published yet, or the copy cannot be read.
    """
    copy = readable_copy(folder)
    with open_copy(folder) as database:
        [told] = database.run("health", "account").to_dicts()
        made = {row[0] for row in database.query_rows("mine", "views")}
    sizes = folder_sizes(folder)
    growth = round(sizes["store"] * told["recent_rows"] / max(told["file_rows"], 1))
    free = shutil.disk_usage(folder.root).free
    health = PlantHealth(
        tool=tool_version(),
        schema_version=told["schema_version"],
        tool_schema_version=SCHEMA_VERSION,
        copy=copy,
        copy_published_at=_changed_at(copy),
        copies_beside=len(list(folder.read_folder.glob(f"{folder.read_copy.stem}-*.duckdb"))),
        lock_held_by=lock_holder(folder),
        disk_free=free,
        sizes=sizes,
        growth=growth,
        # Each byte of the store lies in the copy too.
        months_left=round(free / (2 * growth), 1) if growth else None,
        last_loaded_at=told["last_loaded_at"],
        last_backup_at=noted_backup(folder),
        mails_unsent=told["mails_unsent"],
        mails_failed=told["mails_failed"],
        own_views={
            view.path.name: _fault(view) for view in own_views(folder) if view.name not in made
        },
        remarks=(),
    )
    return replace(health, remarks=tuple(remarks(health, folder, settings, now)))


def remarks(
    health: PlantHealth, folder: PlantFolder, settings: Settings, now: datetime
) -> Iterator[HealthRemark]:
    """Give the sentences, those that ask for a look first."""
    yield from _of_disk(health)
    yield from _of_copy(health, folder)
    yield from _of_backup(health, settings, now)
    if health.mails_failed:
        yield HealthRemark(
            "look", f"{health.mails_failed} mails were given up; report_sent tells which"
        )
    if health.mails_unsent:
        yield HealthRemark("note", f"{health.mails_unsent} mails are still to leave")
    for name, fault in health.own_views.items():
        yield HealthRemark("look", f"mine/{name} is no view of the copy: {fault}")
    if health.lock_held_by:
        yield HealthRemark("note", f"process {health.lock_held_by} is writing to the store")


def _of_disk(health: PlantHealth) -> Iterator[HealthRemark]:
    needed = 2 * health.sizes["store"] + LEAST_FREE
    months = health.months_left
    left = "" if months is None or months > SOON else f", enough for {months:g} months"
    words = f"{size_words(health.disk_free)} of disk are free{left}"
    if health.disk_free < needed:
        yield HealthRemark("look", f"{words}; a load with its copy may need {size_words(needed)}")
    else:
        yield HealthRemark(
            "note",
            f"the store takes {size_words(health.sizes['store'])} and grows by about"
            f" {size_words(health.growth)} in {_MONTH_DAYS} days; {words}",
        )


def _of_copy(health: PlantHealth, folder: PlantFolder) -> Iterator[HealthRemark]:
    if _changed_at(folder.store) > health.copy_published_at + LATE_COPY and not health.lock_held_by:
        # An answer to a page alone does not have a large store copied: the next load does that.
        kind = "note" if health.sizes["store"] > SMALL else "look"
        yield HealthRemark(
            kind,
            "the copy that is read is older than the store; the next load renews it, or eol publish",
        )
    if health.copies_beside:
        yield HealthRemark(
            "note",
            f"{health.copy.name} is read until a reader lets {folder.read_copy.name} go",
        )
    if health.schema_version < health.tool_schema_version:
        yield HealthRemark(
            "note",
            f"the store has schema version {health.schema_version}; the next load takes it to"
            f" {health.tool_schema_version}, on a copy first",
        )


def _of_backup(health: PlantHealth, settings: Settings, now: datetime) -> Iterator[HealthRemark]:
    if health.last_backup_at is None:
        kind = "look" if settings.schedule.backup else "note"
        yield HealthRemark(kind, "no backup has been made here; eol backup DIR makes one")
        return
    age = now - health.last_backup_at
    late = max(LATE_BACKUP, timedelta(days=2 * settings.schedule.backup_days))
    kind = "look" if age > late else "note"
    yield HealthRemark(kind, f"the last backup is {age.days} days old")


def folder_sizes(folder: PlantFolder) -> dict[str, int]:
    """Return what the parts of a plant folder take, in bytes."""
    places = {
        "inbox": folder.inbox,
        "copies": folder.read_folder,
        "reports": folder.reports,
        "outbox": folder.outbox,
    }
    sizes = {
        name: sum(_size(Path(at) / f) for at, _, files in os.walk(place) for f in files)
        for name, place in places.items()
    }
    return {"store": _size(folder.store), **sizes}


def lock_holder(folder: PlantFolder) -> str | None:
    """Return the number of the process that holds the write lock; None where nobody does."""
    if not folder.lock.exists():
        return None
    lock = FileLock(folder.lock, timeout=0)
    try:
        lock.acquire()
    except (Timeout, OSError):
        owner = folder.lock.with_suffix(".pid")
        return owner.read_text() if owner.exists() else "unknown"
    lock.release()
    return None


def size_words(size: int) -> str:
    """Write a number of bytes as people read it.

    Example:
        >>> size_words(15_740_928)
        '15.7 MB'
    """
    amount = float(size)
    for unit in ("bytes", "kB", "MB", "GB"):
        if amount < 1000:
            return f"{amount:.3g} {unit}"
        amount /= 1000
    return f"{amount:.3g} TB"


def _fault(view: OwnView) -> str:
    return view.fault or "it could not be made, or is new; eol publish tells"


def _changed_at(path: Path) -> datetime:
    try:
        return datetime.fromtimestamp(path.stat().st_mtime, UTC)
    except OSError:
        return datetime.fromtimestamp(0, UTC)


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0
