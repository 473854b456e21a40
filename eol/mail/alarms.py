"""What may not wait for the shift's report: escapes, safety-related findings, one code again and again."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from eol.facts.reader import Reader, Row, rows
from eol.facts.units import NO_HANDLING
from eol.plant.sections import AlarmSettings
from eol.report.formats import listed, moment_words, time_words
from eol.words import counted


@dataclass(frozen=True, slots=True)
class AlarmUnit:
    """A unit of an alarm, with the catalogue's words of handling where it has some."""

    vin: str
    words: str
    handling: str


@dataclass(frozen=True, slots=True)
class Alarm:
    """One thing to be told at once.

    Attributes:
        kind: `escape`, `safety` or `repeat`.
        key: what makes it the same alarm tomorrow, as a JSON object: it is mailed once.
        head: what happened, in one line.
        start: where to start.
        units: the units it is of.
    """

    kind: str
    key: str
    head: str
    start: str
    units: tuple[AlarmUnit, ...]


def alarms(reader: Reader, settings: AlarmSettings, *, since: datetime) -> list[Alarm]:
    """Return all that is alarming since a moment, told before or not, the gravest kind first.

    Args:
        reader: the published copy.
        settings: how many findings of one code and zone, within how many units.
        since: UTC.
    """
    escapes = rows(reader.run("mail", "alarm_escapes", since=since))
    safety = rows(reader.run("mail", "alarm_safety", since=since))
    repeats = rows(
        reader.run(
            "mail",
            "alarm_repeats",
            since=since,
            number=settings.count,
            within=settings.within_units,
        )
    )
    found = [*(_escape(row) for row in escapes), *(_safety(row) for row in safety)]
    return [*found, *_repeats(repeats, settings)]


def _escape(row: Row) -> Alarm:
    event = row["event"].replace("_", " ")
    reason = {"no_record": "no record", "void": "only void runs"}.get(row["reason"], row["reason"])
    return Alarm(
        "escape",
        _key(row, "vin", "test", "event"),
        f"Escape: {row['vin']}, {event} {moment_words(row['event_at'])}, "
        f"{row['title'].lower()}: {reason}",
        _last_place(row) + " Find it and hold it by the plant's own procedure.",
        (AlarmUnit(row["vin"], str(reason), row["handling"] or ""),),
    )


def _safety(row: Row) -> Alarm:
    return Alarm(
        "safety",
        _key(row, "vin", "test", "code", "zone"),
        f"Safety-related finding: {_code(row)} on {row['vin']}",
        f"Found {moment_words(row['found_at'])} at {_station(row)}. {_last_place(row)}",
        (AlarmUnit(row["vin"], _code(row), row["handling"] or NO_HANDLING),),
    )


def _repeats(found: Sequence[Row], settings: AlarmSettings) -> Iterator[Alarm]:
    for (test, code, zone), group in groupby(
        found, key=lambda row: (row["test"], row["code"], row["zone"])
    ):
        members = list(group)
        last = members[-1]
        last_shift = {"production_date": str(last["production_date"]), "shift": last["shift"]}
        key = json.dumps({"test": test, "code": code, "zone": zone} | last_shift)
        head = f"{counted(len(members), 'finding')} of {_code(last)}"
        head += f", {settings.count} or more within {settings.within_units} units"
        units = tuple(
            AlarmUnit(
                row["vin"],
                f"{_station(row)}, {time_words(row['found_at'])}",
                row["handling"] or "",
            )
            for row in members
        )
        yield Alarm("repeat", key, head, _start(members), units)


def _start(members: Sequence[Row]) -> str:
    """The place that most of them were found at, and from when to when."""
    place, most = Counter(_station(row) for row in members).most_common(1)[0]
    times = f"{time_words(members[0]['found_at'])} to {time_words(members[-1]['found_at'])}"
    return f"{members[0]['title']}: {most} of {len(members)} at {place}, {times}. Start there."


def _code(row: Row) -> str:
    words = [row["code"], row["code_title"] or ""]
    return " ".join(word for word in words if word) + (f" at {row['zone']}" if row["zone"] else "")


def _station(row: Row) -> str:
    return " ".join(part for part in (row["station"], row["bay"]) if part)


def _last_place(row: Row) -> str:
    return f"Last known place: {row['place'] or 'not told'}."


def _key(row: Row, *names: str) -> str:
    return json.dumps({name: row[name] for name in names})


def summary(found: Sequence[Alarm]) -> str:
    """Return some alarms in a few words, for a subject.

    Example:
        >>> summary([Alarm("escape", "", "", "", ()), Alarm("repeat", "", "", "", ())])
        '1 escape and 1 code again and again'
    """
    kinds = Counter(alarm.kind for alarm in found)
    names = (
        ("escape", "escape", "escapes"),
        ("safety", "safety-related finding", "safety-related findings"),
        ("repeat", "code again and again", "codes again and again"),
    )
    return listed([counted(kinds[kind], one, more) for kind, one, more in names if kinds[kind]])
