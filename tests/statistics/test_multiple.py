"""Corrections for many looks: edges and a second opinion."""

import numpy as np
import pytest
from statsmodels.stats.multitest import multipletests

from eol.statistics.multiple import benjamini_hochberg, bonferroni, holm


@pytest.mark.parametrize(
    ("correct", "method"),
    [(bonferroni, "bonferroni"), (holm, "holm"), (benjamini_hochberg, "fdr_bh")],
)
def test_corrections_agree_with_a_second_opinion(correct, method):
    """Statsmodels gives the same adjusted values, ties and order kept."""
    p = np.random.default_rng(1).random(40) ** 3
    p[7] = p[3]
    assert correct(p).p == pytest.approx(multipletests(p, method=method)[1], abs=1e-12)


@pytest.mark.parametrize("correct", [bonferroni, holm, benjamini_hochberg])
def test_no_p_value_and_one(correct):
    """Nothing looked at corrects to nothing; one look needs no correction."""
    assert correct([]).p == ()
    assert correct([0.03]).p == (0.03,)


def test_a_p_value_above_one_is_refused():
    """A p-value in percent is the caller's mistake."""
    with pytest.raises(ValueError, match="between 0 and 1"):
        holm([5])
