"""The path of a plant folder in, the places of everything in it out; and a new plant folder."""

from __future__ import annotations

import json
import os
import secrets
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from eol.errors import PlantFileError, UsageError
from eol.plant.clock import time_zone
from eol.plant.persons import KEY_BYTES

TEMPLATE = Path(__file__).with_name("template.toml")
"""The plant.toml that a new plant starts from, every key told in plain words."""


@dataclass(frozen=True, slots=True)
class PlantFolder:
    """The folder of one plant; `root` is absolute. That a path is named does not make it exist."""

    root: Path

    @property
    def toml(self) -> Path:
        """What the plant declares."""
        return self.root / "plant.toml"

    @property
    def store(self) -> Path:
        """The store, opened by the tool alone."""
        return self.root / "plant.duckdb"

    @property
    def inbox(self) -> Path:
        """Where files come in."""
        return self.root / "inbox"

    @property
    def taken(self) -> Path:
        """Where files go that were taken; on the inbox's own disk, so that a move is one step."""
        return self.inbox / "taken"

    @property
    def read_folder(self) -> Path:
        """Where readers find their copy."""
        return self.root / "read"

    @property
    def read_copy(self) -> Path:
        """The copy of the store that readers open."""
        return self.read_folder / "plant.duckdb"

    @property
    def reports(self) -> Path:
        """Where reports are written."""
        return self.root / "reports"

    @property
    def pseudonym_key(self) -> Path:
        """The key behind the pseudonyms of persons (rule 18)."""
        return self.root / "pseudonym.key"

    @property
    def lock(self) -> Path:
        """The file that one writer at a time holds."""
        return self.root / "plant.lock"

    @property
    def outbox(self) -> Path:
        """Where mails lie until everyone has them, each with a journal of the tries."""
        return self.root / "outbox"

    @property
    def mail_secrets(self) -> Path:
        """User and password of the relay, where the environment does not hold them."""
        return self.root / "mail.env"

    @property
    def mail_lock(self) -> Path:
        """The file that one sender at a time holds."""
        return self.root / "mail.lock"

    @property
    def run_lock(self) -> Path:
        """The file that one scheduler at a time holds."""
        return self.root / "run.lock"


def open_folder(root: Path | str) -> PlantFolder:
    """Return the plant folder at a path, whose plant.toml is there but not yet read.

    Raises:
        PlantFileError: there is no plant.toml in it.
    """
    folder = _folder(root)
    if not folder.toml.is_file():
        hint = "Make one with `eol init`, or name another folder with --plant."
        raise PlantFileError("there is no plant.toml here", where=str(folder.root), hint=hint)
    return folder


def init_folder(
    root: Path | str,
    *,
    name: str,
    starts_on: date,
    timezone: str = "Europe/Berlin",
    more: str = "",
) -> PlantFolder:
    """Make a plant folder: the commented plant.toml, the folders and the key for pseudonyms.

    What is already there is kept: a key is never replaced, for it would part old and new
    pseudonyms. The plant.toml comes last, so that an interrupted call can be made again.

    Args:
        root: the folder to make; it may exist.
        name: the plant's name, printed on every page.
        starts_on: first day of the record.
        timezone: IANA name of the plant's time zone.
        more: further sections of plant.toml, as text.

    Raises:
        PlantFileError: there is a plant.toml already, or the folder cannot be written.
        UsageError: the name or the time zone cannot be used.
    """
    folder = _folder(root)
    if folder.toml.exists():
        hint = "It was left as it is; change it in an editor, or name another folder."
        raise PlantFileError(
            "there is a plant.toml here already", where=str(folder.root), hint=hint
        )
    text = plant_toml(name, starts_on=starts_on, timezone=timezone) + ("\n" + more if more else "")
    try:
        for place in (folder.inbox, folder.taken, folder.read_folder, folder.reports):
            place.mkdir(parents=True, exist_ok=True)
        _write_key(folder.pseudonym_key)
        # "x" refuses a plant.toml that somebody else wrote in the meantime.
        with folder.toml.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        what = f"the plant folder cannot be made: {error.strerror}"
        hint = "Choose a folder that you may write to."
        raise PlantFileError(what, where=str(error.filename or folder.root), hint=hint) from error
    return folder


def plant_toml(name: str, *, starts_on: date, timezone: str) -> str:
    """Return the text of a new plant's plant.toml.

    Raises:
        UsageError: the name or the time zone cannot be used.
    """
    if not name.strip() or not name.isprintable():
        raise UsageError("the plant's name must be one line of text", where="name")
    try:
        time_zone(timezone)
    except ValueError as error:
        raise UsageError(f'"{timezone}" {error}', where="timezone") from error
    text = TEMPLATE.read_text(encoding="utf-8")
    for before, after in (
        ('name = "Quillbrook"', f"name = {json.dumps(name.strip(), ensure_ascii=False)}"),
        ('timezone = "Europe/Berlin"', f'timezone = "{timezone}"'),
        ("starts_on = 2026-01-01", f"starts_on = {starts_on.isoformat()}"),
    ):
        text = text.replace(before, after, 1)
    return text


def _folder(root: Path | str) -> PlantFolder:
    return PlantFolder(Path(root).expanduser().absolute())


def _write_key(path: Path) -> None:
    """A new key, readable by its owner alone from its first byte on; one that is there stays."""
    try:
        descriptor = os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
    except FileExistsError:
        return
    with os.fdopen(descriptor, "w", encoding="ascii") as file:
        file.write(secrets.token_hex(KEY_BYTES) + "\n")
