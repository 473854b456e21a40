"""Each feed's rules see only its own columns."""

from __future__ import annotations

import polars as pl
import pytest
from feed_rows import opened, plant

from eol.feeds.rules import rules_of
from eol.plant.settings import feed_names


@pytest.mark.parametrize("name", feed_names(plant().tests))
def test_rules_use_columns_that_the_feed_has(name: str) -> None:
    """A rule reads typed columns, its sentence the cells as sent too."""
    feed = opened(name)
    known = {column.name for column in feed.columns}
    for rule in rules_of(feed):
        assert set(rule.broken.meta.root_names()) <= known
        assert {used.removeprefix("sent.") for used in rule.reason.meta.root_names()} <= known


def test_unit_named_by_key_needs_one_of_both() -> None:
    """VIN or key: one of them names the unit."""
    feed = opened("events", '[feed.events]\nnamed_by = "skid"\n')
    broken = rules_of(feed)[-1].broken
    frame = pl.DataFrame({"vin": ["V", None, None], "skid": [None, "12", None]})
    assert frame.select(broken).to_series().to_list() == [False, False, True]
