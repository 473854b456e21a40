"""Settings in, what is wrong between two of their values out; each fault is told with its key.

Names of tests are held against those that plant.toml writes, whether or not their tables are right.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from datetime import date, datetime

from eol.plant.clock import moment_to_utc
from eol.plant.faults import Fault
from eol.plant.nearest import nearest
from eol.plant.overlaps import check_shifts
from eol.plant.sections import Settings, StationSettings, TestSettings

FIXED_FEEDS = (
    "units",
    "attributes",
    "unit_keys",
    "repairs",
    "events",
    "lots",
    "defect_codes",
    "zones",
    "countermeasures",
    "corrections",
    "shifts",
)
"""The feeds that every plant has, beside those of its tests."""

TARGETS = ("line_ftt", "rty", "dphu")
"""Figures of the line that may have a target; a test's name may have one too, for its FTT."""

RUN_COLUMNS = (
    *("vin", "test", "station", "bay", "run_ref", "started_at", "ended_at", "result", "purpose"),
    *("program", "operator", "last_step", "revision"),
    *("code", "zone", "step", "severity", "quantity", "rating", "note"),
)
"""The columns of a test's feed; a condition is a column beside them, so it has another name."""

_TEST_NAME = re.compile(r"[a-z][a-z0-9_]*")
_TEST_FEEDS = ("", "_findings", "_readings")
_DISTURBING = ("action", "code", "owner_area")


def feed_names(tests: Collection[str]) -> tuple[str, ...]:
    """Return the names of all feeds of a plant with such tests."""
    return (*(test + end for test in tests for end in _TEST_FEEDS), *FIXED_FEEDS)


def cross_faults(settings: Settings, tests: Collection[str]) -> list[Fault]:
    """Return what is wrong between values, in the order of the sections.

    Args:
        settings: the sections that are right by themselves.
        tests: names of all tests that plant.toml writes.
    """
    return [
        *check_shifts(settings),
        *(fault for name, test in settings.tests.items() for fault in _test(name, test, settings)),
        *_stations(settings, tests),
        *_clock_offsets(settings),
        *_references(settings, tests),
        *_disturbs(settings, tests),
        *_feeds(settings, tests),
        *_report(settings, tests),
        *_mail(settings),
        *_alarm(settings),
    ]


def _test(name: str, test: TestSettings, settings: Settings) -> Iterator[Fault]:
    here = ("test", name)
    if not _TEST_NAME.fullmatch(name):
        yield Fault(here, "a test's name is made of small letters, digits and _, a letter first")
    if name in FIXED_FEEDS or name.endswith(_TEST_FEEDS[1:]):
        yield Fault(here, f"{name} is the name of a feed; give the test another name")
    yield from _doubles((*here, "steps"), test.steps)
    starts_on = settings.plant.starts_on
    plan_dates = [plan.valid_from or starts_on for plan in test.plan]
    yield from _double_dates((*here, "plan"), [(name, day) for day in plan_dates])
    dated = [(row.name, row.valid_from or starts_on) for row in test.condition]
    yield from _double_dates((*here, "condition"), dated)
    yield from _conditions(here, test)


def _conditions(here: tuple[str, str], test: TestSettings) -> Iterator[Fault]:
    for number, row in enumerate(test.condition):
        place = (*here, "condition", number)
        if row.lower is not None and row.upper is not None and row.lower > row.upper:
            right = f"must not be above upper, which is {row.upper:g}"
            yield Fault((*place, "lower"), right, row.lower)
        if row.name in RUN_COLUMNS:
            right = "is a column of every test; give the condition another name"
            yield Fault((*place, "name"), right, row.name)


def _stations(settings: Settings, tests: Collection[str]) -> Iterator[Fault]:
    known: set[tuple[str, str]] = set()
    for number, row in enumerate(settings.stations):
        here = ("station", number)
        yield from _undeclared((*here, "test"), row.test, tests)
        if (row.name, row.test) in known:
            yield Fault((*here, "name"), f"is there twice for the test {row.test}", row.name)
        known.add((row.name, row.test))
        yield from _doubles((*here, "bays"), row.bays)
        yield from _aliases(here, row)


def _aliases(here: tuple[str, int], row: StationSettings) -> Iterator[Fault]:
    for alias, bay in row.bay_alias.items():
        place = (*here, "bay_alias", alias)
        if bay not in row.bays:
            yield Fault(place, f"no such bay; {_offer(bay, row.bays, 'bays')}", bay)
        elif alias in row.bays:
            yield Fault(place, f"{alias} is itself a bay of {row.name}", bay)


