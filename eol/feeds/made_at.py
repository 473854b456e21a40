"""When a file was made: as its name tells, else when it was last changed (rule 1)."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

from eol.feeds.times import text_time

_TIME = re.compile(r"\{made_at:(?P<format>[^{}]*)\}")
_WILDCARDS = {"*": ".*", "?": "."}
_DIGITS = {
    "%Y": r"\d{4}",
    "%f": r"\d{1,6}",
    "%j": r"\d{3}",
    "%z": r"(?:Z|[+-]\d\d:?\d\d)",
    **dict.fromkeys(("%y", "%m", "%d", "%H", "%I", "%M", "%S"), r"\d\d"),
}


def made_at(path: Path, *, pattern: str | None, zone: str) -> datetime:
    """Return when a file was made, UTC.

    Args:
        path: the file; it must be there.
        pattern: what its name looks like, such as WT_{made_at:%Y%m%d_%H%M}.csv; * and ? stand
            for any signs and any sign. None where names hold no time.
        zone: the zone or fixed offset of the time in the name.

    Returns:
        The time in the name, of one that came twice the earlier; else the time of its last change.
    """
    named = named_time(path.name, pattern=pattern, zone=zone) if pattern else None
    return named or datetime.fromtimestamp(path.stat().st_mtime, UTC)


def name_notes(path: Path, *, pattern: str | None, zone: str) -> tuple[str, ...]:
    """Say of a file whose name should hold a time and holds none that its last change counts."""
    if pattern is None or named_time(path.name, pattern=pattern, zone=zone):
        return ()
    return (f"the name does not fit made_at ({pattern}); the file's last change counts instead",)


def named_time(name: str, *, pattern: str, zone: str) -> datetime | None:
    """Return the time in a file's name, UTC; None where the name does not fit the pattern.

    Example:
        >>> named_time("WT_20260908_0600.csv.gz", pattern="WT_{made_at:%Y%m%d_%H%M}.csv",
        ...            zone="+01:00").isoformat()
        '2026-09-08T05:00:00+00:00'
    """
    found = _TIME.search(pattern)
    if found is None:
        return None
    before, after = pattern[: found.start()], pattern[found.end() :]
    name_form = (
        f"{_form(before)}({_time_form(found['format'])}){_form(after)}(?:\\.(?:gz|gzip|zst|zstd))?"
    )
    match = re.fullmatch(name_form, name)
    return text_time(match[1], time_format=found["format"], zone=zone) if match else None


def _form(text: str) -> str:
    return "".join(_WILDCARDS.get(sign, re.escape(sign)) for sign in text)


def _time_form(time_format: str) -> str:
    parts = re.findall(r"%.|.", time_format)
    return "".join(
        _DIGITS.get(part, ".+?" if part[0] == "%" else re.escape(part)) for part in parts
    )
