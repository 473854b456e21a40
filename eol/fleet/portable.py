"""What a file of `queries/` must not hold as another engine lacks it or answers otherwise, and why."""

from __future__ import annotations

import re

from eol.errors import EngineError
from eol.sqlfiles import SqlFile

_REASONS: tuple[tuple[str, str], ...] = (
    (r"\bASOF\b", "ASOF JOIN is not known to Spark; join a range and take min or max"),
    (r"\b(UN)?PIVOT\b", "PIVOT differs between engines; write the cases out"),
    (r"\*\s*REPLACE\s*\(", "* REPLACE is not known to Spark; name the columns"),
    (r"\bBY\s+NAME\b", "UNION BY NAME is not known to Spark; order the columns"),
    (r"->", "an arrow means another thing in each engine"),
    (r"\bepoch(_\w+)?\s*\(", "epoch gives another type; take date_diff of seconds"),
    (r"\bextract\s*\(\s*(epoch|isodow)\b", "extract of epoch or isodow differs; take date_diff"),
    (r"\bdate_sub\s*\(", "date_sub means another thing in Spark; take date_diff"),
    (
        r"\bdate_diff\s*\(\s*'(minute|hour|day|week|month|year)'",
        "date_diff counts boundaries in DuckDB and whole units in Spark; take seconds of date_trunc",
    ),
    (r"\b(quantile|percentile)\w*\s*\(", "quantiles are approximate elsewhere; take median"),
    (r"\b(generate_series|range)\s*\(", "series differ between engines; join a table"),
    (r"\b(list|array_agg|list_\w+)\s*\(", "lists lose their order in Spark; take string_agg"),
    (r"\bhash\s*\(", "hash gives other numbers elsewhere; take md5"),
    (
        r"AT\s+TIME\s+ZONE[^;]{0,80}AT\s+TIME\s+ZONE",
        "two AT TIME ZONE shift the wrong way in Spark; times are UTC in the store",
    ),
    (
        r"(?<![\w.])\d+\.\d+(?![\de])",
        "a decimal literal makes a decimal in Spark; write it as 0.5e0",
    ),
    (r"\bNOT\s+IN\s*\(\s*(SELECT|WITH)\b", "NOT IN (SELECT …) differs at null; take NOT EXISTS"),
)


def reasons(file: SqlFile) -> tuple[str, ...]:
    """Return why a file cannot run the same on every engine; nothing where nothing is known against it.

    Example:
        >>> reasons(SqlFile("views", "late", "CREATE VIEW late AS SELECT epoch(run.at) AS s FROM run"))
        ('epoch gives another type; take date_diff of seconds',)
    """
    text = " ".join(_bare(statement) for statement in file.plain_statements)
    return tuple(why for what, why in _REASONS if re.search(what, text, re.IGNORECASE))


def refuse(file: SqlFile) -> None:
    """Refuse a file that cannot be portable.

    Raises:
        EngineError: it holds something that another engine lacks or answers otherwise.
    """
    found = reasons(file)
    if found:
        raise EngineError(
            f"this file does not run the same on every engine: {'; '.join(found)}",
            where=f"queries/{file.folder}/{file.name}",
            hint="DEVELOPERS.md lists the portable subset of SQL.",
        )


def _bare(statement: str) -> str:
    """The statement without comments, and without texts in quotes but the parts of dates."""
    text = re.sub(r"--[^\n]*", "", statement)
    return re.sub(r"'(?!(?:second|minute|hour|day|week|month|year)')(?:[^']|'')*'", "''", text)
