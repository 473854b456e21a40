"""What the tests see, as rows of the table `answer`."""

from __future__ import annotations

from made_up_follow import queue, seeing

from eol.facts.seeing import Seeing
from eol.facts.seeing_words import QUESTIONS, answer_rows


def test_each_question_has_its_rows() -> None:
    """Checks, drift, false bench, audits and queue give rows with n and method."""
    rows = answer_rows(seeing(), queue())
    assert {row.question for row in rows} == QUESTIONS
    assert all(row.n is not None and row.method for row in rows)


def test_nothing_known_gives_no_row() -> None:
    """A shift of which nothing is known writes nothing."""
    assert answer_rows(Seeing(), None) == ()
