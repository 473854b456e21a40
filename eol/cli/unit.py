"""`eol unit`: tells everything known of a unit."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, print_frame, print_json, say


@click.command(epilog="Example: eol unit 0ZZKA1B26T0100123")
@click.argument("vin")
@json_option
@click.pass_obj
def command(plant: Path, vin: str, as_json: bool) -> None:
    """Tell everything known of the unit VIN, in order: tests, findings, repairs, events."""
    from eol.ask.unit import unit_trail
    from eol.plant.folder import open_folder

    trail = unit_trail(open_folder(plant), vin)
    if as_json:
        print_json(
            {
                "unit": trail.unit,
                "handling": trail.handling,
                "nearest": trail.nearest,
                "status": trail.status.to_dicts(),
                "trail": trail.rows.to_dicts(),
            }
        )
        return
    say(", ".join(f"{name} {value}" for name, value in trail.unit.items() if value is not None))
    for words in trail.handling:
        say(f"Caution: {words}")
    if trail.nearest:
        say(f"No schedule named it; the nearest that one did: {', '.join(trail.nearest)}")
    print_frame(trail.status)
    print_frame(trail.rows)
