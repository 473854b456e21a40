"""`eol sql`: asks the published copy, in SQL or with a worked question; tells what there is to ask for."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from eol.cli.output import json_option, near, print_frame, print_json, print_table, say
from eol.words import counted

if TYPE_CHECKING:
    import polars as pl

    from eol.ask.session import Session
    from eol.plant.folder import PlantFolder

_STUCK = 3


@click.command(
    epilog="Example: eol sql 'SELECT test, ftt, low, high FROM ftt_by_shift WHERE shift = $shift'"
    " --set shift=night --to ftt.xlsx"
)
@click.argument("statement", required=False)
@click.option(
    "-f", "--file", "file", type=click.Path(path_type=Path), help="Read the statement from a file."
)
@click.option("--set", "sets", multiple=True, metavar="NAME=VALUE", help="A value for $NAME.")
@click.option(
    "--attach",
    multiple=True,
    metavar="NAME=PATH",
    help="Read a DuckDB file, a folder or a file of Parquet or CSV beside it.",
)
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write the answer as .csv, .parquet, .json, .jsonl or .xlsx.",
)
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV instead of a table.")
@click.option(
    "--ask",
    is_flag=False,
    flag_value="",
    metavar="[NAME]",
    help="Ask a worked question; without a name, list them.",
)
@click.option("--text", is_flag=True, help="With --ask NAME: print its SQL, to copy and change.")
@click.option(
    "--words",
    is_flag=False,
    flag_value="",
    metavar="[NAME]",
    help="Tell what the tables and views hold, or one of them column by column.",
)
@click.option("--page", is_flag=True, help="With --words: write them as reports/dictionary.html.")
@click.option(
    "--seconds",
    type=click.FloatRange(min=0.01),
    default=300,
    show_default=True,
    help="Stop after so long.",
)
@click.option(
    "--memory", default="4GB", show_default=True, metavar="SIZE", help="Stop beyond so much memory."
)
@json_option
@click.pass_obj
def command(plant: Path, /, **options: Any) -> None:
    """Run an SQL STATEMENT on the published copy, read only: one given, in a file, or from standard input.

    Without one, at a terminal, a prompt asks for statements, with history and completion. Nothing can be
    written, no other file read and no setting changed. Ctrl-C stops a statement.
    """
    from eol.plant.folder import open_folder

    folder = open_folder(plant)
    if options["words"] is not None:
        _tell_words(folder, options)
    elif options["ask"] == "" or options["text"]:
        _tell_questions(options)
    else:
        _ask(folder, options)


def _ask(folder: PlantFolder, options: dict[str, Any]) -> None:
    """Open a session and ask one statement or question in it, or many at a prompt."""
    from eol.ask.attach import parse_attached
    from eol.ask.limits import Limits
    from eol.ask.questions import ask_question
    from eol.ask.session import open_session
    from eol.ask.values import parse_values

    values = parse_values(options["sets"])
    text = None if options["ask"] else _statement(options)
    with open_session(
        folder,
        attached=parse_attached(options["attach"]),
        limits=Limits(options["seconds"], options["memory"]),
        stuck=_end_process,
    ) as session:
        if options["ask"]:
            _give(ask_question(session, options["ask"], values), options)
        elif text is None:
            _prompt(session, values, options)
        else:
            _give(session.ask(text, values), options)


def _statement(options: dict[str, Any]) -> str | None:
    """The statement of the argument, the file or standard input; None where a terminal is to be asked."""
    from eol.errors import UsageError

    if options["statement"] is not None and options["file"] is not None:
        raise UsageError("give a statement or a file, not both", where="-f")
    if options["file"] is not None:
        try:
            return str(options["file"].read_text(encoding="utf-8-sig"))
        except (OSError, UnicodeDecodeError) as error:
            raise UsageError(f"the file cannot be read: {error}", where="-f") from error
    if options["statement"] is not None:
        return str(options["statement"])
    return None if sys.stdin.isatty() and sys.stdout.isatty() else sys.stdin.read()


def _give(frame: pl.DataFrame, options: dict[str, Any]) -> None:
    """Write the answer to the file, or print it."""
    if options["to"] is None:
        print_frame(frame, as_json=options["as_json"], as_csv=options["as_csv"])
        return
    from eol.ask.export import write_answer

    path = write_answer(frame, options["to"])
    if options["as_json"]:
        print_json({"file": path, "rows": frame.height})
    else:
        click.echo(near(path))
        say(counted(frame.height, "row"))


def _prompt(session: Session, values: dict[str, object], options: dict[str, Any]) -> None:
    from eol.cli.prompt import ask_on

    ask_on(session, values, lambda frame: _give(frame, options | {"to": None}))


def _tell_questions(options: dict[str, Any]) -> None:
    from eol.ask.questions import question, questions

    if options["ask"]:
        click.echo(question(options["ask"]).text, nl=False)
        return
    if options["as_json"]:
        print_json(questions())
        return
    rows = (
        (q.name, q.title, ", ".join([*q.values, *(f"--attach {n}=" for n in q.needs)]))
        for q in questions()
    )
    print_table(["question", "what it answers", "values"], rows)


def _tell_words(folder: PlantFolder, options: dict[str, Any]) -> None:
    from eol.ask.dictionary import dictionary

    if options["page"]:
        from eol.report.dictionary import report_dictionary

        click.echo(near(report_dictionary(folder)))
        return
    words = dictionary(folder)
    if not options["words"]:
        if options["as_json"]:
            print_json(words.relations)
            return
        print_table(
            ["name", "kind", "what a row is"],
            ((r.name, r.kind, r.comment) for r in words.relations),
        )
        return
    relation = words.relation(options["words"])
    if options["as_json"]:
        print_json(relation)
        return
    click.echo(f"{relation.name} ({relation.kind}): {relation.comment}")
    print_table(
        ["column", "type", "unit", "what it holds"],
        ((c.name, c.type.lower(), c.unit, c.comment) for c in relation.columns),
    )


def _end_process(reason: str) -> None:
    """End at once where a statement cannot be stopped; the copy is only read, so nothing is lost."""
    say(f"eol: {reason}; it did not look up, so the command ends.")
    os._exit(_STUCK)
