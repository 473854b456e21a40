"""The demo record and its files, each made once for all tests of the folder."""

from pathlib import Path

import pytest

from eol.demo.files import SEED, write_record
from eol.demo.record import Record, make_record
from eol.demo.truth import Truth
from eol.sqlfiles import demo_folder


def pytest_itemcollected(item: pytest.Item) -> None:
    """Mark tests of the whole record as slow: to make it takes longer than all others of the folder."""
    if "record" in getattr(item, "fixturenames", ()):
        item.add_marker(pytest.mark.slow)


@pytest.fixture(scope="session")
def record() -> Record:
    """The record behind the committed files."""
    return make_record(SEED)


@pytest.fixture(scope="session")
def rebuilt(record: Record, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Truth]:
    """A folder with the files made anew, and their truth."""
    folder = tmp_path_factory.mktemp("demo")
    return folder, write_record(folder, record, SEED)


@pytest.fixture(scope="session")
def truth(rebuilt: tuple[Path, Truth]) -> Truth:
    """The truth of the record."""
    return rebuilt[1]


@pytest.fixture(scope="session")
def committed() -> Path:
    """The folder of the committed files."""
    return demo_folder()
