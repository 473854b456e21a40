"""What follows a fail: where the unit goes, who repairs what, and when it comes back."""

from __future__ import annotations

from dataclasses import dataclass

from eol.demo.catalogue import CODE_OF, Test
from eol.demo.judge import is_false
from eol.demo.plan import HOUR, MINUTE, RECORD_ENDS, repair_time
from eol.demo.world import Event, Fault, Plan, Repair, Run, World

RECORDED_SHARE = 0.96
"""Share of the repairs that the plant writes down."""

HELPS_SHARE = 0.94
LONG_SHARE = 0.03
NEEDLESS_SHARE = 0.06
"""Share of the false calls that get a new charge port lock all the same."""

_AFTER_WASHING = 10 * MINUTE


@dataclass(frozen=True, slots=True)
class Way:
    """When a unit is back at its test, None for never; and the station it then avoids."""

    back_at: int | None
    avoids: str | None = None


def after_fail(world: World, run: Run, test: Test) -> Way:
    """Move a failed unit to its repair, repair it, and say when it comes back."""
    plan = world.plans.get((run.unit.number, test.name))
    leaves = run.ended + 3 * MINUTE
    world.events.append(Event(run.unit.vin, leaves, "move", test.repair_place))
    if plan is Plan.SCRAP:
        world.events.append(_decision(run, "scrap", "scrap yard", "beyond economic repair"))
        return Way(None)
    if plan is Plan.HOLD:
        world.events.append(_decision(run, "hold", "hold area", "waits for an expert"))
        return Way(None)
    if run.findings and all(is_false(fault) for fault in run.findings):
        return _check_only(world, run, test)
    return _repair(world, run, test)


def _repair(world: World, run: Run, test: Test) -> Way:
    start, end = _times(world, run, test)
    recorded = world.rng.random() < RECORDED_SHARE
    for fault in run.findings:
        if recorded:
            _write(world, run, fault, test, start, end)
    world.mend(run.unit, [f for f in run.findings if world.rng.random() < HELPS_SHARE])
    return Way(end + _AFTER_WASHING)


def _check_only(world: World, run: Run, test: Test) -> Way:
    """Nothing is found at the charge port; the unit is run at another bench."""
    start = repair_time(run.ended + 8 * MINUTE)
    end = start + int(world.rng.integers(6, 15)) * MINUTE
    if world.rng.random() < NEEDLESS_SHARE:
        _write(world, run, run.findings[0], test, start, end + 30 * MINUTE)
    else:
        found_nothing = ("checked, nothing found", "none")
        _write(world, run, run.findings[0], test, start, end, action=found_nothing)
    return Way(end + 35 * MINUTE, avoids=run.station)


def _times(world: World, run: Run, test: Test) -> tuple[int, int]:
    rng = world.rng
    start = repair_time(run.ended + int(rng.integers(8, 45)) * MINUTE)
    end = start + int(rng.integers(*test.repair)) * MINUTE
    if rng.random() < LONG_SHARE:
        end += int(rng.integers(14, 50)) * HOUR
    return start, repair_time(end)


def _write(
    world: World,
    run: Run,
    fault: Fault,
    test: Test,
    start: int,
    end: int,
    *,
    action: tuple[str, str] | None = None,
) -> None:
    """Write a repair down, as far as the record goes."""
    if start >= RECORD_ENDS:
        return
    code = CODE_OF[fault.code]
    done, kind = action or code.action
    world.repairs.append(
        Repair(
            vin=run.unit.vin,
            test=test.name,
            code=fault.code,
            zone=fault.zone,
            started=start,
            ended=end if end < RECORD_ENDS else None,
            action=done,
            kind=kind,
            owner_area=code.owner_area,
            place=test.repair_place,
        )
    )


def _decision(run: Run, kind: str, place: str, note: str) -> Event:
    at = run.ended + 50 * MINUTE
    return Event(run.unit.vin, at, kind, place, note=note, entered_by="Q01")
