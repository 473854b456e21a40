"""What names a row in each table that feeds fill, and which of its times tell when a unit was seen."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FeedTable:
    """A table that a feed fills.

    Attributes:
        name: the table.
        key: columns that name a row; of two rows with one key the file ranked higher wins (rule 1).
        times: columns that tell when the unit was seen, for the look-up bound; empty where it has no unit.
        touches: how its rows touch units: by `vin`, or by a file of `queries/load/`; None for no stamp.
        incoming: the file that makes its rows ready, where ids may have to be made.
    """

    name: str
    key: tuple[str, ...]
    times: tuple[str, ...] = ()
    touches: str | None = "vin"
    incoming: str = "incoming"


FEED_TABLES: dict[str, FeedTable] = {
    table.name: table
    for table in (
        FeedTable(
            "unit_sent",
            ("vin", "build_seq", "model", "line", "kind", "line_off_at"),
            ("line_off_at",),
        ),
        FeedTable("attribute", ("vin", "name", "at", "station", "source"), ("at",)),
        FeedTable(
            "repair",
            ("repair_id",),
            ("started_at", "ended_at", "entered_at"),
            incoming="incoming_repair",
        ),
        FeedTable("event", ("event_id",), ("at",), incoming="incoming_event"),
        FeedTable("defect_code", ("code", "test", "valid_from"), touches="touch_code"),
        FeedTable("zone", ("zone", "test"), touches=None),
        FeedTable(
            "countermeasure", ("action_id",), touches=None, incoming="incoming_countermeasure"
        ),
        FeedTable("lot", ("part", "lot", "from_build_seq", "from_at"), touches=None),
        FeedTable(
            "correction",
            ("correction_id",),
            touches="touch_correction",
            incoming="incoming_correction",
        ),
        FeedTable("unit_key", ("kind", "value", "valid_from"), touches="touch_key"),
        FeedTable("shift_window", ("production_date", "shift"), touches="touch_shift"),
    )
}

PARTS: dict[str, tuple[str, ...]] = {
    "finding": ("code", "zone", "step"),
    "reading": ("name", "sample"),
}
"""Tables whose rows belong to a run, with what names a row within it."""

STAMPS_OF_PARTS: dict[str, tuple[str, ...]] = {
    "finding": (
        "counts_as",
        "test",
        "vin",
        "at",
        "kind",
        "production_date",
        "line_date",
        "line_shift",
    ),
    "reading": (),
}
"""Columns of these tables that no file sends."""
