"""The figures that reports state, as they stand, and those of a settled shift that moved later."""

from __future__ import annotations

import json
from typing import Any

from second_opinion.records import Opinion, Row

Views = dict[str, list[Row]]
KEY = ("production_date", "shift", "test", "code")
OF_TEST = (
    ("ftt_by_shift", "tested", ("ftt", "low", "high")),
    ("dphu_by_shift", "tested", ("dphu", "low", "high")),
    ("pareto_by_shift", "at_risk", ("per_100_at_risk", None, None)),
)
OF_LINE = (
    ("decided", ("ftt", "low", "high")),
    ("built", ("rty", None, None)),
    ("built", ("dphu", "dphu_low", "dphu_high")),
)
Columns = tuple[str, str | None, str | None]


def views(made: Views) -> Views:
    """The view of all stated figures, from the views that state them."""
    return {"figure_now": figure_now(made)}


def figure_now(made: Views) -> list[Row]:
    """One row a figure and key of its view, with the units behind it and its interval."""
    rows = []
    for view, n, columns in OF_TEST:
        rows += [figure(view, row, row[n], columns) for row in made[view]]
    for line in made["line_by_shift"]:
        counts = {"built": line["built"], "decided": line["went_through"] + line["failed_one"]}
        rows += [figure("line_by_shift", line, counts[n], columns) for n, columns in OF_LINE]
    return rows


def figure(view: str, row: Row, n: int, columns: Columns) -> Row:
    """One figure of a row of a view: its column, those of its interval, None where it has none."""
    value, low, high = (None if name is None else row[name] for name in columns)
    named = {name: row.get(name) for name in KEY}
    stated = {"n": n, "value": value, "low": low, "high": high}
    return named | {"figure": f"{view}.{columns[0]}", "key": as_json(named)} | stated


def as_json(key: Row) -> str:
    """The parts of a key that a row has, as a JSON object without blanks."""
    told = {name: str(part) for name, part in key.items() if part is not None}
    return json.dumps(told, separators=(",", ":"), ensure_ascii=False)


def figure_change(before: Opinion, after: Opinion) -> list[Row]:
    """One row a figure of a shift that had settled, and that is another after more files (rule 4).

    Args:
        before: what the files of a first load make, whose end wrote the settled figures down.
        after: what these and the later files make.
    """
    now = {(row["figure"], row["key"]): row for row in after.views["figure_now"]}
    rows = []
    for shift in settled_shifts(before):
        for sent in before.views["figure_now"]:
            found = now.get((sent["figure"], sent["key"]))
            if (sent["production_date"], sent["shift"]) == shift and moved(sent, found):
                rows.append(change(sent, found))
    return rows


def settled_shifts(opinion: Opinion) -> list[tuple[Any, Any]]:
    """The shifts whose line cohort has settled (rule 11)."""
    lines = opinion.views["line_by_shift"]
    return [(line["production_date"], line["shift"]) for line in lines if line["settled"]]


def moved(sent: Row, now: Row | None) -> bool:
    """True where the number of units or the value is another; a row that is gone has no units."""
    n, value = (now["n"], now["value"]) if now else (0, None)
    if sent["n"] != n or (sent["value"] is None) != (value is None):
        return True
    return value is not None and abs(sent["value"] - value) > 1e-9


def change(sent: Row, now: Row | None) -> Row:
    """A figure as it was when its shift settled, and as it is; no report told of it."""
    row = {
        "message_id": f"settled:{sent['production_date']}/{sent['shift']}",
        "sent_at": None,
        "figure": sent["figure"],
        "key": sent["key"],
    }
    for name in ("n", "value", "low", "high"):
        row |= {f"sent_{name}": sent[name], name: now[name] if now else None}
    return row
