"""`eol status`: tells whether the figures of a shift can be believed, and what the store holds."""

from __future__ import annotations

from dataclasses import fields
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from eol.cli.output import json_option, print_json, print_table

if TYPE_CHECKING:
    from eol.facts.believe import Belief
    from eol.facts.status import PlantStatus

_COUNTS = ("expected", "presented", "tested", "pending", "untested", "unproven", "escaped", "held")
_MARKS = {"doubt": "!", "look": "?", "note": "-"}


@click.command(epilog="Example: eol status --shift 2026-09-08/day --json")
@click.option(
    "--shift", metavar="DATE/SHIFT", help="The shift; the last one that ended where not given."
)
@json_option
@click.pass_obj
def command(plant: Path, shift: str | None, as_json: bool) -> int:
    """Tell whether the figures of a shift can be believed: units tested, silent stations, clocks, losses.

    Then how the machine's side stands: disk and growth, copies, backup, mails, the plant's own views.

    Marks: ! the figures cannot be believed yet, ? look at it, - to know. Exit code 1: something new
    needs a look.
    """
    from eol.facts.status import plant_status
    from eol.plant.folder import open_folder
    from eol.plant.settings import read_settings
    from eol.store.connect import open_copy
    from eol.store.health import plant_health

    folder = open_folder(plant)
    with open_copy(folder) as copy:
        status = plant_status(copy, now=wall_clock(), shift=shift)
    health = plant_health(folder, read_settings(folder.toml), now=wall_clock())
    needs_a_look = int(status.needs_a_look or health.needs_a_look)
    if as_json:
        print_json({**vars_of(status), "health": health})
        return needs_a_look
    if status.belief:
        _print_belief(status.belief)
    click.echo(status.headline)
    print_table(
        ["feed", "files", "rows", "rejected", "last file made at", "last loaded at"],
        status.feed_rows,
    )
    if status.queue:
        click.echo(status.queue.words)
    for line in status.findings:
        click.echo(line)
    for remark in health.remarks:
        click.echo(f"{_MARKS[remark.kind]} {remark.text}")
    return needs_a_look


def vars_of(status: PlantStatus) -> dict[str, Any]:
    """Return the parts of a status by name."""
    return {item.name: getattr(status, item.name) for item in fields(status)}


def wall_clock() -> datetime:
    """Return the time of the wall clock; nothing else in the tool asks it about figures."""
    return datetime.now(UTC)


def _print_belief(belief: Belief) -> None:
    click.echo(belief.headline)
    for remark in belief.remarks:
        if remark.kind != "doubt":
            click.echo(f"{_MARKS[remark.kind]} {remark.text}")
    print_table(
        ["test", *_COUNTS],
        [[one.test, *(getattr(one, name) for name in _COUNTS)] for one in belief.facts.accounts],
    )
