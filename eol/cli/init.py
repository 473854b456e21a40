"""`eol init`: makes a plant folder."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from eol.cli.output import json_option, print_json, say


@click.command(
    epilog='Example: eol init "/srv/quillbrook" --name Quillbrook --timezone Europe/Berlin'
)
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option("--name", help="Name of the plant; the folder's name where not given.")
@click.option("--timezone", default="Europe/Berlin", show_default=True, help="IANA time zone.")
@click.option(
    "--starts-on", type=click.DateTime(["%Y-%m-%d"]), help="First day of the record; today."
)
@json_option
def command(
    folder: Path, name: str | None, timezone: str, starts_on: date | None, as_json: bool
) -> None:
    """Make a plant FOLDER with a commented plant.toml, an inbox and a place for reports."""
    from eol.plant.folder import init_folder

    first = date(starts_on.year, starts_on.month, starts_on.day) if starts_on else date.today()
    plant = init_folder(
        folder, name=name or folder.absolute().name, starts_on=first, timezone=timezone
    )
    if as_json:
        print_json({"folder": plant.root, "plant_toml": plant.toml})
        return
    click.echo(plant.root)
    say(f"Next: say in {plant.toml} which shifts, tests and stations the plant has,")
    say(f"put files into {plant.inbox} and run: eol --plant '{plant.root}' ingest")
