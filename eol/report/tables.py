"""Every figure of the page as a table, and the lists of units behind the codes and zones."""

from __future__ import annotations

from collections.abc import Iterable

from eol.facts.bays import Bay
from eol.facts.ftt import FttSeries, ShiftPoint
from eol.facts.limits import Usual
from eol.facts.pareto import Pareto
from eol.facts.shift import ShiftFacts
from eol.facts.strip import Figure
from eol.facts.units import UnitWithCode
from eol.facts.zones import ZoneCount, Zones
from eol.figures.links import place_id
from eol.figures.wording import hours_words
from eol.report.actions import action_table
from eol.report.formats import (
    day_words,
    moment_words,
    percent,
    period_noun,
    plain,
    point_words,
)
from eol.report.seeing import seeing_tables
from eol.report.table import Table
from eol.report.tables_signals import signal_tables
from eol.report.titles import code_words
from eol.words import counted

LISTED = 500
"""So many units a page lists of what stands open from before; a list that nobody clears grows without end."""


def tables(facts: ShiftFacts) -> tuple[Table, ...]:
    """Return the tables in the order of the panels."""
    return (
        _line(facts),
        _ftt(facts.tests),
        _history(facts.tests),
        _pareto(facts.pareto, facts.titles),
        *signal_tables(facts),
        _zones(facts.zones),
        _bays(facts.bays),
        _open(facts),
        *seeing_tables(facts),
        *((action_table(facts),) if facts.actions else ()),
        _escapes(facts),
        _safety(facts),
        _stations(facts),
    )


def code_lists(facts: ShiftFacts) -> tuple[Table, ...]:
    """Return the units of each code, the most frequent code first."""
    lists = []
    for row in facts.pareto.rows:
        units = [u for u in facts.units_with_code if (u.test, u.code) == (row.test, row.code)]
        name = row.code if code_words(row) == row.code else f"{row.code} {code_words(row)}"
        title = f"{name}: {counted(row.defects, 'defect')}"
        lists.append(_units(place_id("code", row.test, row.code), title, units))
    return tuple(lists)


def zone_lists(facts: ShiftFacts) -> tuple[Table, ...]:
    """Return the units of each zone that has a defect, the fullest zone first."""
    zones = [*facts.zones.placed, *facts.zones.unplaced]
    return tuple(_zone_list(zone, facts) for zone in zones if zone.defects)


def _zone_list(zone: ZoneCount, facts: ShiftFacts) -> Table:
    units = [unit for unit in facts.units_with_code if unit.zone == zone.zone]
    title = f"{zone.zone} {zone.title}: {counted(zone.defects, 'defect')}"
    return _units(place_id("zone", zone.zone), title, units, with_code=True)


def _units(
    place: str, title: str, units: Iterable[UnitWithCode], *, with_code: bool = False
) -> Table:
    second = "code" if with_code else "zone"
    columns = ("VIN", second, "station", "found", "now", "place", "handling")
    rows = tuple(
        (
            unit.vin,
            (unit.code if with_code else unit.zone) or "",
            " ".join(part for part in (unit.station, unit.bay) if part),
            point_words(unit.found_at),
            unit.status or "",
            unit.place or "",
            unit.handling or "",
        )
        for unit in units
    )
    return Table(place, title, columns, rows)


def _line(facts: ShiftFacts) -> Table:
    strip = facts.strip
    figures = (
        ("Line FTT", strip.line_ftt, True),
        ("RTY", strip.rty, True),
        ("Defects per 100 units", strip.dphu, False),
        ("Void tests", strip.void_tests, False),
    )
    return Table(
        "t-line",
        "Headline figures",
        (
            *(
                "figure",
                "value",
                "units",
                "low",
                "high",
                "usual from",
                "usual to",
                f"{period_noun()}s",
            ),
            *("own crew", "target"),
        ),
        tuple(_figure_row(name, figure, share=share) for name, figure, share in figures),
        frozenset(range(1, 10)),
        f"{counted(strip.built, 'unit')} left the line in this {period_noun()}; {strip.undecided} undecided. "
        "Low and high: 95% interval. Own crew: what is usual for this shift's crew.",
    )


