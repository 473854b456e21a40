"""`eol fleet`: asks a lake of many plants."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from eol.cli.output import json_option, near, print_frame, print_json, print_table, say

DAY = click.DateTime(["%Y-%m-%d"])
LOT_CAUTION = (
    "From statistics and records; not a field-action decision;"
    " units outside it are not thereby cleared."
)


@click.command(epilog="Example: eol fleet ftt_by_shift --lake /mnt/lake --from 2026-09-01")
@click.argument("view")
@click.option(
    "--lake", metavar="DIR", required=True, help="A folder, or a URI such as s3://bucket/lake."
)
@click.option(
    "--plants", metavar="NAMES", default="", help="Some plants, with commas between; else all."
)
@click.option("--from", "first", type=DAY, metavar="DATE", help="First production date.")
@click.option("--to", "last", type=DAY, metavar="DATE", help="Last production date.")
@click.option("--part", metavar="PART", help="Of units_of_lot: the part.")
@click.option("--lot", metavar="LOT", help="Of units_of_lot: the lot.")
@click.option(
    "--engine", default="duckdb", metavar="NAME", help="duckdb (on this machine) or spark."
)
@click.option("--master", default="", metavar="URL", help="Spark master, such as local[2].")
@click.option("--remote", default="", metavar="URL", help="Spark Connect server, sc://host:15002.")
@click.option(
    "--output", type=click.Path(path_type=Path), metavar="FILE", help="Write Parquet, or the page."
)
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV instead of a table.")
@json_option
def command(as_csv: bool, as_json: bool, view: str, **asked: Any) -> None:
    """Run a VIEW over all plants of a lake: of `eol sql`, or made for many plants.

    Made for many plants: tests_of_plants, shifts_of_plants, roots_of_plants, pareto_of_plants and
    units_of_lot (with --part and --lot). VIEW may be `rising`, which tells the codes that rise in
    several plants, or `page`, which writes one page of the fleet.
    """
    from eol.fleet.ask import Fleet
    from eol.fleet.settings import SparkSettings

    plants = tuple(name.strip() for name in asked["plants"].split(",") if name.strip())
    spark = SparkSettings(remote=asked["remote"], master=asked["master"])
    fleet = Fleet(asked["lake"], asked["engine"], plants, spark)
    first, last = (_day(asked[name]) for name in ("first", "last"))
    if view == "rising":
        _rising(fleet, last, as_json=as_json)
    elif view == "page":
        _page(fleet, first, last, asked["output"])
    else:
        _view(fleet, view, first, last, asked, as_json=as_json, as_csv=as_csv)


def _view(
    fleet: Any,
    view: str,
    first: date | None,
    last: date | None,
    asked: dict[str, Any],
    *,
    as_json: bool,
    as_csv: bool,
) -> None:
    from eol.fleet.ask import ask_fleet, write_fleet

    values = {name: asked[name] for name in ("part", "lot") if asked[name] is not None}
    if asked["output"]:
        path = write_fleet(fleet, view, asked["output"], first=first, last=last, values=values)
        click.echo(near(path.absolute()))
        return
    rows = ask_fleet(fleet, view, first=first, last=last, values=values)
    print_frame(rows, as_json=as_json, as_csv=as_csv)
    if view == "units_of_lot":
        say(LOT_CAUTION)


def _rising(fleet: Any, last: date | None, *, as_json: bool) -> None:
    from eol.fleet.facts import fleet_rising

    found = fleet_rising(fleet, last=last)
    if as_json:
        print_json(found)
        return
    columns = ["test", "code", "title", "rises_in", "seen_in"]
    rows = [
        [code.test, code.code, code.title, ", ".join(code.rises_in), ", ".join(code.seen_in)]
        for code in found.codes
    ]
    print_table(columns, rows)
    say(f"{found.compared} pairs of plant and code; {found.method}.")


def _page(fleet: Any, first: date | None, last: date | None, output: Path | None) -> None:
    from eol.fleet.facts import fleet_facts
    from eol.fleet.page import write_fleet_page

    path = write_fleet_page(
        fleet_facts(fleet, first=first, last=last), output or Path("fleet.html")
    )
    click.echo(near(path.absolute()))


def _day(moment: datetime | None) -> date | None:
    return None if moment is None else moment.date()
