"""`eol ingest`: loads files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, print_frame, print_json, print_table, say
from eol.errors import FeedFileError
from eol.words import counted

if TYPE_CHECKING:
    from eol.feeds.batch import Explanation
    from eol.load.ingest import IngestResult


@click.command(epilog="Example: eol ingest water_2026-09-08.csv electrical_2026-09-08.parquet")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--rewrite-history",
    "reason",
    metavar="REASON",
    help="Let a changed plant.toml move figures already counted; the reason is kept.",
)
@click.option(
    "--explain", is_flag=True, help="Show how FILES would be understood; nothing is loaded."
)
@click.option("--again", is_flag=True, help="Try refused rows again, once the mapping is mended.")
@click.option(
    "--accept", is_flag=True, help="Load files that are held because a condition has jumped."
)
@json_option
@click.pass_obj
def command(
    plant: Path,
    files: tuple[Path, ...],
    reason: str | None,
    explain: bool,
    again: bool,
    accept: bool,
    as_json: bool,
) -> int:
    """Load FILES into the store, or what lies ready in the inbox; then publish the copy that is read.

    Exit code 1: loaded, but rows were refused, look doubled, or files are held; 3: a file could not be used.
    """
    from eol.cli.progress import shown_progress
    from eol.load.again import load_again
    from eol.load.ingest import ingest
    from eol.plant.folder import open_folder

    if explain:
        return _explain(plant, files, as_json=as_json)
    if again:
        result = load_again(open_folder(plant))
    else:
        with shown_progress() as progress:
            result = ingest(
                open_folder(plant),
                list(files) or None,
                reason=reason,
                accept=accept,
                progress=progress,
            )
    if as_json:
        print_json(result)
    else:
        _tell(result)
    refused = any(file.state == "refused" for file in result.files)
    return FeedFileError.exit_code if refused else int(result.needs_a_look)


def _tell(result: IngestResult) -> None:
    """Print what became of the files."""
    names = ["file", "feed", "state", "rows", "accepted", "repeated", "amended", "rejected"]
    print_table(
        names,
        ([f.path.name, f.feed, f.state, *(getattr(f, n) for n in names[3:])] for f in result.files),
    )
    for file in result.files:
        for reason_text, count in file.reasons[:5]:
            say(f"{file.path.name}: {count} refused: {reason_text}")
        if file.waiting:
            say(
                f"{file.path.name}: {file.waiting} rows wait for the unit key that names their unit"
            )
        for note in file.notes:
            say(f"{file.path.name}: {note}")
        if file.message:
            say(f"eol: {file.message}")
    if result.doubles:
        say(
            f"{result.doubles} runs equal others but for exactly one hour: a re-export; they do not count."
        )
    if result.resting:
        say(f"{result.resting} files of the inbox may still be written to and wait.")
    say(f"{counted(len(result.files), 'file')}, {counted(result.units, 'unit')} stamped.")


def _explain(plant: Path, files: tuple[Path, ...], *, as_json: bool) -> int:
    """Print how files would be understood."""
    from eol.errors import UsageError
    from eol.load.explained import explain_files
    from eol.plant.folder import open_folder

    if not files:
        raise UsageError("no file was named", hint="Name one: eol ingest --explain FILE")
    told = explain_files(open_folder(plant), files)
    if as_json:
        print_json([_plain_explanation(one) for one in told])
        return 0
    for one in told:
        rows = counted(one.batch.rows, "row")
        click.echo(
            f"{one.batch.path.name}: feed {one.batch.feed}, {rows}, made at {one.batch.made_at}"
        )
        for line in (*one.mapping, *one.batch.notes):
            click.echo(f"  {line}")
        for name, frame in one.first.items():
            click.echo(f"First rows of {name}:")
            print_frame(frame)
        for reason, count in one.reasons.rows():
            click.echo(f"  {count} would be refused: {reason}")
    return 0


def _plain_explanation(told: Explanation) -> dict[str, object]:
    return {
        "file": told.batch.path,
        "feed": told.batch.feed,
        "rows": told.batch.rows,
        "made_at": told.batch.made_at,
        "mapping": told.mapping,
        "notes": told.batch.notes,
        "first": {name: frame.to_dicts() for name, frame in told.first.items()},
        "would_be_refused": dict(told.reasons.rows()),
    }