def _figure_row(name: str, figure: Figure, *, share: bool) -> tuple[str, ...]:
    usual = figure.usual
    numbers = (figure.value, figure.low, figure.high)
    value, low, high = (percent(n) if share else plain(n) for n in numbers)
    ends = (usual.low, usual.high) if usual else (None, None)
    low_usual, high_usual = (percent(n) if share else plain(n) for n in ends)
    shifts = str(usual.shifts) if usual else "–"
    target = percent(figure.target) if share else plain(figure.target)
    units = str(figure.n) if figure.n else "–"
    own = _reach(figure.crew_usual, share=share)
    return (name, value, units, low, high, low_usual, high_usual, shifts, own, target)


def _reach(usual: Usual | None, *, share: bool) -> str:
    if usual is None:
        return "–"
    low, high = (percent(n) if share else plain(n) for n in (usual.low, usual.high))
    return f"{low} to {high}"


def _ftt(tests: tuple[FttSeries, ...]) -> Table:
    columns: tuple[str, ...] = ("test", "presented", "tested", "passed first", "FTT", "low", "high")
    columns += ("void", "aborted", "pending", "retested", "usual", "own crew")
    rows = tuple(
        (
            series.title,
            str(series.presented),
            str(series.now.tested),
            str(series.now.passed_first),
            percent(series.now.ftt),
            percent(series.low),
            percent(series.high),
            str(series.void_runs),
            str(series.aborted_runs),
            str(series.pending),
            str(series.retested),
            _reach(series.now.usual, share=True),
            _reach(series.crew_usual, share=True),
        )
        for series in tests
    )
    note = "Pending: units with void runs only. Low and high: 95% interval."
    return Table(
        "t-ftt", f"Tests of this {period_noun()}", columns, rows, frozenset(range(1, 13)), note
    )


def _history(tests: tuple[FttSeries, ...]) -> Table:
    columns = ["date", "shift"]
    for series in tests:
        columns += [f"{series.title}: {word}" for word in ("tested", "FTT", "usual")]
    points = zip(*(reversed(series.points) for series in tests), strict=False)
    rows = tuple(_history_row(at) for at in points)
    return Table(
        "t-history",
        f"FTT by {period_noun()}",
        tuple(columns),
        rows,
        frozenset(range(2, len(columns))),
    )


def _history_row(points: tuple[ShiftPoint, ...]) -> tuple[str, ...]:
    first = points[0]
    row = [day_words(first.production_date), first.shift or "between shifts"]
    for point in points:
        usual = point.usual
        reach = f"{percent(usual.low)} to {percent(usual.high)}" if usual else "–"
        row += [str(point.tested), percent(point.ftt), reach]
    return tuple(row)


def _pareto(pareto: Pareto, titles: dict[str, str]) -> Table:
    columns: tuple[str, ...] = (
        "code",
        "title",
        "test",
        "severity",
        "defects",
        "share",
        "running share",
        "usual",
    )
    columns += ("units", "at risk", "per 100 at risk", "owner")
    seen, rows = 0, []
    for row in pareto.rows:
        seen += row.defects
        usual = f"{plain(row.usual.low)} to {plain(row.usual.high)}" if row.usual else "–"
        rows.append(
            (
                row.code,
                code_words(row),
                titles.get(row.test, row.test),
                (row.severity or "–") + (", safety-related" if row.safety_related else ""),
                str(row.defects),
                percent(row.defects / pareto.defects),
                percent(seen / pareto.defects),
                usual,
                str(row.units),
                str(row.at_risk) if row.at_risk is not None else "–",
                plain(row.per_100_at_risk, 2),
                row.owner_area or "",
            )
        )
    return Table("t-pareto", "Defects by code", columns, tuple(rows), frozenset(range(4, 11)))


