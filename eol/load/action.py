"""Actions entered by command: a small file of the feed `countermeasures`, loaded like any other.

The file is kept with the files that were taken in, so that the action is never lost and comes
back the same from the files alone (rule 1). Each entry is a whole row: the later one stands.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from eol.errors import FeedFileError, StoreError, UsageError
from eol.feeds.own_files import action_file_name
from eol.load.ingest import ingest
from eol.plant.clock import to_utc
from eol.plant.folder import PlantFolder
from eol.plant.nearest import nearest
from eol.plant.settings import Settings, read_settings
from eol.store.connect import open_copy
from eol.store.database import Database


@dataclass(frozen=True, slots=True)
class ActionEntry:
    """An action as it is entered; None leaves a field empty, or as it was where the action is changed.

    Attributes:
        action_id: its name; made from the time where it is opened without one.
        cut_in_at: when it cut in, on the wall clock of the plant, or with an offset.
        expected_ratio: the share of defects hoped for, between 0 and 1.
    """

    action_id: str | None = None
    test: str | None = None
    code: str | None = None
    zone: str | None = None
    owner_area: str | None = None
    owner: str | None = None
    text: str | None = None
    opened_on: date | None = None
    due_on: date | None = None
    from_build_seq: int | None = None
    cut_in_at: datetime | None = None
    baseline_from: date | None = None
    baseline_to: date | None = None
    expected_ratio: float | None = None
    closed_on: date | None = None


def open_action(folder: PlantFolder, entry: ActionEntry, *, now: datetime) -> str:
    """Enter a new action.

    Args:
        folder: the plant folder.
        entry: the action; its code is needed. Opened today where no day is given.
        now: the wall clock, aware.

    Returns:
        Its action_id.

    Raises:
        UsageError: the id is taken, or code, test, zone or ratio cannot be used.
        StoreError: nothing has been loaded yet, or another process writes.
    """
    settings = read_settings(folder.toml)
    local = now.astimezone(settings.plant.zone)
    name = entry.action_id or f"A-{local:%Y%m%d-%H%M%S}"
    with open_copy(folder) as copy:
        if copy.run("action", "standing", action_id=name).height:
            raise UsageError(
                f"there is an action {name} already",
                hint=f"Change it with eol action change {name}, or name another one with --id.",
            )
        _check(copy, settings, entry)
    opened = replace(entry, action_id=name, opened_on=entry.opened_on or local.date())
    _write(folder, settings, opened, at=now)
    return name


def change_action(folder: PlantFolder, action_id: str, entry: ActionEntry, *, now: datetime) -> str:
    """Change or close an action: what the entry gives replaces what stands, the rest stays.

    Args:
        folder: the plant folder.
        action_id: its name.
        entry: what is new.
        now: the wall clock, aware.

    Returns:
        Its action_id.

    Raises:
        UsageError: there is no such action, or what is new cannot be used.
        StoreError: nothing has been loaded yet, or another process writes.
    """
    settings = read_settings(folder.toml)
    with open_copy(folder) as copy:
        (*found,) = copy.run("action", "standing", action_id=action_id).iter_rows(named=True)
        if not found:
            known = copy.run("action", "action_id")["action_id"].to_list()
            raise UsageError(f"there is no action {action_id}", hint=_near(action_id, known))
        _check(copy, settings, entry)
    stands = {name: found[0][name] for name in asdict(entry)}
    new = {name: value for name, value in asdict(entry).items() if value is not None}
    changed = ActionEntry(**(stands | new | {"action_id": action_id}))
    # Rule 1: the file made later stands, so this one is made later than the one that stands.
    made_at: datetime | None = found[0]["made_at"]
    later = made_at + timedelta(microseconds=1) if made_at else now
    _write(folder, settings, changed, at=max(now, later))
    return action_id


def _check(copy: Database, settings: Settings, entry: ActionEntry) -> None:
    known = copy.run("action", "known_code")
    _check_name("code", entry.code, known["code"].drop_nulls())
    _check_name("zone", entry.zone, known["zone"].drop_nulls())
    _check_name("test", entry.test, settings.tests)
    if entry.expected_ratio is not None and not 0 < entry.expected_ratio < 1:
        raise UsageError(
            f"the ratio that is hoped for lies between 0 and 1, not {entry.expected_ratio}",
            hint="0.5 says: half as many as before.",
        )


def _check_name(what: str, name: str | None, known: Iterable[str]) -> None:
    names = list(known)
    if name is not None and name not in names:
        raise UsageError(f"no {what} is named {name}", hint=_near(name, names))


def _near(name: str, known: Iterable[str]) -> str:
    names = list(known)
    near = nearest(name, names)
    return f"The nearest is {near}." if near else "Known: " + ", ".join(names[:12]) + "."


def _write(folder: PlantFolder, settings: Settings, entry: ActionEntry, *, at: datetime) -> None:
    """Write the file into the inbox, load it and put it away.

    Where the store cannot be written to the file stays in the inbox, and the next load takes it.
    """
    path = folder.inbox / action_file_name(at)
    _put(path, json.dumps(_sent(entry, settings), ensure_ascii=False) + "\n")
    (outcome,) = ingest(folder, [path], now=max(at, datetime.now(UTC))).files
    if outcome.rejected or outcome.state not in ("loaded", "known"):
        path.unlink(missing_ok=True)
        reasons = "; ".join(reason for reason, _ in outcome.reasons) or outcome.message
        raise FeedFileError(
            f"the action cannot be entered: {reasons}", hint="Mend it and enter it again."
        )
    if settings.inbox.taken == "move":
        folder.taken.mkdir(parents=True, exist_ok=True)
        with suppress(FileNotFoundError):  # a load that ran meanwhile has put it away
            path.rename(folder.taken / path.name)


def _put(path: Path, text: str) -> None:
    """Write a file whole: under a name that no load looks at, then under its own."""
    beside = path.with_name("." + path.name)
    try:
        beside.write_text(text, encoding="utf-8")
        beside.rename(path)
    except OSError as error:
        raise StoreError(
            f"the action cannot be written: {error.strerror}",
            where=str(path.parent),
            hint="Make room or mend the folder's rights; nothing was changed.",
        ) from error


def _sent(entry: ActionEntry, settings: Settings) -> Mapping[str, Any]:
    """The row of the file: days and times as text, what is empty left out."""
    told = {name: value for name, value in asdict(entry).items() if value is not None}
    if entry.cut_in_at is not None:
        at = entry.cut_in_at
        told["cut_in_at"] = to_utc(at, settings.plant.zone) if at.tzinfo is None else at
    return {
        name: value.isoformat() if isinstance(value, date) else value
        for name, value in told.items()
    }
