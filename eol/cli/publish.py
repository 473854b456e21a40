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
@click.option(
    "--lake",
    metavar="DIR",
    help="A lake of many plants: a folder, or a URI such as s3://bucket/lake.",
)
@click.option(
    "--as", "name", metavar="NAME", help="The plant's name in the lake; else plant.toml's."
)
@json_option
@click.pass_obj
def command(
    plant: Path, target: Path | None, lake: str | None, name: str | None, as_json: bool
) -> int:
    """Renew the copy that is read, with the plant's own views of mine/*.sql; or write Parquet elsewhere.

    --to writes a file a table and view for polars, pandas, R or any other reader. --lake keeps the stamped
    tables beside those of other plants, the touched months alone. Exit code 1: a view of mine/ cannot be made.
    """
    from eol.plant.folder import open_folder

    folder = open_folder(plant)
    if lake is not None:
        _to_lake(folder, lake, name, as_json)
    if target is not None:
        _to_folder(folder, target, as_json)
    return 0 if lake or target else _renew(folder, as_json)


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


def _to_lake(folder: PlantFolder, lake: str, name: str | None, as_json: bool) -> None:
    from eol.fleet.publish import publish_lake

    done = publish_lake(folder, lake, plant=name)
    if as_json:
        print_json(done)
        return
    click.echo(done.lake)
    say(
        f"{done.plant}: {len(done.written)} parts with {done.rows} rows written,"
        f" {len(done.removed)} removed, {done.kept} unchanged; data up to {done.data_clock}."
    )