def _zones(zones: Zones) -> Table:
    known = [zone for zone in (*zones.placed, *zones.unplaced) if zone.defects]
    rows = [
        (
            zone.zone,
            zone.title,
            str(zone.defects),
            zone.leading or "",
            "high voltage near" if zone.hv_near else "",
        )
        for zone in known
    ]
    if zones.without_zone:
        rows.append(("–", "no zone given", str(zones.without_zone), "", ""))
    columns = ("zone", "title", "defects", "leading code", "handling")
    return Table("t-zones", "Defects by zone", columns, tuple(rows), frozenset({2}))


def _bays(bays: tuple[Bay, ...]) -> Table:
    columns: tuple[str, ...] = (
        "test",
        "bay",
        "presented",
        "tested",
        "passed first",
        "FTT",
        "low",
        "high",
    )
    columns += ("its other bays", "void", "finding")
    rows = tuple(
        (
            bay.title,
            bay.name,
            str(bay.presented),
            str(bay.tested),
            str(bay.passed_first),
            percent(bay.ftt),
            percent(bay.low),
            percent(bay.high),
            percent(bay.others_ftt),
            str(bay.void_runs),
            f"passes {bay.differs}" if bay.differs else "",
        )
        for bay in bays
    )
    return Table("t-bays", "Bays", columns, rows, frozenset(range(2, 10)))


def _open(facts: ShiftFacts) -> Table:
    columns = ("VIN", "test", "status", "waits for", "hours", "loops", "place", "codes", "handling")
    rows = tuple(
        (
            unit.vin,
            unit.title,
            unit.status,
            unit.waiting_for,
            hours_words(unit.hours),
            str(unit.loops),
            unit.place or "",
            unit.codes or "",
            unit.handling or "",
        )
        for unit in facts.open_units[:LISTED]
    )
    note = _others(len(facts.open_units), "open_unit")
    return Table("t-open", "Open units", columns, rows, frozenset({4, 5}), note)


def _escapes(facts: ShiftFacts) -> Table:
    columns = ("VIN", "test", "reason", "event", "at", f"in this {period_noun()}")
    rows = tuple(
        (
            escape.vin,
            escape.title,
            escape.reason,
            escape.event,
            moment_words(escape.event_at),
            "yes" if escape.in_shift else "no",
        )
        for escape in facts.escapes[:LISTED]
    )
    note = _others(len(facts.escapes), "escape")
    return Table("t-escapes", "Escapes", columns, rows, note=note)


def _safety(facts: ShiftFacts) -> Table:
    columns = ("VIN", "test", "code", "title", "zone", "found", "now", "place", "handling")
    rows = tuple(
        (
            unit.vin,
            unit.title,
            unit.code,
            unit.code_title,
            unit.zone or "",
            moment_words(unit.found_at),
            unit.status,
            unit.place or "",
            unit.handling or "",
        )
        for unit in facts.safety_units[:LISTED]
    )
    note = "Listed by VIN until a release. Local law and licensed practice go first."
    note = " ".join([note, _others(len(facts.safety_units), "safety_listed")]).strip()
    return Table("t-safety", "Safety-related findings without a release", columns, rows, note=note)


def _others(units: int, view: str) -> str:
    """Where those stand that a page has no room for; nothing where all are listed."""
    if units <= LISTED:
        return ""
    return f'{LISTED} of {units} are listed; all of them: eol sql "FROM {view}".'


def _stations(facts: ShiftFacts) -> Table:
    columns = ("station", "test", "last heard from", f"since the {period_noun()}'s end")
    rows = tuple(
        (
            station.station,
            facts.titles.get(station.test, station.test),
            moment_words(station.last_at),
            "yes" if station.heard_after else "no",
        )
        for station in facts.header.stations
    )
    note = f"{counted(facts.refused_rows, 'row')} of the files could not be read."
    return Table("t-stations", f"Stations of this {period_noun()}", columns, rows, note=note)
