"""What a trace says, and its rows for the table of answers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from eol.demo.build import DemoResult
from eol.facts.trace import trace_code
from eol.facts.trace_result import FoundAt, Trace
from eol.facts.trace_words import answer_rows, found_words, headline, p_words, sentences
from eol.store.connect import open_copy


@pytest.fixture(scope="module")
def lots(demo_plant: DemoResult) -> Trace:
    """The trace of the tail trim's rattle."""
    with open_copy(demo_plant.folder) as copy:
        return trace_code(copy, "SR-TAILTRIM")


def test_headline(lots: Trace) -> None:
    """Code, title, how many of how many, and when."""
    assert headline(lots).startswith("SR-TAILTRIM Rattle of the tail trim: 138 of 15,9")
    assert headline(lots).endswith("first squeak_rattle test 2026-08-31 to 2026-09-26")


def test_sentences_name_the_cause(lots: Trace) -> None:
    """Step, stretch, cause, and what cannot be told."""
    told = "\n".join(sentences(lots))
    assert "Found at step joints 138 of 138 (0 % of other codes)" in told
    assert "clip lot C-4471: 73 of 127 had it, 8 % of the rest; more within shift and model" in told
    assert "cannot be compared within a shift: lot of tail trim clip" in told


def test_no_not_a_number(lots: Trace) -> None:
    """No NaN in anything said."""
    assert "nan" not in str(lots).lower().split()


def test_answer_rows(lots: Trace) -> None:
    """Where to start, the cause with its odds ratio, and the stretch; never an evaluator (rule 18)."""
    rows = answer_rows(lots)
    assert [row.name for row in rows] == ["where_to_start", "cause", "build_stretch"]
    cause = rows[1]
    assert (cause.question, cause.subject) == ("where_it_comes_from", "clip lot C-4471")
    assert (cause.low or 0) < (cause.value or 0) < (cause.high or 0)
    (evaluator,) = lots.causes
    keen = replace(evaluator, factors=(replace(evaluator.lead, kind="evaluator"),))
    assert [row.name for row in answer_rows(replace(lots, causes=(keen,), start=None))] == [
        "build_stretch"
    ]


def test_small_words() -> None:
    """p-values and places."""
    assert [p_words(p) for p in (None, 0.0001, 0.0312)] == [
        "not to be told",
        "below 0.001",
        "0.031",
    ]
    assert found_words((FoundAt(None, 1, 2),), "zone") == "zone none told 1 of 2"
