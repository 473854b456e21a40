"""`eol publish`: renews the copy that is read, or hands the plant's tables on to where others read them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, near, print_json, say

if TYPE_CHECKING:
    from eol.plant.folder import PlantFolder


@click.command(epilog="Example: eol publish --to /mnt/share/quillbrook")
@click.option(
    "--to",
    "target",
    metavar="DIR",
    type=click.Path(path_type=Path, file_okay=False),
    help="Write every table and view as a Parquet file into DIR.",
)
@json_option
@click.pass_obj
def command(plant: Path, target: Path | None, as_json: bool) -> int:
    """Renew the copy that is read, with the plant's own views of mine/*.sql; or write Parquet elsewhere.

    --to writes a file a table and view for polars, pandas, R or any other reader. Exit code 1: a view of
    mine/ cannot be made.
    """
    from eol.plant.folder import open_folder

    folder = open_folder(plant)
    if target is not None:
        _to_folder(folder, target, as_json)
    return 0 if target else _renew(folder, as_json)


def _renew(folder: PlantFolder, as_json: bool) -> int:
    from eol.store.publish import publish_again

    copy, faulty = publish_again(folder)
    if as_json:
        print_json({"copy": copy, "faulty": faulty})
    else:
        click.echo(near(copy))
        for view in faulty:
            say(f"{near(view.path)}: {view.fault}")
    return int(bool(faulty))


def _to_folder(folder: PlantFolder, target: Path, as_json: bool) -> None:
    from eol.ask.parquet import publish_parquet

    done = publish_parquet(folder, target)
    if as_json:
        print_json(done)
        return
    click.echo(near(done.folder))
    say(f"{len(done.rows)} tables and views with {sum(done.rows.values())} rows.")
