"""`eol status`: tells whether the figures can be believed."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, print_json, print_table, say


@click.command(epilog="Example: eol status --json")
@json_option
@click.pass_obj
def command(plant: Path, as_json: bool) -> int:
    """Tell the data clock, what each feed last sent, what was refused, and what was not tested.

    Exit code 1: something needs a look.
    """
    from eol.facts.status import plant_status
    from eol.plant.folder import open_folder
    from eol.store.connect import open_copy

    with open_copy(open_folder(plant)) as copy:
        status = plant_status(copy)
    if as_json:
        print_json(status)
        return int(status.needs_a_look)
    say(status.headline)
    print_table(
        ["feed", "files", "rows", "rejected", "last file made at", "last loaded at"],
        status.feed_rows,
    )
    for line in status.findings:
        say(line)
    return int(status.needs_a_look)
