"""Writes down the figures of a shift when it first settles, so that a later change of them shows."""

from __future__ import annotations

from datetime import timedelta

from eol.store.database import Database

LOOK_BACK = timedelta(days=7)
"""Shifts older than this at the load are history that nobody has met about."""


def note_settled(store: Database) -> None:
    """Copy the figures of newly settled shifts into `figure_sent`, without a recipient (rule 11).

    The caller holds the transaction; the units must have been stamped. A figure that a later file
    moves then has a row in `figure_change`.
    """
    clock = store.query_rows("store", "data_clock")[0][0]
    if clock is None:
        return
    since = (clock - LOOK_BACK).date()
    # Nearly every load settles nothing; to plan the views of all figures costs more than a small file.
    if not store.query_rows("load", "may_settle", since=since, clock=clock)[0][0]:
        return
    if store.run("load", "settled_now", since=since).item():
        store.run("load", "settle", since=since)
