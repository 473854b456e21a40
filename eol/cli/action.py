"""`eol action`: the register of actions with their verdicts, and entries into it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from eol.cli.output import json_option, print_json, print_table, say

if TYPE_CHECKING:
    from eol.facts.actions import Action
    from eol.load.action import ActionEntry

_COLUMNS: tuple[str, ...] = ("action", "code", "what is done", "from", "before", "after", "ratio")
_COLUMNS += ("adjusted", "verdict")
_DAY = click.DateTime(["%Y-%m-%d"])
_MOMENT = click.DateTime(["%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M", "%Y-%m-%d"])


def _fields(wrapped: Callable[..., Any]) -> Callable[..., Any]:
    """The options that open and change share."""
    for option in reversed(
        (
            click.option("--test", metavar="TEST", help="The test of the code."),
            click.option("--zone", metavar="ZONE", help="Only defects there."),
            click.option("--text", metavar="WORDS", help="What is done."),
            click.option("--owner", metavar="WHO", help="Who answers for it: a role, no name."),
            click.option("--owner-area", metavar="AREA", help="The area that owns it."),
            click.option("--from-seq", type=int, metavar="N", help="First unit built with it."),
            click.option("--cut-in", type=_MOMENT, metavar="TIME", help="When, by plant time."),
            click.option("--opened", type=_DAY, metavar="DATE", help="When it was opened."),
            click.option("--due", type=_DAY, metavar="DATE", help="When it is to cut in."),
            click.option("--baseline-from", type=_DAY, metavar="DATE", help="First day before."),
            click.option("--baseline-to", type=_DAY, metavar="DATE", help="Last day before."),
            click.option("--hoped", type=float, metavar="RATIO", help="Ratio hoped for; else 0.5."),
        )
    ):
        wrapped = option(wrapped)
    return wrapped


@click.group(invoke_without_command=True, epilog="Example: eol action --json")
@json_option
@click.pass_context
def command(ctx: click.Context, as_json: bool) -> None:
    """Tell of each action whether it worked, or enter one: open, change, close.

    Units before and after are told apart by build sequence. The shift that triggered an action is
    kept out of its baseline: a shift that was picked for being bad falls back by itself. Beside the
    exact ratio stands one adjusted for that (empirical Bayes).
    """
    if ctx.invoked_subcommand is None:
        _tell(ctx.obj, as_json=as_json)


def _tell(plant: Path, *, as_json: bool) -> None:
    from eol.facts.action_words import record, sentences
    from eol.facts.actions import action_facts
    from eol.plant.folder import open_folder
    from eol.store.connect import open_copy

    with open_copy(open_folder(plant)) as copy:
        actions = action_facts(copy)
        clock = copy.view("as_of")["as_of"][0]
    if as_json:
        print_json([record(action) for action in actions])
        return
    if not actions:
        say("No action is in the register: enter one with eol action open, or by the feed.")
        return
    print_table(list(_COLUMNS), [_row(action) for action in actions])
    day = clock.date() if clock else None
    for action in actions:
        for sentence in sentences(action, day=day):
            click.echo(f"{action.action_id}: {sentence}")


def _row(action: Action) -> tuple[str, ...]:
    from eol.facts.action_words import adjusted_words, ratio_words, side_words, verdict_words

    cut_in = f"{action.cut_in_at:%Y-%m-%d %H:%M}" if action.cut_in_at else ""
    closed = f"; closed {action.closed_on}" if action.closed_on else ""
    return (
        action.action_id,
        action.code + (f" {action.zone}" if action.zone else ""),
        action.what,
        str(action.from_build_seq or cut_in),
        side_words(action.baseline.used) if action.cut_in else "",
        side_words(action.after) if action.cut_in else "",
        ratio_words(action.effect) if action.cut_in else "",
        adjusted_words(action.shrunk) if action.cut_in else "",
        verdict_words(action) + closed,
    )


@command.command(
    "open", epilog='Example: eol action open WL-SEAM --zone RR-QTR --text "New nozzle"'
)
@click.argument("code")
@click.option(
    "--id", "action_id", metavar="ID", help="Its name; made from the time where not given."
)
@_fields
@click.pass_obj
def open_command(plant: Path, /, code: str, action_id: str | None, **fields: Any) -> None:
    """Enter a new action against the defect CODE; prints its name."""
    from eol.load.action import open_action
    from eol.plant.folder import open_folder

    entry = _entry(code=code, action_id=action_id, **fields)
    click.echo(open_action(open_folder(plant), entry, now=datetime.now(UTC)))


@command.command("change", epilog="Example: eol action change CM-04 --from-seq 108001")
@click.argument("action_id", metavar="ID")
@_fields
@click.pass_obj
def change_command(plant: Path, /, action_id: str, **fields: Any) -> None:
    """Change the action ID: what is given replaces what stands."""
    from eol.load.action import change_action
    from eol.plant.folder import open_folder

    click.echo(
        change_action(open_folder(plant), action_id, _entry(**fields), now=datetime.now(UTC))
    )


@command.command("close", epilog="Example: eol action close CM-04 --on 2026-09-25")
@click.argument("action_id", metavar="ID")
@click.option("--on", "closed", type=_DAY, metavar="DATE", help="When; today where not given.")
@click.pass_obj
def close_command(plant: Path, action_id: str, closed: datetime | None) -> None:
    """Close the action ID; it stays in the register with its verdict."""
    from eol.load.action import ActionEntry, change_action
    from eol.plant.folder import open_folder
    from eol.plant.settings import read_settings

    folder, now = open_folder(plant), datetime.now(UTC)
    day = closed.date() if closed else now.astimezone(read_settings(folder.toml).plant.zone).date()
    click.echo(change_action(folder, action_id, ActionEntry(closed_on=day), now=now))


def _entry(**fields: Any) -> ActionEntry:
    """The fields of an entry from the options, days without a time of day."""
    from eol.load.action import ActionEntry

    names = {"from_seq": "from_build_seq", "opened": "opened_on", "due": "due_on"}
    names |= {"cut_in": "cut_in_at", "hoped": "expected_ratio"}
    days = ("opened", "due", "baseline_from", "baseline_to")
    told: dict[str, Any] = {n: _day(v) if n in days else v for n, v in fields.items()}
    return ActionEntry(**{names.get(name, name): value for name, value in told.items()})


def _day(value: datetime | None) -> date | None:
    return value.date() if value else None
