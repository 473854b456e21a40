from collections import Counter

from eol.demo.record import Record
from eol.demo.world import Plan


def test_each_fate_befalls_as_many_as_told(record: Record) -> None:
    """S9: 9 aborted wet, 3 scrapped, 5 held, 4 bypassed."""
    plans = Counter(record.world.plans.values())
    assert (plans[Plan.ABORT], plans[Plan.SCRAP], plans[Plan.HOLD]) == (9, 3, 5)
    assert sum(count for plan, count in plans.items() if plan.name.startswith("BYPASS")) == 4


def test_each_fate_came_true(record: Record) -> None:
    """The record has as many of each as the script."""
    kinds = Counter(event.kind for event in record.world.events)
    assert (kinds["scrap"], kinds["hold"]) == (3, 5)
    results = Counter(run.result for run in record.world.runs if run.void != "aborted")
    assert (results["aborted"], results["bypass"]) == (9, 4)


def test_held_and_scrapped_units_go_no_further(record: Record) -> None:
    """None of them is signed off."""
    stopped = {
        number
        for (number, _), plan in record.world.plans.items()
        if plan in (Plan.SCRAP, Plan.HOLD, Plan.BYPASS_WAITS)
    }
    assert len(stopped) == 9
    assert not stopped & set(record.left.signed_off)
