"""The page of a fleet: the plants beside each other, from the figures and parts of a plant's own page."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

import eol.report
from eol.errors import ReportError
from eol.figures.plants import plant_chart
from eol.figures.svg import chart_svg
from eol.fleet.facts import FleetFacts
from eol.fleet.rising import Change, RisingCode
from eol.report.formats import day_words, listed, moment_words, percent, plain
from eol.report.table import Table
from eol.words import CAUTION, counted

SHOWN_ROOTS = 20
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"


def write_fleet_page(facts: FleetFacts, path: Path, *, paper: str = "A4") -> Path:
    """Write the page of a fleet as one HTML file that needs no network.

    Args:
        facts: what the page says.
        path: the file; an older one is replaced.
        paper: the sheet it prints on.

    Raises:
        ReportError: a figure cannot be drawn, or the file not written.
    """
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_text(build_fleet_page(facts, paper=paper), encoding="utf-8", newline="\n")
        beside.replace(path)
    except OSError as error:
        raise ReportError(
            f"the page cannot be written: {error.strerror}",
            where=str(path),
            hint="Name a file in a folder that is there and that you may write to.",
        ) from error
    return path


def build_fleet_page(facts: FleetFacts, *, paper: str = "A4") -> str:
    """Return the page of a fleet as HTML; the same text for the same facts.

    Raises:
        ReportError: a figure cannot be drawn.
    """
    return _template().render(**_words(facts), paper=paper)


def _words(facts: FleetFacts) -> dict[str, Any]:
    clocks = [clock for _, clock in facts.clocks if clock is not None]
    oldest = min(clocks) if clocks else None
    return {
        "policy": _POLICY,
        "title": f"{counted(len(facts.clocks), 'plant')} · {day_words(facts.first)} to {day_words(facts.last)}",
        "plants": " · ".join(f"{plant}: {_received(clock)}" for plant, clock in facts.clocks),
        "received": f"From data received up to {_received(oldest)}." if oldest else "No data yet.",
        "caution": CAUTION,
        "rising_title": _rising_title(facts),
        "rising": [_rising_line(facts, code) for code in facts.rising.codes],
        "rising_note": _rising_note(facts),
        "sections": [
            (_tests(facts), Markup(_chart(facts))),
            (_pareto(facts), ""),
            (_roots(facts), ""),
            (_changes(facts), ""),
        ],
    }


def _received(clock: datetime | None) -> str:
    return f"{moment_words(clock)} UTC" if clock else "nothing received"


def _rising_title(facts: FleetFacts) -> str:
    shared = [code for code in facts.rising.codes if len(code.rises_in) > 1]
    if shared:
        return f"{counted(len(shared), 'code')} rising in several plants"
    if facts.rising.codes:
        return f"{counted(len(facts.rising.codes), 'code')} rising, each in one plant"
    return "No code rises beyond chance"


def _rising_line(facts: FleetFacts, code: RisingCode) -> str:
    changes = {
        c.plant: c for c in facts.rising.changes if (c.test, c.code) == (code.test, code.code)
    }
    each = [f"{plant} ({_change_words(changes[plant])})" for plant in code.rises_in]
    name = f"{code.code} {code.title or ''}".strip()
    safety = ", safety-related" if code.safety_related else ""
    others = f"; seen without rising in {listed(list(code.seen_in))}" if code.seen_in else ""
    return f"{name} ({code.test}{safety}) rises in {listed(each)}{others}."


def _change_words(change: Change) -> str:
    before = f"{change.before_units} of {change.before_tested}"
    return f"{change.recent_units} of {change.recent_tested}, before {before}"


def _rising_note(facts: FleetFacts) -> str:
    spans = facts.rising.spans
    return (
        f"{day_words(spans.recent_from)} to {day_words(spans.recent_to)} against"
        f" {day_words(spans.before_from)} to {day_words(spans.before_to)};"
        f" {counted(facts.rising.compared, 'pair')} of plant and code: {facts.rising.method}."
    )


def _chart(facts: FleetFacts) -> str:
    if not facts.tests:
        return ""
    label = "First-time-through of each plant in each test with its 95% interval; the numbers are in the table"
    return chart_svg(plant_chart(facts.tests), name="plants", label=label)


def _tests(facts: FleetFacts) -> Table:
    columns: tuple[str, ...] = ("plant", "test", "tested", "passed first", "FTT", "low", "high")
    columns += ("defects", "per 100 units", "low", "high")
    rows = tuple(
        (
            str(row["plant"]),
            str(row["test"]),
            str(row["tested"]),
            str(row["passed_first"]),
            *(percent(_number(row[name])) for name in ("ftt", "low", "high")),
            str(row["defects"]),
            *(plain(_number(row[name]), 2) for name in ("dphu", "dphu_low", "dphu_high")),
        )
        for row in facts.tests
    )
    note = "Low and high: 95% interval."
    return Table("tests", "Tests by plant", columns, rows, frozenset(range(2, 11)), note)


def _pareto(facts: FleetFacts) -> Table:
    columns: tuple[str, ...] = ("code", "title", "severity", "plants", "defects", "units")
    columns += ("per 100 units", "share", "running share")
    rows = tuple(
        (
            str(row["root_code"]),
            str(row["title"] or ""),
            _severity(row),
            str(row["plants"]),
            str(row["defects"]),
            str(row["units"]),
            plain(_number(row["per_100"]), 2),
            percent(_number(row["share"])),
            percent(_number(row["cumulative_share"])),
        )
        for row in facts.pareto[:SHOWN_ROOTS]
    )
    note = (
        "Codes joined by the catalogue are counted as their root; a fault seen twice counts once."
    )
    return Table(
        "pareto", "Defects over all plants by code", columns, rows, frozenset(range(3, 9)), note
    )


def _roots(facts: FleetFacts) -> Table:
    """Defects per 100 units of each code, a column a plant."""
    plants = [plant for plant, _ in facts.clocks]
    rates = {(row["root_code"], row["plant"]): _number(row["per_100"]) for row in facts.roots}
    rows = tuple(
        (
            str(row["root_code"]),
            *(plain(rates.get((row["root_code"], plant)), 2) for plant in plants),
        )
        for row in facts.pareto[:SHOWN_ROOTS]
    )
    numbers = frozenset(range(1, len(plants) + 1))
    return Table(
        "roots", "Defects per 100 units by code and plant", ("code", *plants), rows, numbers
    )


def _changes(facts: FleetFacts) -> Table:
    columns: tuple[str, ...] = ("code", "plant", "test", "recent", "tested", "before", "tested")
    columns += ("ratio", "low", "high", "p")
    moved = sorted(facts.rising.changes, key=lambda change: (change.p, change.plant, change.code))
    rows = tuple(
        (
            change.code,
            change.plant,
            change.test,
            *map(str, (change.recent_units, change.recent_tested)),
            *map(str, (change.before_units, change.before_tested)),
            *(plain(number, 2) for number in (change.ratio, change.low, change.high)),
            plain(change.p, 4),
        )
        for change in moved[:SHOWN_ROOTS]
    )
    note = "The pairs of plant and code that moved most; p is corrected for all pairs."
    return Table("changes", "Codes that moved", columns, rows, frozenset(range(3, 11)), note)


def _severity(row: dict[str, object]) -> str:
    return f"{row['severity'] or '–'}{', safety-related' if row['safety_related'] else ''}"


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) else None


def _template() -> jinja2.Template:
    """The fleet's own page, with the parts of a plant's page."""
    own, parts = (
        Path(__file__).parent / "templates",
        Path(str(eol.report.__file__)).parent / "templates",
    )
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader([own, parts]),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template("fleet.html")
