"""A mail lost from the outbox is made again, for those alone who have not got it."""

from __future__ import annotations

import shutil
from datetime import timedelta

import pytest
from mail_plants import LEAD, SHIFT, at, states
from mail_server import Server, read

from eol.plant.folder import PlantFolder
from eol.schedule.run import run_due

pytestmark = pytest.mark.mail

NOW = at("14:35")


def test_restored_without_its_outbox(plant: PlantFolder, server: Server, undrawn: None) -> None:
    """One has the report, one waits, and the outbox is gone: the one who waits gets it, under its old id."""
    server.answers["shift"] = "451 4.7.1 try again"
    run_due(plant, now=NOW)
    shutil.rmtree(plant.outbox)
    server.answers.clear()
    result = run_due(plant, now=NOW + timedelta(minutes=40))
    told = [one.text for one in result.done if one.step == "report"]
    assert told == ["1 lost mail made again"]
    assert [len(server.mails(name)) for name in ("lead", "shift")] == [1, 1]
    ids = {read(server.mails(name)[0])["Message-ID"] for name in ("lead", "shift")}
    assert len(ids) == 1
    assert states(plant, LEAD) == states(plant, SHIFT) == ["sent"]
    assert run_due(plant, now=NOW + timedelta(minutes=80)).done == ()
