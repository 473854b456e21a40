"""The units of the invented plant in build order, with what upstream knows of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import polars as pl

from eol.demo.plan import (
    HOUR,
    MINUTE,
    PRODUCTION_DAYS,
    SHIFTS,
    UNITS_PER_SHIFT,
    Shift,
    shift_of,
)
from eol.feeds.vin import check_digits

FIRST_SEQ = 100_001
UNITS = UNITS_PER_SHIFT * len(SHIFTS)
MODELS = {"WAG": 0.55, "WAGL": 0.25, "VAN": 0.20}
COLOURS = {"slate": 0.32, "chalk": 0.28, "moss": 0.18, "brick": 0.12, "dusk": 0.10}
BEAD_SET = 6.0
"""The sealer bead as it is set, in mm."""

_BEAD_SPREAD = 0.12
_DESCRIPTORS = {"WAG": "WAG0", "WAGL": "WGL0", "VAN": "VAN0"}


@dataclass(slots=True)
class Unit:
    """One vehicle. `number` is its place in the record, from 0; seconds as in eol.demo.plan."""

    number: int
    vin: str
    build_seq: int | None
    model: str
    kind: str
    line_off: int | None
    sealed: int
    roof: str
    drive: str
    colour: str
    robot: str
    bead: float
    clip_lot: str | None = None

    @property
    def shift(self) -> Shift:
        """The shift in which a production unit left the line."""
        return SHIFTS[self.number // UNITS_PER_SHIFT]


def build_units(rng: np.random.Generator, opening_roof: Sequence[float]) -> list[Unit]:
    """Return the production units in build order, without any story but the roofs.

    Args:
        rng: source of every draw.
        opening_roof: share of opening roofs on each production day.
    """
    models = rng.choice(list(MODELS), UNITS, p=list(MODELS.values()))
    seconds = np.concatenate([_line_off(rng, shift) for shift in SHIFTS])
    share = np.repeat(np.asarray(opening_roof), UNITS // PRODUCTION_DAYS)
    roofs = np.where(rng.random(UNITS) < share, "opening", "fixed")
    drives = np.where(rng.random(UNITS) < 0.3, "two motors", "one motor")
    colours = rng.choice(list(COLOURS), UNITS, p=list(COLOURS.values()))
    robots = np.where(rng.random(UNITS) < 0.49, "R07", "R08")
    beads = np.round(rng.normal(BEAD_SET, _BEAD_SPREAD, UNITS), 2)
    vins = make_vins([_DESCRIPTORS[m] + f"?TK{FIRST_SEQ + n:06}" for n, m in enumerate(models)])
    return [
        Unit(
            number=n,
            vin=vins[n],
            build_seq=FIRST_SEQ + n,
            model=str(models[n]),
            kind="production",
            line_off=int(seconds[n]),
            sealed=_sealed(n, int(seconds[n])),
            roof=str(roofs[n]),
            drive=str(drives[n]),
            colour=str(colours[n]),
            robot=str(robots[n]),
            bead=float(beads[n]),
        )
        for n in range(UNITS)
    ]


def make_vins(endings: Sequence[str]) -> list[str]:
    """Return VINs of the invented maker 0ZZK, their check digit put for the "?"."""
    drafts = pl.Series([f"0ZZK{ending}" for ending in endings])
    digits = check_digits(drafts.str.replace("?", "0", literal=True))
    return [draft.replace("?", digit) for draft, digit in zip(drafts, digits, strict=True)]


def trial_units(count: int, *, day: int) -> list[Unit]:
    """Return the trial vans of one day, an hour apart; they have no place in the build order."""
    starts = shift_of(day, "day").starts
    vins = make_vins([f"VAN0?TK{900_001 + n}" for n in range(count)])
    return [
        Unit(
            number=UNITS + n,
            vin=vin,
            build_seq=None,
            model="VAN",
            kind="trial",
            line_off=starts + HOUR * (n + 1),
            sealed=starts - 24 * HOUR,
            roof="fixed",
            drive="two motors",
            colour="chalk",
            robot="R08",
            bead=BEAD_SET,
        )
        for n, vin in enumerate(vins)
    ]


def reference_units(count: int, *, after: int) -> list[Unit]:
    """Return vehicles with a known leak, one a water bay; they never left this line."""
    vins = make_vins([f"REF0?{n + 1:08}" for n in range(count)])
    return [
        Unit(
            number=after + n,
            vin=vin,
            build_seq=None,
            model="WAG",
            kind="reference",
            line_off=None,
            sealed=0,
            roof="fixed",
            drive="one motor",
            colour="slate",
            robot="R08",
            bead=BEAD_SET,
        )
        for n, vin in enumerate(vins)
    ]


def _line_off(rng: np.random.Generator, shift: Shift) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    takt = (shift.ends - shift.starts) / UNITS_PER_SHIFT
    even = shift.starts + takt * (np.arange(UNITS_PER_SHIFT) + 0.5)
    return np.sort((even + rng.uniform(-25, 25, UNITS_PER_SHIFT)).astype(np.int64))


def _sealed(number: int, line_off: int) -> int:
    """When the seams were sealed: a working day and some minutes before the line's end."""
    monday = SHIFTS[number // UNITS_PER_SHIFT].day % 5 == 1
    return line_off - (72 if monday else 24) * HOUR - 20 * MINUTE
