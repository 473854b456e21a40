"""Every figure that was sent or written down is rebuilt by one SELECT over the view that it names."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from eol.ask.session import Session, open_session
from eol.demo.build import DemoResult

REBUILT = """
SELECT
    s.figure, s.key, s.n, s.value, s.low, s.high,
    v.production_date IS NOT NULL AS found, v.{column} AS value_now, {low} AS low_now, {high} AS high_now
FROM {table} AS s
LEFT JOIN {view} AS v
    ON v.production_date = CAST(s.key ->> 'production_date' AS DATE)
    AND v.shift IS NOT DISTINCT FROM s.key ->> 'shift'{more}
WHERE s.figure = '{view}.{column}'
"""
"""The one SELECT: the row of the view that the key names, and in it the column that the figure names."""

ENDS = {
    "ftt": ("v.low", "v.high"),
    "dphu": ("v.low", "v.high"),
    "line_by_shift.dphu": ("v.dphu_low", "v.dphu_high"),
}
"""Columns of the ends of the interval, by column or by view and column."""

KEYS = {"test": " AND v.test = s.key ->> 'test'", "code": " AND v.code = s.key ->> 'code'"}


@pytest.fixture(scope="module")
def session(demo_plant: DemoResult) -> Iterator[Session]:
    """A session on the demo."""
    with open_session(demo_plant.folder) as opened:
        yield opened


@pytest.mark.parametrize(
    "table", ["figure_sent", pytest.param("figure_now", marks=pytest.mark.slow)]
)
def test_to_the_last_digit(session: Session, table: str) -> None:
    """Value and interval of each row are those of the view's row that its key names, bit for bit."""
    figures = session.ask(f"SELECT DISTINCT figure FROM {table} ORDER BY figure")[
        "figure"
    ].to_list()
    assert len(figures) >= 6
    rebuilt = 0
    for figure in figures:
        view, column = figure.split(".")
        low, high = ENDS.get(figure, ENDS.get(column, ("NULL", "NULL")))
        columns = set(session.ask(f"DESCRIBE {view}")["column_name"])
        more = "".join(words for name, words in KEYS.items() if name in columns)
        text = REBUILT.format(table=table, view=view, column=column, low=low, high=high, more=more)
        for row in session.ask(text).to_dicts():
            assert row["found"], row
            now = (row["value_now"], row["low_now"], row["high_now"])
            assert now == (row["value"], row["low"], row["high"]), row
            rebuilt += 1
    assert rebuilt == session.ask(f"SELECT count(*) FROM {table}").item() > 100
