from collections import Counter

from eol.demo.outcome import escapes, line_states
from eol.demo.record import Record


def test_escapes_have_each_reason(record: Record) -> None:
    """S2 and S9: void and failed at the blind bay, a bypass, a windscreen, a VIN typed wrong."""
    found = list(escapes(record))
    reasons = Counter(one.reason for one in found)
    assert set(reasons) == {"void", "failed", "bypassed", "disturbed", "no_record"}
    assert (reasons["bypassed"], reasons["disturbed"], reasons["no_record"]) == (1, 1, 1)
    assert all(one.shipped for one in found)


def test_a_released_bypass_is_no_escape(record: Record) -> None:
    """S9: it was released with a reference."""
    releases = {event.vin for event in record.world.events if event.reference == "CR-0117"}
    assert len(releases) == 1
    assert not releases & {one.vin for one in escapes(record)}


def test_the_day_the_bay_went_blind_is_undecided(record: Record) -> None:
    """S2: units shipped with a void pass are neither through nor failed; others are tested again."""
    undecided = [state["undecided"] for state in line_states(record)]
    assert undecided[18] > 90
    assert all(count < 10 for number, count in enumerate(undecided[:-1]) if number != 18)
