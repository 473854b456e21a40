"""A file that does not run the same on every engine is refused, with the reason."""

from __future__ import annotations

import pytest

from eol.errors import EngineError
from eol.fleet.portable import reasons, refuse
from eol.sqlfiles import SqlFile, sql_files

FILES = (*sql_files("views"), *sql_files("fleet"))


def view(text: str) -> SqlFile:
    """A view made of a query."""
    return SqlFile(
        "views", "made_up", f"-- made_up: a view\nCREATE OR REPLACE VIEW made_up AS\n{text};"
    )


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_nothing_is_known_against_our_files(file: SqlFile) -> None:
    """Every view, and every question over many plants, keeps to the portable subset."""
    assert reasons(file) == ()


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("SELECT * FROM a ASOF JOIN b ON a.t >= b.t", "ASOF JOIN is not known to Spark"),
        ("SELECT 100.0 * a.x / a.y AS share FROM a", "a decimal literal makes a decimal"),
        ("SELECT date_diff('hour', a.t, a.u) AS h FROM a", "counts boundaries in DuckDB"),
        ("SELECT quantile_cont(a.x, 0.9e0) AS q FROM a", "quantiles are approximate"),
        ("SELECT list(a.x ORDER BY a.t) AS xs FROM a", "lists lose their order"),
        ("SELECT hash(a.x) AS h FROM a", "hash gives other numbers"),
        ("SELECT epoch(a.t) AS s FROM a", "epoch gives another type"),
        ("SELECT a.x FROM a UNION BY NAME SELECT b.x FROM b", "UNION BY NAME"),
        ("SELECT a.x FROM a WHERE a.x NOT IN (SELECT b.x FROM b)", "take NOT EXISTS"),
    ],
)
def test_file_that_differs_is_refused(text: str, reason: str) -> None:
    """What another engine lacks or answers otherwise is refused, and told why."""
    with pytest.raises(EngineError, match=reason) as refused:
        refuse(view(text))
    assert "queries/views/made_up" in str(refused.value)


def test_words_in_comments_and_texts_are_no_reason() -> None:
    """Only the statement itself counts."""
    assert reasons(view("SELECT 'ASOF 1.5 ->' AS words FROM a -- PIVOT")) == ()
