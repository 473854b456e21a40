from eol.demo.leave import YARD_TIME
from eol.demo.record import Record


def test_units_stand_in_the_yard_before_they_are_shipped(record: Record) -> None:
    """Nearly three days at least."""
    left = record.left
    assert len(left.shipped) > 12_000
    assert all(at - left.signed_off[number] >= YARD_TIME for number, at in left.shipped.items())


def test_recalled_units_ship_after_their_second_water_test(record: Record) -> None:
    """S2: what was within reach leaves only when it is clear."""
    for number, at in record.left.shipped.items():
        water = record.ledger.standing(record.world.units[number], "water")
        if water.void_since is None and water.latest is not None:
            assert water.clear
            assert water.latest.ended < at


def test_windscreens_are_changed_after_the_water_test(record: Record) -> None:
    """S9: one unit is tested again, the other is shipped as it is."""
    changed = {r.vin: r for r in record.world.repairs if r.action == "windscreen replaced"}
    pair = (record.windscreens.tested_again, record.windscreens.not_tested_again)
    later = [
        [
            r
            for r in record.world.runs
            if r.unit is unit and r.started > (changed[unit.vin].ended or 0)
        ]
        for unit in pair
    ]
    assert [len(runs) for runs in later] == [1, 0]
    assert pair[1].number in record.left.shipped


def test_safety_units_are_released_but_for_the_last(record: Record) -> None:
    """A safety-related fail stays listed until a release with a name and a reference."""
    released = {e.vin: e for e in record.world.events if e.kind == "release"}
    assert len(record.unreleased) == 3
    assert not set(record.unreleased) & set(released)
    assert all(event.reference and event.entered_by for event in released.values())
