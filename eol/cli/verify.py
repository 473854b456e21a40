"""`eol verify`: proves the store."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, print_json, say


@click.command(epilog="Example: eol verify")
@json_option
@click.pass_obj
def command(plant: Path, as_json: bool) -> int:
    """Compute all stamps from nothing on a copy, check the store's invariants, tell what differs.

    Exit code 1: something differs.
    """
    from eol.plant.folder import open_folder
    from eol.store.verify import verify

    result = verify(open_folder(plant))
    if as_json:
        print_json(result)
        return int(not result.holds)
    for difference in result.differences:
        click.echo(f"{difference.check}: {difference.title}")
        for row in difference.examples[:5]:
            click.echo(f"  {row}")
    say(f"{result.checks} checks over {result.units} units: {len(result.differences)} do not hold.")
    return int(not result.holds)
