"""The command, for the tests of this folder."""

from __future__ import annotations

import pytest
from called import Answer, Eol

from eol.cli import run


@pytest.fixture
def eol(capsys: pytest.CaptureFixture[str]) -> Eol:
    """Call the command in this process; nothing it says is ever a traceback."""

    def call(*arguments: object) -> Answer:
        code = run([str(argument) for argument in arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return Answer(code, out, err)

    return call
