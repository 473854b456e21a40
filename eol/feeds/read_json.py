"""JSON lines: one object a line; columns are the union of the names, each value its own text."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import polars as pl

from eol.errors import FeedFileError
from eol.feeds.encoding import REPLACEMENT, Text, to_utf8
from eol.feeds.raw import (
    FILE_ROW,
    RawFile,
    ReadOptions,
    Refusal,
    raw_line,
    refused_frame,
)

_NO_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff]")


def read_json_lines(content: bytes, options: ReadOptions, *, where: str) -> RawFile:
    """Read JSON lines.

    Numbers keep the digits that were sent, true and false are words, a nested value is JSON text,
    null and "" are null. A line that is no JSON object is refused and the others are kept.

    Raises:
        FeedFileError: no line is a JSON object.
    """
    text = to_utf8(content, options.encoding, where=where)
    rows: list[dict[str, str | None]] = []
    numbers: list[int] = []
    refusals: list[Refusal] = []
    for number, (line, closed) in enumerate(_lines(text), start=1):
        try:
            row = _row(line, text)
        except (ValueError, RecursionError) as error:
            refusals.append(Refusal(number, _reason(error, closed=closed), raw_line(line)))
        else:
            rows.append(row)
            numbers.append(number)
    if not rows:
        raise FeedFileError(
            "no line of the file is a JSON object",
            where=where,
            hint="Write one object a line, not one array over the whole file.",
        )
    return RawFile(_frame(rows, numbers), refused_frame(refusals), text.notes)


def _lines(text: Text) -> Iterator[tuple[str, bool]]:
    """The lines that are not blank, and whether a line end stood behind each."""
    lines = text.data.decode("utf-8").replace("\r\n", "\n").split("\n")
    last = len(lines) - 1
    for index, line in enumerate(lines):
        if line.strip():
            yield line, index < last


def _row(line: str, text: Text) -> dict[str, str | None]:
    if text.lossy and REPLACEMENT in line:
        raise ValueError(f"the line holds bytes that are not {text.encoding}")
    value = json.loads(
        line, parse_int=str, parse_float=str, parse_constant=str, object_pairs_hook=_once
    )
    if not isinstance(value, dict):
        raise ValueError("the line is JSON, but no object with named values")
    if any(isinstance(item, dict | list) for item in value.values()):
        value = json.loads(line)  # once more, so that numbers inside stay numbers
    row = {name: _as_text(item) for name, item in value.items()}
    if "\\u" in line and _NO_TEXT.search("".join((*row, *filter(None, row.values())))):
        raise ValueError("the line holds a control character or half a character, which is no text")
    return row


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    named = dict(pairs)
    if len(named) < len(pairs):
        names = [name for name, _ in pairs]
        doubled = next(name for name in names if names.count(name) > 1)
        raise ValueError(f"the line names '{doubled}' more than once")
    return named


def _as_text(value: Any) -> str | None:
    if value is None or value == "":
        return None
    if isinstance(value, str):
        return value
    return json.dumps(value, ensure_ascii=False)


def _reason(error: ValueError | RecursionError, *, closed: bool) -> str:
    if isinstance(error, json.JSONDecodeError):
        if not closed:
            return "the last line is cut off"
        return f"the line is no JSON object: {error.msg} at character {error.colno}"
    if isinstance(error, RecursionError):
        return "the line is nested too deeply"
    return str(error)


def _frame(rows: list[dict[str, str | None]], numbers: list[int]) -> pl.DataFrame:
    names = dict.fromkeys(name for row in rows for name in row)
    columns = [_series(name, [row.get(name) for row in rows]) for name in names]
    return pl.DataFrame([*columns, pl.Series(FILE_ROW, numbers, pl.Int64)])


def _series(name: str, values: list[str | None]) -> pl.Series:
    return pl.Series(f"{FILE_ROW}_sent" if name == FILE_ROW else name, values, pl.String)
