"""Mix or process: the drain leaks, edges."""

import pytest

from eol.statistics.mix import mix_or_process


def test_drain_leaks_are_mix():
    """41/11,200 → 44/4,800, at risk 2,137 → 2,512: +0.55 = mix +0.61, process -0.06 per hundred."""
    found = mix_or_process([(41, 2137), (0, 11_200 - 2137)], [(44, 2512), (0, 4800 - 2512)])
    parts = (found.difference, found.mix, found.process)
    assert [round(100 * part, 2) for part in parts] == [0.55, 0.61, -0.06]
    assert sum(found.process_by_group) == pytest.approx(found.process)


def test_the_same_mix_is_all_process():
    """Equal shares, other rates: nothing is mix."""
    found = mix_or_process([(1, 100), (2, 300)], [(5, 200), (8, 600)])
    assert found.mix == pytest.approx(0)
    assert found.process == pytest.approx(found.difference)


def test_a_new_group_is_mix():
    """A model built in one period only keeps its rate: its coming is mix."""
    found = mix_or_process([(1, 100), (0, 0)], [(1, 100), (30, 100)])
    assert found.process == pytest.approx(0)
    assert found.mix == pytest.approx(found.difference)


@pytest.mark.parametrize(
    ("before", "after"), [([], []), ([(0, 0)], [(3, 9)]), ([(3, 9)], [(0, 0)])]
)
def test_a_period_without_units(before, after):
    """Nothing built in a period: no difference, no parts."""
    found = mix_or_process(before, after)
    assert (found.difference, found.mix, found.process) == (None, None, None)


def test_different_groups_are_refused():
    """Both periods list the same groups."""
    with pytest.raises(ValueError, match="same groups"):
        mix_or_process([(1, 2)], [])
