"""Defects by code."""

from __future__ import annotations

from chart_rows import chart_rows, layer_rows
from made_up_shift import LOUD_CODES, code, loud_shift, one_row, pareto, stress_shift

from eol.figures.pareto import code_name, pareto_chart, short_names


def test_every_bar_is_a_link_to_its_units() -> None:
    """Each code leads to its own place, the others to the list of codes."""
    rows = chart_rows(pareto_chart(loud_shift().pareto).to_dict())
    links = {row["name"]: row["href"] for row in rows if "href" in row}
    assert links["Leak, rear quarter seam"] == "#code-water-WL-SEAM"
    assert links["3 other codes"] == "#codes"


def test_severity_is_letter_and_shape() -> None:
    """A class stands as letter and as mark; a code without one has neither."""
    spec = pareto_chart(loud_shift().pareto).to_dict()
    marks = [layer for layer in spec["hconcat"][0]["layer"] if "shape" in layer["encoding"]]
    letters = [row["severity"] for row in layer_rows(spec, marks[0])]
    assert letters == ["B", "C", "B", "B", "C", "C", "D", "A"]


def test_what_is_usual_is_shaded_behind_the_bar() -> None:
    """What is usual is a band, and told where one points; that a code is safety-related is printed."""
    rows = {
        row["name"]: row
        for row in chart_rows(pareto_chart(loud_shift().pareto).to_dict())
        if "low" in row
    }
    seam, isolation = rows["Leak, rear quarter seam"], rows["Isolation resistance low"]
    assert (seam["low"], seam["high"], seam["remark"]) == (0, 6, "")
    assert seam["spoken"] == "WL-SEAM Leak, rear quarter seam: 19, usual 0 to 6"
    assert (isolation["high"], isolation["remark"]) == (None, "safety-related")


def test_two_codes_of_one_title_keep_their_codes() -> None:
    """Where titles alone would make two codes one, the codes stand before them."""
    made = pareto(code("w", "A", "Leak", 3), code("e", "B", "Leak", 2), code("e", "C", "Creak", 1))
    assert short_names(made.shown) == ("A Leak", "B Leak", "Creak")


def test_many_others_do_not_flatten_the_bars() -> None:
    """Other codes that sum to more than the first bar are told as a number only."""
    rows = chart_rows(pareto_chart(stress_shift().pareto).to_dict())
    others = next(row for row in rows if row.get("key") == "others")
    assert (others["bar"], others["words"]) == (0, "1261 together")


def test_no_others_no_row() -> None:
    """With few codes nothing is folded together."""
    rows = chart_rows(pareto_chart(pareto(code("water", "A", "Leak", 2))).to_dict())
    assert {row["key"] for row in rows if "key" in row} == {"code-water-A"}


def test_code_without_title() -> None:
    """A fail without a finding is told in words, a code without title by itself."""
    made = pareto(*LOUD_CODES, code("water", "X9", "", 1))
    facts = loud_shift()
    assert code_name(one_row(facts, "UNSPECIFIED")) == "Failed, no finding"
    assert code_name(made.rows[-1]) == "X9"
