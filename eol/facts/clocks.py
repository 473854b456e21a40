"""Do the clocks of the stations agree? Three witnesses, none of which needs a clock to be right.

How long after a station's last run its file was made; how long units take from the station before and
to the station after; and units that were at two stations at once. Times are those that count: what
clock_offset of plant.toml adds is in them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import median

from eol.facts.asked import Question
from eol.facts.reader import Row
from eol.facts.remark import Remark, joined, lasting
from eol.words import counted

JUMP_SECONDS = 600.0
"""A file made so much later after its last run than usual tells of a clock, or of a late file."""

LATE_SECONDS = 3 * 3600.0
"""Beyond this it is the file that is late: no clock is hours slow."""

OFF_SECONDS = 300.0
"""Hand-overs before and after a station that move against each other by more tell of its clock."""

_MADE_BEFORE = -60.0  # names of files give whole minutes
_FILES_AROUND = timedelta(days=35)
_WAYS_AROUND = timedelta(days=14)
_FILES_THAT_TELL = 3
_UNITS_THAT_TELL = 10
_SHIFTS_THAT_TELL = 3


@dataclass(frozen=True, slots=True)
class Clock:
    """What the data tell of the clock of one station in one shift; lengths are in seconds.

    Attributes:
        station: name of the station.
        test: its test.
        files: files with its runs of the shift, late ones left out.
        delay: from the last run in a file to the making of the file, median of those; None without.
        usual_delay: the same over all its files of 35 days around; None with fewer than three.
        n: units handed over to it or by it in the shift; 0 where hand-overs do not tell.
        slow_by: how much its clock is behind by the hand-overs, below 0 where it is ahead, 0 where
            they take as long as usual; None where they do not tell.
        added: what clock_offset adds to its times in the shift.
    """

    station: str
    test: str
    files: int
    delay: float | None
    usual_delay: float | None
    n: int
    slow_by: float | None
    added: float

    @property
    def jump(self) -> float | None:
        """How much longer than usual after its last run its files were made."""
        if self.delay is None or self.usual_delay is None:
            return None
        return self.delay - self.usual_delay


@dataclass(frozen=True, slots=True)
class LateFile:
    """A file that came hours later than the files of its station do; `n` is its runs of the shift."""

    file: str
    station: str
    bay: str | None
    n: int
    first_at: datetime
    last_at: datetime
    delay: float


@dataclass(frozen=True, slots=True)
class TwoPlaces:
    """Units with runs that overlap in time at two stations; `seconds` is the median overlap."""

    station: str
    other_station: str
    units: int
    seconds: float


def clock_facts(question: Question) -> tuple[tuple[Clock, ...], tuple[LateFile, ...]]:
    """Return the clock of each station that ran in the shift, and the files that came late."""
    around = _around(question, _FILES_AROUND)
    files: dict[str, list[Row]] = {}
    for row in question.rows("file_delays", **around):
        files.setdefault(row["station"], []).append(row)
    ways: dict[str, list[Row]] = {}
    for row in question.rows("hand_overs", **_around(question, _WAYS_AROUND)):
        ways.setdefault(row["station"], []).append(row)
    added = {row["station"]: row["seconds"] for row in question.rows("clock_offsets")}
    ran = {name: rows for name, rows in files.items() if any(row["shift_runs"] for row in rows)}
    shift = (question.asked.production_date, question.asked.shift)
    clocks = [
        _clock(name, rows, _slow_by(ways.get(name, []), shift), added.get(name, 0.0))
        for name, rows in sorted(ran.items())
    ]
    return tuple(clocks), tuple(late for rows in ran.values() for late in _late_files(rows))


def two_places(question: Question) -> tuple[int, tuple[TwoPlaces, ...]]:
    """Return the units that were at two stations at once in the 7 days up to a day after the shift.

    Returns:
        How many units, each counted once; and the pairs of stations, most units first.
    """
    until = question.asked.ends_at + timedelta(days=1)
    found = question.rows("two_places", from_at=until - timedelta(days=7), to_at=until)
    pairs = (
        TwoPlaces(row["station"], row["other_station"], row["units"], row["seconds"])
        for row in found
    )
    return (found[0]["all_units"] if found else 0), tuple(pairs)


def _around(question: Question, days: timedelta) -> dict[str, datetime]:
    return {"from_at": question.asked.starts_at - days, "to_at": question.asked.ends_at + days}


def _clock(station: str, files: list[Row], way: tuple[int, float | None], added: float) -> Clock:
    usual = _usual_delay(files)
    late = {late.file for late in _late_files(files)}
    present = [r["delay"] for r in files if r["shift_runs"] and _name(r["path"]) not in late]
    return Clock(
        station=station,
        test=files[0]["test"],
        files=len(present),
        delay=float(median(present)) if present else None,
        usual_delay=usual,
        n=way[0],
        slow_by=way[1],
        added=added,
    )


def _usual_delay(files: list[Row]) -> float | None:
    delays = [row["delay"] for row in files]
    return float(median(delays)) if len(delays) >= _FILES_THAT_TELL else None


def _late_files(files: list[Row]) -> Iterator[LateFile]:
    usual = _usual_delay(files)
    for row in files:
        if row["shift_runs"] and usual is not None and row["delay"] - usual > LATE_SECONDS:
            yield LateFile(
                file=_name(row["path"]),
                station=row["station"],
                bay=row["first_bay"] if row["bays"] == 1 else None,
                n=row["shift_runs"],
                first_at=row["first_at"],
                last_at=row["last_at"],
                delay=row["delay"],
            )


def _name(path: str) -> str:
    return path.replace("\\", "/").rsplit("/", 1)[-1]


def _slow_by(ways: list[Row], shift: tuple[object, object]) -> tuple[int, float | None]:
    """How much a clock is behind: hand-overs to it shorter and from it longer, by as much."""
    sides = [_side(ways, shift, side) for side in ("before", "after")]
    if any(side is None for side in sides):
        return 0, None
    (n_before, before), (n_after, after) = (side or (0, 0.0) for side in sides)
    shorter, longer = -before, after
    n, mean = n_before + n_after, (shorter + longer) / 2
    apart = abs(shorter - longer) > 60 + 0.2 * abs(mean)
    against = shorter * longer > 0 and min(abs(shorter), abs(longer)) >= OFF_SECONDS
    return n, mean if against and not apart else 0.0


def _side(ways: list[Row], shift: tuple[object, object], side: str) -> tuple[int, float] | None:
    """Units of the shift on one side, and how much longer than usual their median takes."""
    told = [row for row in ways if row[f"n_{side}"] >= _UNITS_THAT_TELL]
    present = [row for row in told if (row["production_date"], row["shift"]) == shift]
    usual = [row[side] for row in told if row not in present]
    if not present or len(usual) < _SHIFTS_THAT_TELL:
        return None
    return present[0][f"n_{side}"], present[0][side] - median(usual)


def clock_remarks(clocks: Sequence[Clock], late: Sequence[LateFile]) -> Iterator[Remark]:
    """Tell each clock that is off, files that come late, and offsets in force."""
    yield from _by_hand_overs(clocks)
    for clock in clocks:
        yield from _by_files(clock)
    for file in late:
        place = file.station if file.bay is None else f"{file.station} bay {file.bay}"
        span = f"{file.first_at:%H:%M} to {file.last_at:%H:%M}"
        runs = f"{counted(file.n, 'run')} of {place}, {span},"
        text = f"{runs} came {lasting(file.delay)} after the last of them, in {file.file}"
        yield Remark("look", file.n, text)
    yield from _offsets(clocks)


def _by_hand_overs(clocks: Sequence[Clock]) -> Iterator[Remark]:
    """The stations of one bench computer share its clock: one sentence for all that are off alike."""
    off: dict[str, list[Clock]] = {}
    for clock in clocks:
        if clock.slow_by:
            way = "slow" if clock.slow_by > 0 else "fast"
            off.setdefault(f"about {lasting(abs(clock.slow_by))} {way}", []).append(clock)
    for words, group in off.items():
        names = joined([clock.station for clock in group])
        head = f"the clock of {names} is" if len(group) == 1 else f"the clocks of {names} are"
        told = f"by {sum(clock.n for clock in group)} hand-overs from and to other stations"
        yield Remark("doubt", len(group), f"{head} {words}, {told}")


def _by_files(clock: Clock) -> Iterator[Remark]:
    jump, off = clock.jump, bool(clock.slow_by)
    if clock.delay is not None and clock.delay < _MADE_BEFORE:
        ahead = f"at least {lasting(-clock.delay)} fast: its files are older than their last run"
        yield Remark("doubt", clock.files, f"the clock of {clock.station} is {ahead}")
    elif jump is None or abs(jump) <= JUMP_SECONDS or off:
        return
    elif clock.slow_by is None:
        way, files = ("slow", "later") if jump > 0 else ("fast", "sooner")
        text = f"the clock of {clock.station} is about {lasting(abs(jump))} {way}"
        yield Remark("look", clock.files, f"{text}, or its files come {files} than usual")
    else:
        way = "later" if jump > 0 else "sooner"
        text = f"the files of {clock.station} come {lasting(abs(jump))} {way} than usual"
        yield Remark("note", clock.files, f"{text}; by its hand-overs its clock is right")


def _offsets(clocks: Sequence[Clock]) -> Iterator[Remark]:
    by_words: dict[str, list[Clock]] = {}
    for clock in clocks:
        if clock.added:
            right = "nothing else tells whether that is right"
            if clock.slow_by is not None:
                right = "still off" if clock.slow_by else "with it hand-overs take as long as usual"
            by_words.setdefault(f"{lasting(clock.added)}|{right}", []).append(clock)
    for words, group in by_words.items():
        added, right = words.split("|")
        names = joined([clock.station for clock in group])
        text = f"clock_offset adds {added} to the times of {names}; {right}"
        yield Remark("note", len(group), text)


def two_places_remarks(units: int, pairs: Sequence[TwoPlaces]) -> Iterator[Remark]:
    """Tell how many units were in two places at once, and where most."""
    if not units:
        return
    shown = [f"{p.station} and {p.other_station} {p.units}" for p in pairs[:3]]
    rest = f", {len(pairs) - 3} more pairs of stations" if len(pairs) > 3 else ""
    were = "unit was" if units == 1 else "units were"
    text = f"{units} {were} at two stations at once in 7 days: {joined(shown)}{rest}"
    yield Remark("look", units, f"{text}; a clock is wrong, or a VIN")
