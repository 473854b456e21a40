import pytest

from eol.demo.plan import RECORD_ENDS, repair_time
from eol.demo.record import Record


def test_most_repairs_are_written_down(record: Record) -> None:
    """A counted fail is followed by a repair record nearly always."""
    fails = {run.vin for run in record.world.runs if run.result == "fail" and run.void is None}
    production = {unit.vin for unit in record.world.units}
    repaired = {repair.vin for repair in record.world.repairs}
    assert len(fails & repaired & production) / len(fails & production) == pytest.approx(
        0.96, abs=0.03
    )


def test_false_calls_are_checked_and_nothing_is_found(record: Record) -> None:
    """S5: a repair of class none says that nothing was done."""
    none = [repair for repair in record.world.repairs if repair.kind == "none"]
    assert {(repair.code, repair.action) for repair in none} == {
        ("EL-CHARGE", "checked, nothing found")
    }
    assert len(none) > 90


def test_no_repair_is_from_after_the_record(record: Record) -> None:
    """One that is open at its end has no end."""
    for repair in record.world.repairs:
        assert repair.started < RECORD_ENDS
        assert repair.ended is None or repair.started < repair.ended < RECORD_ENDS


def test_nobody_repairs_at_the_weekend(record: Record) -> None:
    """Repairs start at hours at which repair is at work."""
    assert all(repair_time(r.started) == r.started for r in record.world.repairs if r.test)
