import runpy
from pathlib import Path

import pytest

import eol.demo
from eol.sqlfiles import demo_folder


@pytest.mark.parametrize(
    ("words", "folder"), [([], demo_folder()), (["made anew"], Path("made anew"))]
)
def test_command_writes_where_it_is_told(
    monkeypatch: pytest.MonkeyPatch, words: list[str], folder: Path
) -> None:
    """`python -m eol.demo` rebuilds demo_parquet, with a folder it writes there."""
    written: list[Path] = []
    monkeypatch.setattr(eol.demo, "write_demo", written.append)
    monkeypatch.setattr("sys.argv", ["eol.demo", *words])
    runpy.run_module("eol.demo", run_name="__main__")
    assert written == [folder]
