"""`eol report`: writes the page of a shift."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, near, print_json


@click.command(epilog="Example: eol report --shift 2026-09-08/day")
@click.option(
    "--shift", metavar="DATE/SHIFT", help="The shift; the last one that ended where not given."
)
@json_option
@click.pass_obj
def command(plant: Path, shift: str | None, as_json: bool) -> None:
    """Write the page of a shift as one HTML file into the folder reports and print where it lies."""
    from eol.plant.folder import open_folder
    from eol.report.plant import report_shift

    path = report_shift(open_folder(plant), shift=shift)
    if as_json:
        print_json({"page": path})
    else:
        click.echo(near(path))
