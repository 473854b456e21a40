"""Which stations are silent: by the wall clock, since the shift's end, and while the shift ran."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from eol.facts.asked import Question
from eol.facts.remark import Remark, joined, lasting, moment, place_words

RUNS_MISSED = 15.0
"""So many runs due and none seen is no chance: Poisson's probability of it is 3 in ten million."""


@dataclass(frozen=True, slots=True)
class Silent:
    """A station of a test, or the feed units, events or repairs, silent by the wall clock (rule 14).

    `last_at` is the newest it sent; None where it is declared and nothing ever came.
    """

    feed: str
    station: str | None
    last_at: datetime | None

    @property
    def name(self) -> str:
        """The station, or the feed where it has none."""
        return self.station or f"the feed {self.feed}"


@dataclass(frozen=True, slots=True)
class QuietPlace:
    """The longest silence of a place while the shift ran.

    `n` is its runs in the shift, `missed` how many were due meanwhile by what the other places of
    its test ran, or all other places where it has no other.
    """

    test: str
    station: str
    bay: str | None
    from_at: datetime
    to_at: datetime
    n: int
    missed: float


@dataclass(frozen=True, slots=True)
class AbsentPlace:
    """A place without a run in the shift that had `fewest` to `most` in `shifts` of the 8 before."""

    test: str
    station: str
    bay: str | None
    shifts: int
    fewest: int
    most: int


@dataclass(frozen=True, slots=True)
class Silence:
    """All silences that bear on a shift.

    `unheard` are the stations that ran in it and the units feed (None) that have sent nothing newer
    than its end; `now` is the wall clock.
    """

    now: datetime
    silent: tuple[Silent, ...]
    heard: int
    unheard: tuple[str | None, ...]
    quiet: tuple[QuietPlace, ...]
    absent: tuple[AbsentPlace, ...]


def silence_facts(question: Question, *, now: datetime) -> Silence:
    """Return the silences; `now` is the wall clock, aware."""
    stations = question.rows("waits_for_station")
    return Silence(
        now=now.astimezone(question.zone),
        silent=tuple(Silent(**row) for row in question.rows("silent", now=now)),
        heard=sum(row["station"] is not None for row in stations),
        unheard=tuple(
            row["station"]
            for row in stations
            if row["last_at"] is not None and row["last_at"] < question.asked.ends_at
        ),
        quiet=tuple(_quiet(question)),
        absent=tuple(AbsentPlace(**row) for row in question.rows("absent_places")),
    )


def _quiet(question: Question) -> Iterator[QuietPlace]:
    for row in question.rows("quiet_places"):
        meanwhile, others = row.pop("others_meanwhile"), row.pop("others")
        runs = row.pop("runs")
        if others > meanwhile:
            yield QuietPlace(**row, n=runs, missed=meanwhile * runs / (others - meanwhile))


def silence_remarks(silence: Silence, *, running: bool) -> Iterator[Remark]:
    """Tell the silences; those after the shift's end put its figures in doubt."""
    if silence.unheard and not running:
        names = joined([name or "the units feed" for name in silence.unheard])
        have = "has" if len(silence.unheard) == 1 else "have"
        n = len(silence.unheard)
        yield Remark("doubt", n, f"{names} {have} sent nothing since the shift's end")
    for place in silence.quiet:
        if place.missed >= RUNS_MISSED:
            yield Remark("look", place.n, _quiet_words(place))
    for gone in silence.absent:
        if not running and gone.fewest >= RUNS_MISSED:
            usual = f"{gone.fewest} to {gone.most} in the shifts before"
            text = f"{place_words(gone.station, gone.bay)} sent no run of the shift, {usual}"
            yield Remark("look", gone.most, text)
    yield from _by_the_wall_clock(silence)


def _quiet_words(place: QuietPlace) -> str:
    span = f"{place.from_at:%H:%M} to {place.to_at:%H:%M}"
    missed = f"about {place.missed:.0f} runs were due by what the others ran"
    return f"{place_words(place.station, place.bay)} sent nothing from {span}; {missed}"


def _by_the_wall_clock(silence: Silence) -> Iterator[Remark]:
    """One sentence where all fell silent together, else one for each."""
    never = [one.name for one in silence.silent if one.last_at is None]
    heard = [(one.last_at, one.name) for one in silence.silent if one.last_at is not None]
    stations = [one for one in silence.silent if one.station and one.last_at is not None]
    if stations and len(stations) >= silence.heard > 1:
        newest = max(last_at for last_at, _ in heard)
        yield Remark("look", len(heard), f"nothing has come {_since(silence, newest)}")
    else:
        for last_at, name in heard:
            yield Remark("look", 1, f"{name} has sent nothing {_since(silence, last_at)}")
    if never:
        text = f"{joined(never)}: declared, but nothing has come yet"
        yield Remark("note", len(never), text)


def _since(silence: Silence, last_at: datetime) -> str:
    ago = lasting((silence.now - last_at).total_seconds())
    return f"since {moment(last_at)}, {ago} ago"
