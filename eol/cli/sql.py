"""`eol sql`: asks the published copy."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from eol.cli.output import json_option, print_frame


@click.command(
    epilog='Example: eol sql "SELECT test, ftt, low, high FROM ftt_by_shift ORDER BY production_date"'
)
@click.argument("statement", required=False)
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV instead of a table.")
@json_option
@click.pass_obj
def command(plant: Path, statement: str | None, as_csv: bool, as_json: bool) -> None:
    """Run an SQL STATEMENT on the published copy, read only; standard input where none is given."""
    from eol.ask.sql import ask_copy
    from eol.plant.folder import open_folder

    text = statement if statement is not None else sys.stdin.read()
    print_frame(ask_copy(open_folder(plant), text), as_json=as_json, as_csv=as_csv)
