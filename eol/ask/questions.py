"""The worked questions of `queries/ask`: SQL files to run as they are, with other values, or to copy.

A file opens with its title; a line `-- Set: name = value, …` gives the values it is asked with where none
are given, and a line `-- Attach: name (columns)` says what has to be attached.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from eol.ask.session import Session
from eol.ask.values import parse_value
from eol.errors import UsageError
from eol.plant.nearest import nearest
from eol.sqlfiles import SqlFile, sql_files

_SET = re.compile(r"^-- Set: (.+)$", re.MULTILINE)
_ONE_SET = re.compile(r"\s*([a-z_]+) = ('[^']*'|[^,]*)(?:,|$)")
_ATTACH = re.compile(r"^-- Attach: ([a-z_]+) \((.+)\)$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Question:
    """A worked question.

    Attributes:
        name: what it is asked by.
        title: the question in words.
        text: the file, to copy and change.
        values: the values of its `$name` where none are given.
        needs: what has to be attached, by name: its columns in words.
    """

    name: str
    title: str
    text: str
    values: dict[str, object]
    needs: dict[str, str]


def questions() -> tuple[Question, ...]:
    """Return the worked questions in the order in which an analyst meets them."""
    return tuple(map(_question, sql_files("ask")))


def question(name: str) -> Question:
    """Return one worked question.

    Raises:
        UsageError: there is none of that name; the nearest is named.
    """
    known = {one.name: one for one in questions()}
    if name not in known:
        near = nearest(name, list(known))
        raise UsageError(
            f"there is no worked question named '{name}'",
            hint=f"Did you mean {near}?" if near else "eol sql --ask lists them.",
        )
    return known[name]


def ask_question(
    session: Session, name: str, values: Mapping[str, object] | None = None
) -> pl.DataFrame:
    """Ask a worked question.

    Args:
        session: a session in which what the question needs is attached.
        name: its name.
        values: values of its `$name` that are to differ from its own.

    Raises:
        UsageError: there is none of that name, a value has none of its names, or something is not attached.
    """
    asked = question(name)
    unknown = sorted(set(values or {}) - set(asked.values))
    if unknown:
        raise UsageError(
            f"the question {name} has no value named {', '.join(unknown)}",
            hint="It has " + (", ".join(asked.values) or "none") + ".",
        )
    there = {table for _, _, table, _ in session.columns()}
    for needed, columns in asked.needs.items():
        if needed not in there:
            raise UsageError(
                f"the question {name} needs {needed}, with the columns {columns}",
                hint=f"Give it as --attach {needed}=FILE, a CSV or Parquet file.",
            )
    return session.ask(asked.text, {**asked.values, **(values or {})})


def _question(file: SqlFile) -> Question:
    texts = [pair for line in _SET.findall(file.text) for pair in _ONE_SET.findall(line)]
    return Question(
        name=file.name,
        title=file.title.partition(": ")[2] or file.title,
        text=file.text,
        values={name: parse_value(value) for name, value in texts},
        needs=dict(_ATTACH.findall(file.text)),
    )
