"""The signals of a shift as tables."""

from __future__ import annotations

from dataclasses import replace

from made_up_shift import loud_shift, quiet_shift
from made_up_signals import bay_signal, changed, mix_shift, ranked

from eol.facts.signals import Signals
from eol.report.tables_signals import signal_tables

ALL = Signals(
    changed=(changed("WL-SEAM", 19), changed("WL-TAIL", 3, kind="new", usual=None)),
    bays=(bay_signal("W1 B", "fewer"), bay_signal("W1 C", "more", code="WL-SEAM")),
    mixes=(mix_shift("WL-DRAIN"),),
    window=(ranked("WL-SEAM", 30, 1, 2), replace(ranked("WL-TAIL", 0, 2, 2), shrunk=None)),
)


def test_quiet_shift_has_none() -> None:
    """A table without a row is left out."""
    assert list(signal_tables(quiet_shift())) == []


def test_every_signal_has_a_row() -> None:
    """Each signal is a row with as many cells as the table has columns, and no figure is missing."""
    made = list(signal_tables(replace(loud_shift(), signals=ALL)))
    assert [(table.place, len(table.rows)) for table in made] == [
        ("t-window", 2),
        ("t-changed", 2),
        ("t-mix", 1),
        ("t-bays-8", 2),
    ]
    assert all(len(row) == len(table.columns) for table in made for row in table.rows)
    assert all(
        "None" not in cell and "nan" not in cell for t in made for row in t.rows for cell in row
    )
