"""What is true of each planted story once the record is made: counts, VINs and ranges."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from eol.demo import senses, stories
from eol.demo.catalogue import EVALUATORS
from eol.demo.counting import (
    Facts,
    by_shift,
    ended_in,
    first_runs_between,
    has,
    seq_range,
    share,
    shift_key,
)
from eol.demo.dirt_truth import sent_wrongly
from eol.demo.judge import is_blind_pass, is_false
from eol.demo.ledger import Standing
from eol.demo.outcome import escapes, first_runs
from eol.demo.plan import SHIFTS, moment, shift_of
from eol.demo.record import Record
from eol.demo.units import Unit
from eol.demo.world import Run


def story_truths(record: Record) -> dict[str, Facts]:
    """Return the truth of each story, by its number."""
    return {name: tell(record) for name, tell in _TELLERS.items()}


def nozzle(record: Record) -> Facts:
    """S1: the leaks of thin beads of R07, the build window, and R08 beside it."""
    units = _night_units(record)
    ids = {unit.number for unit in units}
    runs = [run for run in first_runs(record.ledger, "water") if run.unit.number in ids]
    leaks = [run for run in runs if has(run, "WL-SEAM", "RR-QTR")]
    worn = [run for run in leaks if run.unit.robot == stories.NOZZLE_ROBOT]
    thin = [
        unit
        for unit in units
        if unit.robot == stories.NOZZLE_ROBOT and unit.bead < stories.BEAD_LEAKS_BELOW
    ]
    return {
        "code": "WL-SEAM",
        "zone": "RR-QTR",
        "robot": stories.NOZZLE_ROBOT,
        "attribute": "sealer_bead",
        "limit_mm": stories.BEAD_LEAKS_BELOW,
        "R07": share(runs, worn, lambda run: run.unit.robot == "R07"),
        "R08": share(runs, leaks, lambda run: run.unit.robot == "R08"),
        "by_build_shift": by_shift(worn, lambda run: run.unit.shift),
        "by_test_shift": by_shift(worn, ended_in),
        "leaking_seq": seq_range(run.unit for run in worn),
        "thin_bead_seq": seq_range(thin),
        "thin_bead_units": len(thin),
        "vins": sorted(run.unit.vin for run in worn),
    }


def blind_bay(record: Record) -> Facts:
    """S2: void passes of the blind days, passes of the slipping days that are suspect, references."""
    void = [run for run in record.world.runs if is_blind_pass(run)]
    slipping = first_runs_between(record, "water", senses.SLIPPING_DAYS)
    bay = [run for run in slipping if run.bay == senses.BLIND_BAY]
    others = [run for run in slipping if run.bay != senses.BLIND_BAY]
    gone = {escape.vin for escape in escapes(record) if escape.reason == "void"}
    return {
        "station": "W",
        "bay": senses.BLIND_BAY,
        "void_passes": len(void),
        "void_by_shift": by_shift(void, ended_in),
        "void_vins": sorted({run.vin for run in void}),
        "void_escapes": sorted(gone),
        "recalled": sum(
            _water(record, vin).void_since is None for vin in {run.vin for run in void}
        ),
        "slipping": {"tested": len(bay), "passed": sum(run.result == "pass" for run in bay)},
        "slipping_others": {
            "tested": len(others),
            "passed": sum(run.result == "pass" for run in others),
        },
        "suspect_vins": sorted(run.vin for run in bay if run.result == "pass"),
        **_references(record),
    }


def mirror(record: Record) -> Facts:
    """S3a: defects and units before and after the connector."""
    runs = first_runs(record.ledger, "electrical")
    return _cut("CM-01", runs, "EL-MIRROR", stories.MIRROR_FROM_SEQ, "fewer")


def felt_tape(record: Record) -> Facts:
    """S3b: before and after with the trigger shift kept out, and the naive sum from that shift alone."""
    runs = [run for run in first_runs(record.ledger, "squeak_rattle") if run.unit.build_seq]
    trigger = stories.TAPE_TRIGGER
    bad = [run for run in runs if run.unit.shift is trigger]
    kept = [run for run in runs if run.unit.shift is not trigger]
    defects = sum(has(run, "SR-CREAK") for run in bad)
    in_shift = [run for run in runs if ended_in(run) is trigger]
    return _cut("CM-02", kept, "SR-CREAK", stories.TAPE_FROM_SEQ, "no clear change") | {
        "trigger_shift": shift_key(trigger),
        "trigger": {"units": len(bad), "defects": defects},
        "trigger_tested": {
            "units": len(in_shift),
            "defects": sum(has(run, "SR-CREAK") for run in in_shift),
        },
    }


def clip_lot(record: Record) -> Facts:
    """S4: rattles of the bad lot against the others of its days, and who has not been on the track."""
    ledger = record.ledger
    units = [unit for unit in record.world.units if stories.in_lot_days(unit)]
    lot = [unit for unit in units if unit.clip_lot == stories.BAD_LOT]
    numbers = {unit.number for unit in units}
    runs = [run for run in first_runs(ledger, "squeak_rattle") if run.unit.number in numbers]
    found = [run for run in runs if has(run, "SR-TAILTRIM")]
    return {
        "code": "SR-TAILTRIM",
        "step": "joints",
        "lot": stories.BAD_LOT,
        "in_lot": share(runs, found, lambda run: run.unit.clip_lot == stories.BAD_LOT),
        "other_lots": share(runs, found, lambda run: run.unit.clip_lot != stories.BAD_LOT),
        "lot_units": len(lot),
        "build_seq": seq_range(lot),
        "not_on_track": sorted(
            unit.vin for unit in lot if ledger.standing(unit, "squeak_rattle").first is None
        ),
    }


def false_bench(record: Record) -> Facts:
    """S5: charge port calls of one bench, and how many passed elsewhere without repair."""
    days = (senses.FALSE_FROM_DAY, SHIFTS[-1].day)
    runs = first_runs_between(record, "electrical", days)
    called = [run for run in runs if has(run, "EL-CHARGE")]
    here = [run for run in called if run.station == senses.FALSE_STATION]
    repaired = {
        repair.vin
        for repair in record.world.repairs
        if repair.test == "electrical" and repair.kind != "none"
    }
    cleared = [run for run in here if record.ledger.standing(run.unit, "electrical").clear]
    return {
        "code": "EL-CHARGE",
        "station": senses.FALSE_STATION,
        "from_shift": shift_key(shift_of(senses.FALSE_FROM_DAY, "day")),
        "here": share(runs, called, lambda run: run.station == senses.FALSE_STATION),
        "elsewhere": share(runs, called, lambda run: run.station != senses.FALSE_STATION),
        "false_calls": sum(any(is_false(f) for f in run.findings) for run in here),
        "cleared": len(cleared),
        "cleared_without_repair": sum(run.vin not in repaired for run in cleared),
    }


def evaluator(record: Record) -> Facts:
    """S6: creaks called by each evaluator; page and mail name none of them."""
    runs = first_runs(record.ledger, "squeak_rattle")
    called = [run for run in runs if has(run, "SR-CREAK")]
    names = sorted(name for names in EVALUATORS.values() for name in names)
    return {
        "code": "SR-CREAK",
        "operator": senses.KEEN_EVALUATOR,
        "operators": {
            name: {
                "units": sum(run.operator == name for run in runs),
                "defects": sum(run.operator == name for run in called),
            }
            for name in names
        },
    }


def roof_mix(record: Record) -> Facts:
    """S7: drain leaks before and after the mix changed, of all units and of those at risk."""
    runs = [run for run in first_runs(record.ledger, "water") if run.unit.build_seq]
    found = [run for run in runs if has(run, "WL-DRAIN")]
    after = [run for run in runs if run.unit.shift.day >= stories.ROOF_FROM_DAY]
    before = [run for run in runs if run.unit.shift.day < stories.ROOF_FROM_DAY]
    return {
        "code": "WL-DRAIN",
        "from_date": shift_of(stories.ROOF_FROM_DAY, "day").production_date.isoformat(),
        "before": _mix(before, found),
        "after": _mix(after, found),
    }


def decoys(record: Record) -> Facts:
    """S8: the shift that glass leaks lead by chance, and the lot that goes with S1 by time alone."""
    here = [
        run for run in first_runs(record.ledger, "water") if ended_in(run) is stories.GLASS_SHIFT
    ]
    codes = sorted({fault.code for run in here for fault in run.findings})
    water = [run for run in first_runs(record.ledger, "water") if run.unit.build_seq]
    leaks = [run for run in water if has(run, "WL-SEAM", "RR-QTR")]
    return {
        "glass": {
            "code": "WL-GLASS",
            "shift": shift_key(stories.GLASS_SHIFT),
            "tested": len(here),
            "defects": {code: sum(has(run, code) for run in here) for code in codes},
        },
        "lot_by_time": {
            "lot": stories.BAD_LOT,
            "code": "WL-SEAM",
            "zone": "RR-QTR",
            "in_lot": share(water, leaks, lambda run: run.unit.clip_lot == stories.BAD_LOT),
            "others": share(water, leaks, lambda run: run.unit.clip_lot != stories.BAD_LOT),
            "same_nights": {
                "in_lot": share(water, leaks, lambda run: _on_shared_night(run, in_lot=True)),
                "others": share(water, leaks, lambda run: _on_shared_night(run, in_lot=False)),
            },
        },
    }


_TELLERS: dict[str, Callable[[Record], Facts]] = {
    "S1": nozzle,
    "S2": blind_bay,
    "S3a": mirror,
    "S3b": felt_tape,
    "S4": clip_lot,
    "S5": false_bench,
    "S6": evaluator,
    "S7": roof_mix,
    "S8": decoys,
    "S9": sent_wrongly,
}


def _on_shared_night(run: Run, *, in_lot: bool) -> bool:
    """Whether the unit comes from a night that had both the worn nozzle and the bad lot."""
    shift = run.unit.shift
    shared = stories.in_lot_days(run.unit) and shift.day in stories.NOZZLE_DAYS
    return shared and shift.name == "night" and (run.unit.clip_lot == stories.BAD_LOT) is in_lot


def _night_units(record: Record) -> list[Unit]:
    nights = [shift_of(day, "night") for day in stories.NOZZLE_DAYS]
    return [unit for shift in nights for unit in stories.units_of(record.world, shift)]


def _water(record: Record, vin: str) -> Standing:
    return record.ledger.standings[vin, "water"]


def _references(record: Record) -> Facts:
    """The checks of the blind bay, and the passes between its last and next good check."""
    runs = [run for run in record.world.runs if run.bay == senses.BLIND_BAY]
    checks = [run for run in runs if run.unit.kind == "reference"]
    missed = [run for run in checks if run.void is None and run.result == "pass"]
    good = [run for run in checks if run.result == "fail"]
    last = max(run.ended for run in good if run.ended < missed[0].ended)
    following = min(run.ended for run in good if run.ended > missed[0].ended)
    unchecked = [
        run.vin
        for run in runs
        if run.unit.kind == "production"
        and run.void is None
        and run.result == "pass"
        and last < run.ended < following
    ]
    return {
        "missed_checks": len(missed),
        "last_good_check": moment(last).isoformat(),
        "next_good_check": moment(following).isoformat(),
        "unchecked_passes": len(unchecked),
    }


def _cut(action_id: str, runs: Sequence[Run], code: str, seq: int, verdict: str) -> Facts:
    before = [run for run in runs if (run.unit.build_seq or 0) < seq]
    after = [run for run in runs if (run.unit.build_seq or 0) >= seq]
    counts = [
        {"units": len(part), "defects": sum(has(r, code) for r in part)} for part in (before, after)
    ]
    rates = [count["defects"] / count["units"] for count in counts]
    return {
        "action_id": action_id,
        "code": code,
        "from_build_seq": seq,
        "before": counts[0],
        "after": counts[1],
        "ratio": round(rates[1] / rates[0], 3),
        "verdict": verdict,
    }


def _mix(runs: Sequence[Run], found: Sequence[Run]) -> Facts:
    mine = {run.vin for run in runs}
    opening = sum(run.unit.roof == "opening" for run in runs)
    defects = sum(run.vin in mine for run in found)
    return {"units": len(runs), "opening": opening, "defects": defects}
