"""`eol ingest`: loads files."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, print_json, print_table, say


@click.command(epilog="Example: eol ingest water_2026-09-08.csv electrical_2026-09-08.parquet")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--rewrite-history",
    "reason",
    metavar="REASON",
    help="Let a changed plant.toml move figures already counted; the reason is kept.",
)
@click.option(
    "--accept", is_flag=True, help="Load files that are held because a condition has jumped."
)
@json_option
@click.pass_obj
def command(
    plant: Path, files: tuple[Path, ...], reason: str | None, accept: bool, as_json: bool
) -> int:
    """Load FILES into the store, or what lies ready in the inbox; then publish the copy that is read.

    Exit code 1: loaded, but rows or files were refused.
    """
    from eol.cli.progress import shown_progress
    from eol.load.ingest import ingest
    from eol.plant.folder import open_folder

    with shown_progress() as progress:
        result = ingest(
            open_folder(plant), list(files) or None, reason=reason, accept=accept, progress=progress
        )
    if as_json:
        print_json(result)
        return int(result.needs_a_look)
    names = ["file", "feed", "state", "rows", "accepted", "repeated", "amended", "rejected"]
    print_table(
        names,
        ([f.path.name, f.feed, f.state, *(getattr(f, n) for n in names[3:])] for f in result.files),
    )
    for file in result.files:
        for reason_text, count in file.reasons[:5]:
            say(f"{file.path.name}: {count} refused: {reason_text}")
        for note in file.notes:
            say(f"{file.path.name}: {note}")
        if file.message:
            say(f"eol: {file.message}")
    if result.doubles:
        say(
            f"{result.doubles} runs equal others but for exactly one hour: a re-export; they do not count."
        )
    say(f"{len(result.files)} files, {result.units} units stamped.")
    return int(result.needs_a_look)
