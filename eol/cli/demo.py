"""`eol demo`: makes the demo plant and its page."""

from __future__ import annotations

from pathlib import Path

import click

from eol.cli.output import json_option, near, print_json, say


@click.command(epilog="Example: eol demo quillbrook")
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), default="quillbrook")
@json_option
def command(folder: Path, as_json: bool) -> None:
    """Make the invented plant Quillbrook in FOLDER, load its files and write a page."""
    from eol.cli.progress import shown_progress
    from eol.demo.build import build_demo

    with shown_progress() as progress:
        demo = build_demo(folder, progress=progress)
    if as_json:
        print_json(
            {
                "plant": demo.folder.root,
                "page": demo.page,
                "shift": demo.shift,
                "look_at": demo.look_at,
            }
        )
        return
    rows = sum(file.rows for file in demo.loaded.files)
    say(f"Loaded {len(demo.loaded.files)} files with {rows} rows into {demo.folder.root}.")
    for file in demo.loaded.files:
        for note in (*file.notes, *([file.message] if file.message else [])):
            say(f"  {file.path.name}: {note}")
    if demo.loaded.doubles:
        say(f"  {demo.loaded.doubles} runs came again moved by exactly one hour and do not count.")
    say(f"The most telling shift is {demo.shift}:")
    for words in demo.look_at:
        say(f"  {words}")
    say("Open the page in a browser:")
    click.echo(near(demo.page))
    say(f"Then ask: eol --plant '{demo.folder.root}' sql \"FROM line_by_shift\"")
