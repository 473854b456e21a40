"""`eol report`: writes the page of a shift, a day or a week."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, near, print_json
from eol.figures.drawing import drawn_beside

if TYPE_CHECKING:
    from eol.report.shift import Beside


@click.command(epilog="Example: eol report --shift 2026-09-08/day --pdf")
@click.option(
    "--shift", metavar="DATE/SHIFT", help="The shift; the last one that ended where not given."
)
@click.option("--day", metavar="DATE", help="A whole day instead, such as 2026-09-08.")
@click.option("--week", metavar="WEEK", help="A whole week instead, such as 2026-W37.")
@click.option("--pdf", is_flag=True, help="The page as a PDF of one sheet too; needs no browser.")
@click.option(
    "--interactive", is_flag=True, help="A copy too whose figures answer to the pointer (1 MB)."
)
@json_option
@click.pass_obj
def command(
    plant: Path, /, pdf: bool, interactive: bool, as_json: bool, **periods: str | None
) -> None:
    """Write the page of a shift as one HTML file into the folder reports and print where it lies.

    The list of all pages, reports/index.html, is renewed with it.
    """
    asked = {name: text for name, text in periods.items() if text is not None}
    if len(asked) > 1:
        raise click.UsageError("Name one of --shift, --day and --week.")
    wanted: dict[Beside, bool] = {"pdf": pdf, "interactive": interactive}
    # The drawing library starts while all others are loaded and the figures are computed.
    with drawn_beside():
        written = _written(plant, asked, [what for what, is_wanted in wanted.items() if is_wanted])
    if as_json:
        print_json(written)
        return
    for path in written.values():
        click.echo(near(path))


def _written(plant: Path, asked: dict[str, str], also: list[Beside]) -> dict[str, Path]:
    """Write the page that was asked for, and what was asked for beside it."""
    from eol.plant.folder import open_folder
    from eol.report.plant import report_day, report_shift, report_week
    from eol.report.shift import beside_page

    folder = open_folder(plant)
    if "day" in asked:
        page = report_day(folder, asked["day"], also=also)
    elif "week" in asked:
        page = report_week(folder, asked["week"], also=also)
    else:
        page = report_shift(folder, shift=asked.get("shift"), also=also)
    return {"page": page} | {str(what): beside_page(page, what) for what in also}
