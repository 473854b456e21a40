"""The published copy in, the units that only tests know with the scheduled VINs like theirs out (rule 17).

Nothing is corrected by itself: the nearest VINs are offered, and a person sends a correction.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby

from eol.facts.reader import Reader, Row, rows

RECENT = timedelta(days=30)
"""How far before the data clock a run may lie for its unknown VIN to be looked into."""

_SCHEDULED_WITHIN = timedelta(days=30)
"""How much earlier than the oldest such run a unit may have left the line to be meant by it."""

_ID_STEP = 1 << 30


@dataclass(frozen=True, slots=True)
class NearVin:
    """A scheduled VIN like an unknown one.

    Attributes:
        vin: the VIN.
        distance: edits, swaps included, that part the two: 1 or 2.
        was_tested: whether that unit has a run of the test in question.
    """

    vin: str
    distance: int
    was_tested: bool

    def __str__(self) -> str:
        return self.vin if self.was_tested else f"{self.vin} (no run there yet)"


@dataclass(frozen=True, slots=True)
class UnknownVin:
    """A VIN that is in no schedule but was run in a test.

    Attributes:
        vin: as the test sent it.
        test: the test; station: where its last run was; runs: how many it had.
        last_at: the last run's time, UTC.
        nearest: at most three scheduled VINs, those without a run of the test first.
    """

    vin: str
    test: str
    station: str
    runs: int
    last_at: datetime
    nearest: tuple[NearVin, ...]

    def __str__(self) -> str:
        where = f"{self.test} at {self.station}, {self.last_at:%Y-%m-%d %H:%M} UTC"
        seen = f"VIN {self.vin} is in no schedule: {where}"
        if not self.nearest:
            return f"{seen}; no scheduled VIN is like it"
        return f"{seen}; perhaps {', '.join(map(str, self.nearest))}"


def unknown_vins(reader: Reader, data_clock: datetime | None) -> tuple[UnknownVin, ...]:
    """Return the unknown VINs of the last 30 days of data, the newest 50, a row a VIN and test.

    Args:
        reader: the published copy.
        data_clock: the newest time of the data, UTC; None in an empty store.
    """
    if data_clock is None:
        return ()
    since = data_clock - RECENT
    scheduled_since = since - _SCHEDULED_WITHIN
    found = reader.run(
        "status",
        "unknown_vin",
        since=since,
        scheduled_since=scheduled_since,
        first_run_id=int(scheduled_since.timestamp()) * _ID_STEP,
    )
    told = groupby(rows(found), key=lambda row: (row["vin"], row["test"]))
    return tuple(_unknown(list(group)) for _, group in told)


def _unknown(group: list[Row]) -> UnknownVin:
    first = group[0]
    return UnknownVin(
        first["vin"],
        first["test"],
        first["station"],
        first["runs"],
        first["last_at"],
        tuple(_near(group)),
    )


def _near(group: Iterable[Row]) -> Iterable[NearVin]:
    for row in group:
        if row["near_vin"] is not None:
            yield NearVin(row["near_vin"], row["distance"], row["near_was_tested"])
