"""Kitagawa's two components on the Berkeley admissions."""

import pytest

from eol.statistics.mix import mix_or_process


def test_mix_of_the_berkeley_departments():
    """Men 44.5 %, women 30.4 % admitted (Bickel and others 1975, read).

    By Kitagawa's formula (calculated) the departments applied to explain more than all of it.
    """
    men = [(512, 825), (353, 560), (120, 325), (138, 417), (53, 191), (22, 373)]
    women = [(89, 108), (17, 25), (202, 593), (131, 375), (94, 393), (24, 341)]
    found = mix_or_process(men, women)
    assert (found.before, found.after) == pytest.approx((0.445, 0.304), abs=5e-4)
    mix = sum(
        (w[1] / 1835 - m[1] / 2691) * (w[0] / w[1] + m[0] / m[1]) / 2
        for m, w in zip(men, women, strict=True)
    )
    assert found.mix == pytest.approx(mix)
    assert found.process > 0 > found.mix
    assert found.mix + found.process == pytest.approx(found.difference, abs=1e-15)
