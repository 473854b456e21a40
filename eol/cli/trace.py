"""`eol trace`: tells where a defect comes from."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, print_json, print_table, say

if TYPE_CHECKING:
    from eol.facts.trace_causes import Factor

_COLUMNS = (
    "factor",
    "value",
    "had it",
    "of",
    "rest had",
    "of rest",
    "crude p",
    "within p",
    "corrected",
)


@click.command(epilog="Example: eol trace WL-SEAM --zone RR-QTR --from 2026-09-08/day")
@click.argument("code")
@click.option("--zone", metavar="ZONE", help="Only defects there; any zone where not given.")
@click.option("--test", metavar="TEST", help="The test, where several have the code.")
@click.option(
    "--from", "since", metavar="DATE/SHIFT", help="First shift of testing; else 90 days back."
)
@click.option("--to", "until", metavar="DATE/SHIFT", help="Last shift of testing; else all.")
@click.option("--all", "every", is_flag=True, help="Show every factor that was looked at.")
@json_option
@click.pass_obj
def command(
    plant: Path,
    code: str,
    zone: str | None,
    test: str | None,
    since: str | None,
    until: str | None,
    every: bool,
    as_json: bool,
) -> None:
    """Tell where the defect CODE comes from: which attribute, lot, station, bay, program or hour.

    Each is taken crudely, and within shift and model, where time alone cannot pass for a cause;
    beside it stands where in the order of building and of testing the defect crowds.
    """
    from eol.facts.trace import trace_code
    from eol.facts.trace_words import headline, sentences
    from eol.plant.folder import open_folder
    from eol.plant.settings import read_settings
    from eol.store.connect import open_copy

    folder = open_folder(plant)
    persons = read_settings(folder.toml).persons.figures
    with open_copy(folder) as copy:
        found = trace_code(
            copy, code, zone=zone, test=test, since=since, until=until, persons=persons
        )
    if as_json:
        print_json(found)
        return
    click.echo(headline(found))
    if found.start:
        click.echo(f"Start with {found.start}.")
    for sentence in sentences(found):
        click.echo(sentence)
    for words in [found.handling] if found.safety_related and found.handling else []:
        say(f"Caution: {words}")
    shown = [factor for factor in found.factors if every or factor.verdict != "nothing"]
    if shown:
        print_table(list(_COLUMNS), [_row(factor) for factor in shown])


def _row(factor: Factor) -> list[object]:
    p_values = (factor.crude_p, factor.within_p, factor.corrected_p)
    counts = [factor.had, factor.defects, factor.rest_had, factor.rest]
    return [
        factor.name,
        factor.level,
        *counts,
        *("-" if p is None else f"{p:.2g}" for p in p_values),
    ]
