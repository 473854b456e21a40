"""Prints answers: a table for people, JSON or CSV for programs; data to stdout, talk to stderr."""

from __future__ import annotations

import dataclasses
import json
import sys
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    import polars as pl

F = TypeVar("F", bound=Callable[..., Any])


def json_option(command: F) -> F:
    """Give a command the option --json."""
    return click.option("--json", "as_json", is_flag=True, help="Print JSON instead of words.")(
        command
    )


def say(text: str) -> None:
    """Tell the person at the terminal something; never part of the data."""
    click.echo(text, err=True)


def print_json(value: object) -> None:
    """Print a result as JSON, one value for one answer."""
    click.echo(json.dumps(value, default=plain, ensure_ascii=False, indent=2))


def plain(value: object) -> object:
    """Turn a value of a result into what JSON knows."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        names = [item.name for item in dataclasses.fields(value)]
        return {name: getattr(value, name) for name in names}
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, Path):
        return str(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Decimal):
        return float(value)
    return str(value)


def near(path: Path) -> Path:
    """Write a path as short as it can be typed: from this folder on, where it lies below it."""
    here = Path.cwd()
    return path.relative_to(here) if path.is_relative_to(here) else path


def print_frame(frame: pl.DataFrame, *, as_json: bool = False, as_csv: bool = False) -> None:
    """Print rows: a table on a terminal and in a pipe, JSON or CSV where asked for."""
    if as_json:
        print_json(frame.to_dicts())
    elif as_csv:
        from eol.ask.export import csv_text

        click.echo(csv_text(frame), nl=False)
    else:
        print_table(frame.columns, frame.iter_rows())


def print_table(columns: list[str], rows: Any) -> None:
    """Print rows as a table; without colour and as wide as it needs where the output is piped."""
    from rich import box
    from rich.console import Console
    from rich.table import Table

    table = Table(box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False)
    body = [[cell(value) for value in row] for row in rows]
    numbers = [all(_is_number(row[i]) or row[i] == "" for row in body) for i in range(len(columns))]
    for name, right in zip(columns, numbers, strict=True):
        table.add_column(name, justify="right" if right else "left", overflow="fold")
    for row in body:
        table.add_row(*(escaped(text) for text in row))
    piped = not sys.stdout.isatty()
    Console(no_color=piped, width=10_000 if piped else None, soft_wrap=piped).print(table)


def escaped(text: str) -> str:
    """Take from a text of a file the power to colour the terminal."""
    from rich.markup import escape

    return escape("".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text))


def cell(value: object) -> str:
    """Write one value of a table; nothing for null."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.6g}"
    if isinstance(value, datetime):
        return value.isoformat(sep=" ", timespec="seconds").replace("+00:00", "Z")
    return str(value)


def _is_number(text: str) -> bool:
    return text.lstrip("-").replace(".", "", 1).replace("e", "", 1).isdigit()
