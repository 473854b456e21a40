"""Where a defect crowds in an order, with the units at its edges."""

from __future__ import annotations

import numpy as np
import polars as pl
import traced

from eol.facts.trace_order import in_order, order_of


def test_a_planted_stretch() -> None:
    """A bad hour among quiet ones: one stretch, its edges told as VIN, sequence and shift."""
    defect = np.random.default_rng(3).random(3000) < 0.003
    defect[1200:1300:6] = True
    order = order_of(traced.units(defect.tolist()), "build")
    (span,) = order.stretches
    assert order.crowds
    assert abs((span.first.build_seq or 0) - 2200) < 60
    assert abs((span.last.build_seq or 0) - 2300) < 60
    assert span.first.vin == f"U{(span.first.build_seq or 0) - 1000:06d}"
    assert span.defects >= 17


def test_a_quiet_order_has_no_stretch() -> None:
    """Evenly spread: a window with its p-value, and no stretch."""
    order = order_of(traced.units([n % 50 == 0 for n in range(1000)]), "test")
    assert not order.crowds
    assert order.stretches == ()


def test_edges() -> None:
    """No unit, no defect, one, or all: no window, nothing raised."""
    for defect in ([], [0, 0], [1, 0], [1, 1]):
        order = order_of(traced.units(defect), "build")
        assert (order.window, order.p, order.stretches) == (None, None, ())


def test_units_without_a_sequence_are_left_out() -> None:
    """The build order holds who has a place in it; the order of testing holds all."""
    made = traced.units([1, 0, 1])
    frame = made.frame.with_columns(
        build_seq=pl.when(pl.col("place") == 1).then(None).otherwise(pl.col("build_seq"))
    )
    assert in_order(frame, "build").tolist() == [0, 2]
    assert in_order(frame, "test").tolist() == [0, 1, 2]
    assert in_order(frame, "test", np.array([False, True, True])).tolist() == [1, 2]
