"""`eol run`: does all that is due."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, print_json, say

if TYPE_CHECKING:
    from eol.schedule.run import Done


@click.command(epilog="Example: eol run --every 60")
@click.option(
    "--every",
    "seconds",
    type=click.FloatRange(min=1),
    metavar="SECONDS",
    help="Go on: begin again so many seconds after the last beginning.",
)
@click.option(
    "--log",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="How each line on stderr is written.",
)
@json_option
@click.pass_obj
def command(plant: Path, seconds: float | None, log: str, as_json: bool) -> int:
    """Do all that is due, once and in order: inbox, reports of shifts that ended, mails, alarms, backup.

    Says nothing where nothing is due. While another eol run is at work in this plant, tells its pid
    and leaves with exit code 0. Exit code 1: done, but something needs a look.
    """
    from eol.plant.folder import open_folder
    from eol.schedule.alone import alone
    from eol.schedule.loop import run_every
    from eol.schedule.run import run_due

    folder = open_folder(plant)
    tell = _log_json if log == "json" else _log_text
    with alone(folder) as other:
        if other is not None:
            say(f"eol: process {other} does what is due in this plant; nothing to do here.")
            return 0
        if seconds is not None:
            run_every(folder, seconds, tell=tell)
        result = run_due(folder, tell=tell)
    if as_json:
        print_json(result)
    return result.exit_code


Log = Callable[["Done"], None]


def _log_text(done: Done) -> None:
    say(f"{done.at:%Y-%m-%dT%H:%M:%SZ} {done.level} {done.step} {done.text}")


def _log_json(done: Done) -> None:
    row = {"at": done.at.isoformat(), "level": done.level, "step": done.step, "text": done.text}
    say(json.dumps(row, ensure_ascii=False))
