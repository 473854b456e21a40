"""truth.json: what is true of the record by the generator's own bookkeeping, story by story."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from eol.demo.catalogue import TESTS
from eol.demo.judge import is_blind_pass
from eol.demo.outcome import Escape, escapes, line_states
from eol.demo.plan import RECORD_ENDS, SHIFTS, moment, shift_of
from eol.demo.record import Record
from eol.demo.story_truth import story_truths

TELLING_SHIFT = shift_of(11, "night")
"""Worn nozzle, blind bay, bad lot and false bench all at once."""


@dataclass(frozen=True, slots=True)
class SentFile:
    """A file of the demo: its path in the folder, its data rows, fingerprint and story."""

    path: str
    rows: int
    sha256: str
    story: str | None = None


@dataclass(frozen=True, slots=True)
class Truth:
    """What the tool must find, with the record's own counts.

    Attributes:
        record: sizes of the whole record.
        telling_shift: the shift in which the most stories run at once.
        shifts: one entry a shift with its figures a test and its line cohort.
        defects: defects a code over the whole record.
        stories: one entry a story, by its number.
        escapes: units signed off or shipped without proof, at the record's end.
        files: every file written.
    """

    seed: int
    record: dict[str, Any]
    telling_shift: dict[str, str]
    shifts: tuple[dict[str, Any], ...]
    defects: dict[str, int]
    stories: dict[str, dict[str, Any]]
    escapes: tuple[Escape, ...]
    files: tuple[SentFile, ...]

    def as_json(self) -> str:
        """Return the truth as indented JSON with a closing newline."""
        return json.dumps(asdict(self), indent=1, ensure_ascii=False) + "\n"


def make_truth(record: Record, seed: int, files: Sequence[SentFile]) -> Truth:
    """Put the truth of a record together."""
    return Truth(
        seed=seed,
        record=_sizes(record),
        telling_shift={
            "production_date": TELLING_SHIFT.production_date.isoformat(),
            "shift": TELLING_SHIFT.name,
        },
        shifts=tuple(_shift_figures(record)),
        defects=_defects(record),
        stories=story_truths(record),
        escapes=tuple(escapes(record)),
        files=tuple(files),
    )


def _sizes(record: Record) -> dict[str, Any]:
    world = record.world
    runs = [*world.runs, *record.dirt.doubles]
    return {
        "first_date": SHIFTS[0].production_date.isoformat(),
        "last_date": SHIFTS[-1].production_date.isoformat(),
        "ends_at": moment(RECORD_ENDS).isoformat(),
        "units": {
            "production": len(world.units),
            "trial": len(world.trials),
            "reference": len(world.references),
            "unscheduled": 2,
        },
        "runs": {test.name: sum(run.test == test.name for run in runs) for test in TESTS},
        "findings": sum(len(run.findings) for run in runs),
        "repairs": len(world.repairs),
        "events": sum(event.at < RECORD_ENDS for event in world.events),
        "signed_off": len(record.left.signed_off),
        "shipped": len(record.left.shipped),
        "blind_passes": sum(is_blind_pass(run) for run in world.runs),
    }


def _shift_figures(record: Record) -> list[dict[str, Any]]:
    states = line_states(record)
    return [
        {
            "production_date": shift.production_date.isoformat(),
            "shift": shift.name,
            "crew": shift.crew,
            "day": shift.day,
            "tests": {test.name: _figures(record, shift.number, test.name) for test in TESTS},
            "line": states[shift.number],
        }
        for shift in SHIFTS
    ]


def _figures(record: Record, number: int, test: str) -> dict[str, int]:
    tally = record.ledger.tallies[number, test]
    return {
        "presented": len(tally.presented),
        "tested": tally.tested,
        "passed_first": tally.passed_first,
        "defects": tally.defects,
        "void_runs": tally.void_runs,
        "aborted_runs": tally.aborted_runs,
    }


def _defects(record: Record) -> dict[str, int]:
    counts: dict[str, int] = {}
    for defect in record.ledger.defects:
        counts[defect.fault.code] = counts.get(defect.fault.code, 0) + 1
    return dict(sorted(counts.items()))