def _clock_offsets(settings: Settings) -> Iterator[Fault]:
    zone = settings.plant.zone
    last_end: dict[str, datetime | None] = {}
    spans = [
        (moment_to_utc(row.valid_from, zone), row.valid_to and moment_to_utc(row.valid_to, zone))
        for row in settings.clock_offsets
    ]
    for number in sorted(range(len(spans)), key=lambda one: spans[one][0]):
        row, (start, end) = settings.clock_offsets[number], spans[number]
        place = ("clock_offset", number)
        if end is not None and end <= start:
            yield Fault((*place, "valid_to"), "must be after valid_from", row.valid_to)
        before = last_end.get(row.station, start)
        if before is None or before > start:
            right = f"station {row.station} already has an offset then; let one end first"
            yield Fault((*place, "valid_from"), right, row.valid_from)
        last_end[row.station] = end


def _references(settings: Settings, tests: Collection[str]) -> Iterator[Fault]:
    for number, row in enumerate(settings.references):
        yield from _undeclared(("reference", number, "test"), row.test, tests)


def _disturbs(settings: Settings, tests: Collection[str]) -> Iterator[Fault]:
    for number, row in enumerate(settings.disturbs):
        given = [name for name in _DISTURBING if getattr(row, name) is not None]
        if len(given) != 1:
            right = "must have just one of action, code and owner_area"
            yield Fault(("disturbs", number), right, ", ".join(given) or None)
        for place, test in enumerate(row.tests):
            yield from _undeclared(("disturbs", number, "tests", place), test, tests)


def _feeds(settings: Settings, tests: Collection[str]) -> Iterator[Fault]:
    known, patterns = feed_names(tests), dict[str, str]()
    for name, feed in settings.feeds.items():
        here = ("feed", name)
        if name not in known:
            yield Fault(here, f"is no feed of this plant; {_offer(name, known, 'feeds')}")
        if feed.files in patterns:
            right = f"feed.{patterns[feed.files]} has the same files; a file has one feed"
            yield Fault((*here, "files"), right, feed.files)
        if feed.files is not None:
            patterns[feed.files] = name
        if feed.delimiter == feed.decimal:
            yield Fault((*here, "delimiter"), "cannot also be the decimal sign", feed.delimiter)


def _report(settings: Settings, tests: Collection[str]) -> Iterator[Fault]:
    known = (*TARGETS, *tests)
    for figure in settings.report.target:
        if figure not in known:
            right = f"no figure with a target; {_offer(figure, known, 'figures')}"
            yield Fault(("report", "target", figure), right)


def _mail(settings: Settings) -> Iterator[Fault]:
    if settings.mail.host is None:
        return
    for name in ("sender", "to"):
        if not getattr(settings.mail, name):
            yield Fault(("mail", name), "is missing; a relay (host) needs it")


def _alarm(settings: Settings) -> Iterator[Fault]:
    alarm = settings.alarm
    if alarm.count > alarm.within_units:
        right = f"must not be above within_units, which is {alarm.within_units}"
        yield Fault(("alarm", "count"), right, alarm.count)


def _undeclared(
    location: tuple[str | int, ...], test: str, tests: Collection[str]
) -> Iterator[Fault]:
    if test not in tests:
        right = f"no such test is declared; {_offer(test, tests, 'tests')}"
        yield Fault(location, right, test)


def _doubles(location: tuple[str | int, ...], words: Sequence[str]) -> Iterator[Fault]:
    for number, word in enumerate(words):
        if word in words[:number]:
            yield Fault((*location, number), "is there twice", word)


def _double_dates(
    location: tuple[str | int, ...], rows: Sequence[tuple[str, date]]
) -> Iterator[Fault]:
    """Of two rows from one day on neither is the newest; one without a day is from starts_on."""
    for number, row in enumerate(rows):
        if row in rows[:number]:
            right = f"there are two rows of {row[0]} from this day on; let one start later"
            yield Fault((*location, number, "valid_from"), right, row[1])


def _offer(word: str, known: Collection[str], what: str) -> str:
    """The nearest right word, else the words there are."""
    if near := nearest(word, known):
        return f"the nearest right one is {near}"
    return f"{what} are " + ", ".join(known) if known else f"there are no {what}"
