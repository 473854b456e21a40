"""The prompt: statements one after the other, with history and completion."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import polars as pl
import pytest
from prompt_toolkit import PromptSession
from prompt_toolkit.history import InMemoryHistory
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from eol.ask.session import Session, open_session
from eol.cli.prompt import ask_on, completions, history_file, keys
from eol.plant.folder import PlantFolder


@pytest.fixture
def typed() -> Iterator[PipeInput]:
    """What a person types."""
    with create_pipe_input() as pipe:
        yield pipe


@pytest.fixture(scope="module")
def session(small_plant: PlantFolder) -> Iterator[Session]:
    """A session on a small plant."""
    with open_session(small_plant) as opened:
        yield opened


def asked(session: Session, typed: PipeInput, text: str) -> tuple[list[pl.DataFrame], list[str]]:
    """The answers to what was typed, and the history, oldest first."""
    typed.send_text(text)
    prompts: PromptSession[str] = PromptSession(
        history=InMemoryHistory(),
        multiline=True,
        key_bindings=keys(),
        input=typed,
        output=DummyOutput(),
    )
    answers: list[pl.DataFrame] = []
    ask_on(session, {"n": 2}, answers.append, prompts=prompts)
    return answers, list(prompts.history.get_strings())


def test_statements_until_quit(session: Session, typed: PipeInput) -> None:
    """A statement may have several lines and ends with its semicolon; values stay; quit leaves."""
    answers, history = asked(session, typed, "SELECT\r$n AS n;\rSELECT 7 AS n;\rquit\r")
    assert [answer["n"].to_list() for answer in answers] == [[2], [7]]
    assert history[0] == "SELECT\n$n AS n;"


def test_wrong_statement_is_told(
    session: Session, typed: PipeInput, capsys: pytest.CaptureFixture[str]
) -> None:
    """A wrong statement is told and the next is asked; an empty line asks nothing; Ctrl-D leaves."""
    answers, _ = asked(session, typed, "DELETE FROM run;\r\r;\rSELECT 1 AS n;\r\x04")
    assert len(answers) == 1
    assert "DELETE is refused" in capsys.readouterr().err


def test_ctrl_c_takes_the_line_back(session: Session, typed: PipeInput) -> None:
    """Ctrl-C while typing drops the line and goes on."""
    answers, _ = asked(session, typed, "SELECT nonsense\x03SELECT 3 AS n;\rexit\r")
    assert [answer["n"].to_list() for answer in answers] == [[3]]


def test_ctrl_c_stops_a_statement(
    session: Session,
    typed: PipeInput,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Ctrl-C while a statement runs stops it and goes on."""

    def stopped(*_: object) -> pl.DataFrame:
        raise RuntimeError("Query interrupted")

    monkeypatch.setattr(Session, "ask", stopped)
    asked(session, typed, "SELECT 1;\rquit\r")
    assert "stopped." in capsys.readouterr().err


def test_completions(session: Session) -> None:
    """Tables, views, columns and keywords complete; losing versions with their schema."""
    words = set(completions(session.columns()))
    assert {"ftt_by_shift", "passed_first", "superseded.run", "GROUP BY"} <= words


def test_history_has_a_place(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """EOL_HISTORY names the file; else it lies below the home folder."""
    monkeypatch.setenv("EOL_HISTORY", str(tmp_path / "h"))
    assert history_file() == tmp_path / "h"
    monkeypatch.delenv("EOL_HISTORY")
    assert history_file().name == "sql_history"
