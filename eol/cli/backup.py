"""`eol backup`: makes a checked copy."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, print_json, say


@click.command(epilog="Example: eol backup /mnt/backup/quillbrook")
@click.argument("target", metavar="DIR", type=click.Path(path_type=Path, file_okay=False))
@json_option
@click.pass_obj
def command(plant: Path, target: Path, as_json: bool) -> None:
    """Copy store, plant.toml and key into a new folder below DIR, read the copy back and compare it."""
    from eol.plant.folder import open_folder
    from eol.store.backup import backup

    copy = backup(open_folder(plant), target)
    if as_json:
        print_json(copy)
        return
    click.echo(copy.place)
    say(
        f"{copy.bytes} bytes, sha256 {copy.sha256}; {copy.rows['run']} runs of {copy.rows['unit']} units."
    )
