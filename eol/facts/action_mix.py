"""Mix or process: how much of a change after an action comes of what was built (Kitagawa 1955)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from eol.facts.ftt import Window
from eol.facts.reader import Row, whole
from eol.statistics.mix import Mix, mix_or_process


def action_mix(
    before: Iterable[Row], after: Iterable[Row], windows: frozenset[Window]
) -> Mix | None:
    """Take the change of an action's code apart by model.

    Args:
        before: rows of `action/side` before it.
        after: rows after it.
        windows: the shifts that its baseline is made of.

    Returns:
        Both parts, per unit; None where a side has no unit.
    """
    used = [row for row in before if (row["production_date"], row["shift"]) in windows]
    then = list(after)
    models = sorted({row["model"] or "" for row in (*used, *then)})
    parts = mix_or_process(_groups(used, models), _groups(then, models))
    return None if parts.difference is None else parts


def _groups(rows: Sequence[Row], models: Sequence[str]) -> list[tuple[float, float]]:
    with_code: Counter[str] = Counter()
    units: Counter[str] = Counter()
    for row in rows:
        with_code[row["model"] or ""] += whole(row["with_code"])
        units[row["model"] or ""] += whole(row["units"])
    return [(with_code[model], units[model]) for model in models]
