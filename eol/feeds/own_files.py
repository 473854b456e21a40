"""Files that the tool itself writes: actions entered by command, in the tool's own columns.

The name holds the time to the microsecond, so that a file loads the same wherever it comes back
from (rule 1); no mapping of plant.toml is for it.
"""

from __future__ import annotations

from datetime import UTC, datetime

from eol.plant.settings import FeedSettings

_BEGINNING = "countermeasures_action_"
_ACTIONS = FeedSettings(made_at=_BEGINNING + "{made_at:%Y%m%dT%H%M%S.%f}.jsonl", timezone="+00:00")


def action_file_name(at: datetime) -> str:
    """Return the name of a file of actions.

    Args:
        at: when it is written, aware.

    Example:
        >>> action_file_name(datetime(2026, 9, 8, 6, 5, tzinfo=UTC))
        'countermeasures_action_20260908T060500.000000.jsonl'
    """
    return f"{_BEGINNING}{at.astimezone(UTC):%Y%m%dT%H%M%S.%f}.jsonl"


def own_feed(file_name: str) -> tuple[str, FeedSettings] | None:
    """Return the feed of a file that the tool wrote, and how it is read; None for any other."""
    return ("countermeasures", _ACTIONS) if file_name.startswith(_BEGINNING) else None
