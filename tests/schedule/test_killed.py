"""A sender killed at any moment: nobody misses a report, and nobody gets two that differ."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import timedelta

import plants
import pytest
from mail_plants import LEAD, SHIFT, at, declare, states
from mail_server import Server

from eol.plant.folder import PlantFolder
from eol.schedule.run import run_due

pytestmark = pytest.mark.slow

NOW = at("14:35")

KILLED = """
import os, sys
from datetime import datetime
from importlib import import_module
from pathlib import Path

import mail_plants
from eol.plant.folder import PlantFolder
from eol.schedule.run import run_due

def replace(target, value):
    module, name = target.rsplit(".", 1)
    setattr(import_module(module), name, value)

root, place, when, number, now = sys.argv[1:]
mail_plants.draw_nothing(replace)
module, name = place.rsplit(".", 1)
real = getattr(import_module(module), name)
calls = []

def dying(*arguments, **more):
    calls.append(name)
    if len(calls) == int(number) and when == "before":
        os._exit(9)
    result = real(*arguments, **more)
    if len(calls) == int(number):
        os._exit(9)
    return result

replace(place, dying)
run_due(PlantFolder(Path(root)), now=datetime.fromisoformat(now))
"""

MOMENTS = [
    ("eol.mail.leave.note_leaving", "before", 1),
    ("eol.mail.leave.note_leaving", "after", 1),
    ("eol.schedule.run.publish_letters", "before", 1),
    ("eol.mail.deliver.hand_over", "before", 1),
    ("eol.mail.deliver.hand_over", "after", 1),
    ("eol.mail.outbox.note_try", "after", 1),
    ("eol.mail.deliver.hand_over", "after", 2),
    ("eol.mail.deliver.note_tries", "before", 1),
    ("eol.mail.deliver.note_tries", "after", 1),
    ("eol.mail.outbox.forget", "after", 1),
]


def killed(folder: PlantFolder, place: str, when: str, number: int) -> None:
    """Do what is due in a process that dies at a moment."""
    there = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
    call = [sys.executable, "-c", KILLED, str(folder.root), place, when, str(number)]
    done = subprocess.run([*call, NOW.isoformat()], env=there)
    assert done.returncode == 9


@pytest.mark.usefixtures("undrawn")
@pytest.mark.parametrize(("place", "when", "number"), MOMENTS)
def test_killed(plant: PlantFolder, server: Server, place: str, when: str, number: int) -> None:
    """The next call finishes what the killed one began.

    A mail may come twice where the kill fell between the relay's yes and the journal; then it is
    the same to the byte.
    """
    killed(plant, place, when, number)
    for minutes in (1, 40):
        run_due(plant, now=NOW + timedelta(minutes=minutes))
    run_due(plant, now=NOW + timedelta(minutes=41))
    assert states(plant, LEAD) == states(plant, SHIFT) == ["sent"]
    got = server.mails("lead"), server.mails("shift")
    assert {len(set(mails)) for mails in got} == {1}
    assert got[0][0] == got[1][0]
    between = place.endswith("hand_over") and when == "after"
    assert sum(len(mails) for mails in got) == 2 + between
    assert list(plant.outbox.iterdir()) == []
    assert plants.count(plant, "report_sent") == 3


@pytest.mark.usefixtures("undrawn")
def test_killed_while_one_is_refused(plant: PlantFolder, server: Server) -> None:
    """One is refused, the sender dies before that is written down, one is greylisted: all is told."""
    server.answers |= {"lead": "550 no such user", "shift": "451 try again"}
    killed(plant, "eol.mail.deliver.note_tries", "before", 1)
    server.answers.clear()
    run_due(plant, now=NOW + timedelta(minutes=40))
    declare(plant, mail=server.settings)
    assert (states(plant, LEAD), states(plant, SHIFT)) == (["refused"], ["sent"])
    assert (len(server.mails("lead")), len(server.mails("shift"))) == (0, 1)
