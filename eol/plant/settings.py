"""plant.toml in, frozen settings out; or every fault in it, with key, value and what is right."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from eol.errors import PlantFileError
from eol.plant.checks import cross_faults, feed_names
from eol.plant.faults import Fault, structure_faults
from eol.plant.sections import (
    AlarmSettings,
    ClockOffsetSettings,
    ConditionSettings,
    DisturbsSettings,
    FeedSettings,
    InboxSettings,
    MailSettings,
    PersonsSettings,
    PlanSettings,
    PlantSettings,
    ReferenceSettings,
    ReportSettings,
    RetentionSettings,
    ScheduleSettings,
    Settings,
    ShiftSettings,
    StationSettings,
    TestSettings,
)

__all__ = [
    "AlarmSettings",
    "ClockOffsetSettings",
    "ConditionSettings",
    "DisturbsSettings",
    "FeedSettings",
    "InboxSettings",
    "MailSettings",
    "PersonsSettings",
    "PlanSettings",
    "PlantSettings",
    "ReferenceSettings",
    "ReportSettings",
    "RetentionSettings",
    "ScheduleSettings",
    "Settings",
    "ShiftSettings",
    "StationSettings",
    "TestSettings",
    "feed_names",
    "parse_settings",
    "read_settings",
]

_STAND_INS: dict[str, Any] = {
    "plant": {"name": "?", "timezone": "UTC", "starts_on": date(2000, 1, 1)},
    "shift": [{"name": "?", "starts": "00:00", "ends": "24:00"}],
    "test": {"stand_in": {}},
}
"""What stands for a faulty section, so that the others can be held against each other."""

_POSITION = re.compile(r"(?P<what>.*) \((?P<place>at .*)\)", re.DOTALL)


def read_settings(path: Path) -> Settings:
    """Read and check a plant.toml whole.

    Raises:
        PlantFileError: the file cannot be read, is no TOML or has faults; all of them are named.
    """
    try:
        content = path.read_bytes()
    except FileNotFoundError as error:
        hint = "Make a plant folder with `eol init`, or name one with --plant."
        raise PlantFileError("there is no such file", where=str(path), hint=hint) from error
    except OSError as error:
        what = f"the file cannot be read: {error.strerror}"
        raise PlantFileError(what, where=str(path)) from error
    return parse_settings(_text(content, str(path)), where=str(path))


def parse_settings(text: str, *, where: str = "plant.toml") -> Settings:
    """Check the text of a plant.toml whole; a byte order mark before it is no fault.

    Raises:
        PlantFileError: the text is no TOML or has faults; all of them are named.
    """
    data = _toml(text.removeprefix("\ufeff"), where)
    faults: list[Fault] = []
    try:
        settings = Settings.model_validate(data)
    except ValidationError as error:
        faults = structure_faults(error, Settings)
        # One slip must not hide the others, so what is right is still held against itself.
        settings = Settings.model_validate(_sound_part(data, faults))
    faults += cross_faults(settings, _test_names(data))
    if faults:
        raise PlantFileError(_list_of(faults), where=where)
    return settings


def _text(content: bytes, where: str) -> str:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        what, hint = (
            "the file is not in UTF-8",
            "Save it as UTF-8 in the editor; nothing was changed.",
        )
        raise PlantFileError(what, where=f"{where}, line {line}", hint=hint) from error


def _toml(text: str, where: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        match = _POSITION.fullmatch(str(error))
        what, place = (match["what"], match["place"]) if match else (str(error), "")
        if place == "at end of document":
            place = f"at line {text.count(chr(10)) + 1}, the end of the file"
        raise PlantFileError(
            f"this is no TOML: {what}", where=f"{where}, {place.removeprefix('at ')}"
        ) from error


def _sound_part(data: Mapping[str, Any], faults: Iterable[Fault]) -> dict[str, Any]:
    """The sections without a fault of their own; of tests and feeds those without one."""
    sound = dict(data)
    for fault in faults:
        section, name = fault.location[0], fault.location[1:2]
        if section in ("test", "feed") and name and isinstance(sound.get(section), dict):
            sound[section] = {key: one for key, one in sound[section].items() if key != name[0]}
        else:
            sound.pop(str(section), None)
    return _STAND_INS | {section: content for section, content in sound.items() if content}


def _test_names(data: Mapping[str, Any]) -> tuple[str, ...]:
    tests = data.get("test")
    return tuple(tests) if isinstance(tests, dict) else ()


def _list_of(faults: list[Fault]) -> str:
    if len(faults) == 1:
        return str(faults[0])
    return f"{len(faults)} things are wrong" + "".join(f"\n    {fault}" for fault in faults)
