"""Files that the tool itself writes: read in its own columns, whatever plant.toml maps."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from feed_rows import plant

from eol.feeds.feed import feed_of, open_feed
from eol.feeds.made_at import named_time
from eol.feeds.own_files import action_file_name, own_feed

AT = datetime(2026, 9, 8, 6, 5, 7, 250, tzinfo=UTC)
GREEDY = '[feed.water]\nfiles = "*"\n[feed.countermeasures]\nmade_at = "c_{made_at:%Y}*"\n'


def test_name_holds_the_time_to_the_microsecond() -> None:
    """What the name says of the time is what it was written with (rule 1)."""
    name = action_file_name(AT)
    own = own_feed(name)
    assert own is not None
    pattern, zone = own[1].made_at, own[1].timezone
    assert named_time(name, pattern=str(pattern), zone=str(zone)) == AT


def test_no_mapping_is_for_it() -> None:
    """Neither a pattern that fits every name nor the feed's own mapping is for such a file."""
    settings, path = plant(GREEDY), Path(action_file_name(AT))
    assert feed_of(path, settings) == "countermeasures"
    assert str(open_feed("countermeasures", settings, path=path).options.made_at).endswith(".jsonl")


def test_other_files_are_not_its_own() -> None:
    """A file of the plant's own feed keeps the plant's mapping."""
    assert own_feed("countermeasures_20260908_0605.csv") is None
