"""Codes of texts and strata, and units that cannot have a code."""

from __future__ import annotations

import numpy as np
import polars as pl
import traced

from eol.facts.trace_units import compact, joined_codes, text_codes


def test_codes_follow_the_alphabet() -> None:
    """Null has no code."""
    codes, labels = text_codes(pl.Series(["b", None, "a", "b"]))
    assert codes.tolist() == [1, -1, 0, 1]
    assert labels == ["a", "b"]


def test_joined_codes_tell_pairs_apart() -> None:
    """Two codes give one a pair, without gaps."""
    joined = joined_codes(np.array([0, 0, 5, 5]), np.array([1, 2, 1, 1]))
    assert joined.tolist() == [0, 1, 2, 2]
    assert joined_codes(np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64)).tolist() == []


def test_compact_keeps_the_order() -> None:
    """Codes without gaps."""
    assert compact(np.array([7, 3, 7])).tolist() == [1, 0, 1]


def test_stratum_is_shift_and_model() -> None:
    """What differs between shifts or models is held apart."""
    made = traced.units([1, 0, 0, 0], shift=[0, 0, 1, 1], model=[0, 1, 0, 0])
    assert made.stratum.tolist() == [0, 1, 2, 2]
    assert made.n == 4
