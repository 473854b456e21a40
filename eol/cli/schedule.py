"""`eol schedule`: prints what makes a machine call `eol run`."""

from __future__ import annotations

import getpass
import sys
from pathlib import Path

import click

from eol.cli.output import json_option, print_json


@click.command(epilog="Example: eol schedule --for systemd")
@click.option(
    "--for",
    "kind",
    type=click.Choice(["systemd", "cron", "windows"]),
    default="windows" if sys.platform == "win32" else "systemd",
    show_default=True,
    help="What it is for.",
)
@click.option("--user", help="Whom it runs as; you where not given.")
@click.option(
    "--every",
    "seconds",
    type=click.IntRange(min=10),
    default=60,
    show_default=True,
    metavar="SECONDS",
    help="From one call to the next.",
)
@json_option
@click.pass_obj
def command(plant: Path, kind: str, user: str | None, seconds: int, as_json: bool) -> None:
    """Print a systemd service and timer, a cron line or a Windows task for this plant folder.

    Nothing is installed: put the text where its first line says, or pipe it there.
    """
    from eol.plant.folder import open_folder
    from eol.schedule.units import schedule_units

    units = schedule_units(
        kind,
        open_folder(plant).root,
        python=Path(sys.executable),
        user=user or getpass.getuser(),
        seconds=seconds,
    )
    if as_json:
        print_json(units)
        return
    for unit in units:
        if kind == "systemd":
            click.echo(f"# {unit.place}")
        click.echo(unit.text, nl=kind == "systemd")
        if unit.use and kind == "systemd":
            click.echo(f"# {unit.use}")
