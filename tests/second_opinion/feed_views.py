"""What each station and feed sent last, and how long it has been silent (rules 11, 14)."""

from __future__ import annotations

from datetime import datetime, timedelta

from second_opinion.records import Book, Row
from second_opinion.status import repair_time
from second_opinion.unit_views import seconds_between


def views(book: Book) -> dict[str, list[Row]]:
    """The views of stations and feeds."""
    return {"station_latest": station_latest(book), "feed_status": feed_status(book)}


def station_latest(book: Book) -> list[Row]:
    """One row a station: the end of its newest run, of any test and any unit, counted or not."""
    newest: dict[str, datetime] = {}
    for run in book.runs:
        newest[run["station"]] = max(run["at"], newest.get(run["station"], run["at"]))
    return [{"station": station, "last_at": at} for station, at in newest.items()]


def feed_status(book: Book) -> list[Row]:
    """One row a station of a test, declared or heard of, and one a feed that is no test and came."""
    places = {(run["test"], run["station"]) for run in book.runs}
    places |= {(place["test"], place["name"]) for place in book.settings.get("station", [])}
    rows = [feed_row(book, test, place, run_ends(book, test, place)) for test, place in places]
    came = {file["feed"] for file in book.files} - set(book.settings["test"])
    return rows + [feed_row(book, feed, None, times_told(book, feed)) for feed in came]


def run_ends(book: Book, test: str, station: str) -> list[datetime]:
    """The ends of a station's runs of a test."""
    return [r["at"] for r in book.runs if (r["test"], r["station"]) == (test, station)]


def times_told(book: Book, feed: str) -> list[datetime]:
    """The times that events, repairs and units tell; where there are none, when the files were made."""
    if feed == "events":
        return [event["at"] for event in book.events]
    if feed == "repairs":
        return [at for repair in book.repairs if (at := repair_time(repair)) is not None]
    if feed == "units":
        rows = [row for file in book.files if file["feed"] == "units" for row in file["rows"]]
        told = [row["line_off_at"] for row in rows if row.get("line_off_at") is not None]
        return told or (files_made(book, feed) if rows else [])
    return files_made(book, feed)


def files_made(book: Book, feed: str) -> list[datetime]:
    """When the files of a feed were made."""
    return [file["made_at"] for file in book.files if file["feed"] == feed]


def feed_row(book: Book, feed: str, station: str | None, times: list[datetime]) -> Row:
    """What was sent last, the whole seconds from then to the data clock, and what to call it."""
    last, now = max(times, default=None), book.as_of
    return {
        "feed": feed,
        "station": station,
        "last_row_at": last,
        "silent_for": seconds_between(last, now) if last and now else None,
        "state": state(book, last),
        "last_file_at": max(files_made(book, feed), default=None),
    }


def state(book: Book, last: datetime | None) -> str:
    """Never where nothing came, silent after more than silence_limit, else sending."""
    if last is None:
        return "never"
    limit = timedelta(seconds=book.settings["plant"].get("silence_limit", 86400))
    return "silent" if book.as_of and book.as_of - last > limit else "sending"
