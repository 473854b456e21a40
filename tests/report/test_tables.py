"""Tables and lists of units."""

from __future__ import annotations

from dataclasses import replace

from made_up_shift import HANDLING, empty_shift, loud_shift, stress_shift

from eol.report.tables import LISTED, code_lists, tables, zone_lists


def test_every_row_has_every_column() -> None:
    """A table is a rectangle."""
    for make in (loud_shift, empty_shift, stress_shift):
        for table in (*tables(make()), *code_lists(make()), *zone_lists(make())):
            assert {len(row) for row in table.rows} <= {len(table.columns)}


def test_units_of_a_code() -> None:
    """Each defect of a code stands in its list."""
    lists = {table.place: table for table in code_lists(loud_shift())}
    assert len(lists["code-water-WL-SEAM"].rows) == 19
    assert lists["code-electrical-UNSPECIFIED"].title == "UNSPECIFIED Failed, no finding: 3 defects"


def test_handling_words_stand_beside_the_vin() -> None:
    """Every row of a unit with such a finding carries the catalogue's words."""
    lists = {table.place: table for table in code_lists(loud_shift())}
    assert [row[-1] for row in lists["code-electrical-EL-ISO"].rows] == [HANDLING]
    safety = next(table for table in tables(loud_shift()) if table.place == "t-safety")
    assert {row[-1] for row in safety.rows} == {HANDLING}


def test_endless_lists_say_where_the_rest_is() -> None:
    """Of what stands open from before a page lists so many; its view has all."""
    one = loud_shift().safety_units[0]
    facts = replace(loud_shift(), safety_units=(one,) * (LISTED + 1))
    table = next(table for table in tables(facts) if table.place == "t-safety")
    assert len(table.rows) == LISTED
    assert table.note.endswith('500 of 501 are listed; all of them: eol sql "FROM safety_listed".')
    full = next(t for t in tables(loud_shift()) if t.place == "t-safety")
    assert full.note.endswith("licensed practice go first.")


def test_all_codes_are_in_the_table() -> None:
    """Codes that the figure folds together stand in its table."""
    table = next(table for table in tables(stress_shift()) if table.place == "t-pareto")
    assert len(table.rows) == 40
    assert table.rows[-1][6] == "100.0%"


def test_defects_without_a_zone_are_in_the_table() -> None:
    """What the map cannot show is in its table."""
    table = next(table for table in tables(loud_shift()) if table.place == "t-zones")
    assert table.rows[-1][:3] == ("–", "no zone given", "3")
