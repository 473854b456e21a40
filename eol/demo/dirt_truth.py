"""What is true of S9: what is odd in the files, and units with a fate of their own."""

from __future__ import annotations

from eol.demo import dirt
from eol.demo.counting import Facts, ended_in, shift_key
from eol.demo.plan import moment
from eol.demo.record import Record
from eol.demo.world import Plan


def sent_wrongly(record: Record) -> Facts:
    """S9: what is odd in the files, and units with a fate of their own."""
    odd = record.dirt
    slow = [run for run in record.world.runs if dirt.as_sent(run, run.started) != run.started]
    return {
        "clock_slow": {
            "stations": list(dirt.CLOCK_STATIONS),
            "seconds": dirt.CLOCK_SLOW_SECONDS,
            "from": moment(dirt.CLOCK_FROM).isoformat(),
            "to": moment(dirt.CLOCK_TO).isoformat(),
            "runs": len(slow),
        },
        "sent_twice": {"files": list(dirt.SENT_TWICE), **_sent(record, dirt.SENT_TWICE[0])},
        "one_hour_on": {"file": dirt.ONE_HOUR_ON, "runs": len(odd.doubles)},
        "late": {"file": dirt.LATE, "bay": "C", **_sent(record, dirt.LATE)},
        "renamed": {
            "file": dirt.RENAMED,
            "header": dirt.RENAMED_HEADER,
            **_sent(record, dirt.RENAMED),
        },
        "nul_tail": {"file": dirt.NUL_TAIL, **_sent(record, dirt.NUL_TAIL)},
        "by_hand": {
            "file": dirt.BY_HAND,
            "shift": shift_key(dirt.HAND_SHIFT),
            "test": "alignment",
            "unknown_vin": odd.unknown_vin,
            "swapped_vin": odd.mistyped_as,
            "swapped_from": odd.mistyped.vin,
            **_sent(record, dirt.BY_HAND),
        },
        "windscreens": {
            "tested_again": record.windscreens.tested_again.vin,
            "not_tested_again": record.windscreens.not_tested_again.vin,
        },
        "units": {plan.name.lower(): _planned(record, plan) for plan in Plan},
        "waiting_for_safety_release": sorted(record.unreleased),
    }


def _sent(record: Record, file: str) -> Facts:
    runs = [run for run in record.world.runs if run.sent_in == file]
    return {"runs": len(runs), "shift": shift_key(ended_in(runs[0]))}


def _planned(record: Record, plan: Plan) -> list[str]:
    numbers = [number for (number, _), one in record.world.plans.items() if one is plan]
    return [record.world.units[number].vin for number in sorted(numbers)]
