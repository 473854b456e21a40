"""`eol init`: makes a plant folder, and proposes how a foreign file is read."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, print_json, say

if TYPE_CHECKING:
    from eol.feeds.propose import Proposal


@click.command(
    epilog='Example: eol init "/srv/quillbrook" --name Quillbrook --timezone Europe/Berlin'
)
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option("--name", help="Name of the plant; the folder's name where not given.")
@click.option("--timezone", default="Europe/Berlin", show_default=True, help="IANA time zone.")
@click.option(
    "--starts-on",
    type=click.DateTime(["%Y-%m-%d"]),
    help="First day of the record; else the first of FILE, else today.",
)
@click.option(
    "--from",
    "foreign",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Propose how FILE is read: a guess to be mended by hand, added to the new plant.toml, "
    "or printed where FOLDER has one already.",
)
@json_option
def command(
    folder: Path,
    name: str | None,
    timezone: str,
    starts_on: date | None,
    foreign: Path | None,
    as_json: bool,
) -> None:
    """Make a plant FOLDER with a commented plant.toml, an inbox and a place for reports."""
    from eol.feeds.beginning import propose_beginning
    from eol.plant.folder import init_folder

    if foreign is not None and (folder / "plant.toml").is_file():
        _propose(folder, foreign, as_json=as_json)
        return
    first = date(starts_on.year, starts_on.month, starts_on.day) if starts_on else None
    called, proposal = name or folder.absolute().name, None
    if foreign is not None:
        begun = propose_beginning(foreign, name=called, timezone=timezone, starts_on=first)
        first, proposal = begun.starts_on, begun.proposal
    plant = init_folder(
        folder,
        name=called,
        starts_on=first or date.today(),
        timezone=timezone,
        more=proposal.text if proposal else "",
    )
    if as_json:
        told = {"folder": plant.root, "plant_toml": plant.toml}
        print_json(told | ({"proposal": proposal} if proposal else {}))
        return
    click.echo(plant.root)
    if proposal is not None:
        say(f"[feed.{proposal.feed}] at the end of plant.toml is a guess; mend it by hand, then")
        say(f"see what comes of it: eol --plant '{plant.root}' ingest --explain '{foreign}'")
        _tell_gaps(proposal)
    say(f"Next: say in {plant.toml} which shifts, tests and stations the plant has,")
    say(f"put files into {plant.inbox} and run: eol --plant '{plant.root}' ingest")


def _propose(folder: Path, foreign: Path, *, as_json: bool) -> None:
    """Print a proposal for a plant.toml that stays as it is."""
    from eol.feeds.propose import propose
    from eol.plant.settings import read_settings

    proposal = propose(foreign, read_settings(folder / "plant.toml"))
    if as_json:
        print_json({"proposal": proposal})
        return
    click.echo(proposal.text, nl=False)
    say("plant.toml was left as it is; what of this is right goes into it by hand.")
    _tell_gaps(proposal)


def _tell_gaps(proposal: Proposal) -> None:
    """Say what the proposal leaves open."""
    for column in proposal.missing:
        say(f"No column of the file gives {column}.")
    for word in proposal.unknown:
        say(f"What does this word mean? {word}")
    if proposal.unplaced:
        say(f"Columns without a place: {', '.join(proposal.unplaced)}")
