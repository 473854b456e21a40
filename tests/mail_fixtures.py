"""Fixtures for mail and schedule: a server, a plant that mails to it, reports that are not drawn."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import mail_plants
import plants
import pytest
from mail_server import PASSWORD, USER, Server, mail_server

from eol.plant.folder import PlantFolder


@pytest.fixture(scope="module")
def running_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One server for the tests of a module."""
    with mail_server(tmp_path_factory.mktemp("relay")) as server:
        yield server


@pytest.fixture
def server(running_server: Server, monkeypatch: pytest.MonkeyPatch) -> Server:
    """The server as it starts out, and the password for it in the environment."""
    running_server.answers.clear()
    running_server.taken.clear()
    monkeypatch.setenv("EOL_MAIL_USER", USER)
    monkeypatch.setenv("EOL_MAIL_PASSWORD", PASSWORD)
    return running_server


@pytest.fixture(scope="session")
def shift_plant(blank_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """Four units of the early shift of Tuesday 8 September 2026, loaded at 14:31 of that day; to read."""
    root = tmp_path_factory.mktemp("shift") / "plant"
    shutil.copytree(blank_plant.root, root)
    folder = PlantFolder(root)
    plants.load(folder, *plants.small_files(), now=mail_plants.at("14:31"))
    return folder


@pytest.fixture
def plant(shift_plant: PlantFolder, server: Server, tmp_path: Path) -> PlantFolder:
    """The plant of that shift, to write to, which mails to the server."""
    return mail_plants.mailing(shift_plant, tmp_path / "Werk Süd", server.settings)


@pytest.fixture
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pages of one word and mails without pictures: what is drawn is held elsewhere."""
    mail_plants.draw_nothing(monkeypatch.setattr)
