"""`eol contain`: tells how far a fault reaches."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from eol.cli.output import json_option, near, print_json


@click.command(epilog="Example: eol contain WL-SEAM --zone RR-QTR --vin 0ZZKWAG00TK108691")
@click.argument("code", required=False)
@click.option("--zone", metavar="ZONE", help="Only faults there; any zone where not given.")
@click.option("--test", metavar="TEST", help="The test, where several have the code.")
@click.option(
    "--vin", "vins", multiple=True, metavar="VIN", help="A confirmed unit; may be repeated."
)
@click.option(
    "--where", multiple=True, metavar="CONDITION", help="What suspects share: 'sealer_bead <= 4.8'."
)
@click.option("--lot", metavar="LOT", help="The lot that suspect units have.")
@click.option("--bay", metavar="STATION/BAY", help="The place that passed the suspect units.")
@click.option(
    "--change-before", type=int, metavar="SEQ", help="Build sequence: first suspect unit."
)
@click.option("--change-after", type=int, metavar="SEQ", help="Build sequence: last suspect unit.")
@click.option("--sensitivity", type=float, metavar="S", help="Share of faulty units found, 0 to 1.")
@click.option("--from", "since", metavar="DATE/SHIFT", help="First shift; else 90 days back.")
@click.option("--to", "until", metavar="DATE/SHIFT", help="Last shift; else all.")
@click.option("--made-by", metavar="NAME", help="Who asks; kept as a pseudonym.")
@json_option
@click.pass_obj
def command(
    plant: Path,
    /,
    made_by: str | None,
    as_json: bool,
    vins: tuple[str, ...],
    **asked: Any,
) -> None:
    """List the units that may have the fault CODE: from where to where, why, what is known of each.

    Confirmed units are those named with --vin, else those on which CODE was found. The list is kept
    as a version and written to the folder reports as CSV, XLSX and a page to print.
    """
    from eol.facts.contain_question import ContainQuestion
    from eol.plant.folder import open_folder
    from eol.report.contain import contain
    from eol.report.contain_files import CAUTION, heading, lines_of

    question = ContainQuestion(vins=tuple(vin.strip().upper() for vin in vins), **asked)
    made = contain(open_folder(plant), question, made_by=made_by)
    if as_json:
        print_json(made)
        return
    click.echo(heading(made.found))
    for name, words in lines_of(made.found, made.kept):
        click.echo(f"{name:12}{words}")
    for path in (made.files.csv, made.files.xlsx, made.files.html):
        click.echo(f"{'file':12}{near(path)}")
    for words in filter(None, (CAUTION, made.found.handling)):
        click.echo(f"{'caution':12}{words}")
