"""Writes down the figures of a shift when it first settles, so that a later change of them shows."""

from __future__ import annotations

from datetime import date, timedelta

from eol.store.database import Database

LOOK_BACK = timedelta(days=7)
"""Shifts older than this at the load are history that nobody has met about."""

APART = 3
"""So many spans of dates are looked at each for itself."""


def note_settled(store: Database) -> None:
    """Copy the figures of newly settled shifts into `figure_sent`, without a recipient (rule 11).

    The caller holds the transaction; the units must have been stamped. A figure that a later file
    moves then has a row in `figure_change`.
    """
    clock = store.query_rows("store", "data_clock")[0][0]
    if clock is None:
        return
    since = (clock - LOOK_BACK).date()
    dates = [row[0] for row in store.query_rows("load", "may_settle", since=since, clock=clock)]
    for first, last in _spans(dates):
        if store.run("load", "settled_now", first=first, last=last).item():
            store.run("load", "settle", first=first, last=last)


def _spans(dates: list[date]) -> list[tuple[date, date]]:
    """Days in a row make one span; many spans, as after a pause, make one, with the days between."""
    spans: list[tuple[date, date]] = []
    for day in dates:
        if spans and day - spans[-1][1] == timedelta(days=1):
            spans[-1] = (spans[-1][0], day)
        else:
            spans.append((day, day))
    return spans if len(spans) <= APART else [(dates[0], dates[-1])]
