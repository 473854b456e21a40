"""Alarms leave once, by mail, with the words that they protect nobody."""

from __future__ import annotations

from datetime import timedelta

import builders as b
import plants
import pytest
from mail_plants import at, declare
from mail_server import Server, read

from eol.errors import PlantFileError
from eol.mail import outbox
from eol.mail.alarm import raise_alarms
from eol.mail.letter import NOT_PROTECTIVE
from eol.mail.record import publish_letters
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings

pytestmark = pytest.mark.mail

ALARM = {"on": True, "count": 2, "within_units": 9, "to": ["alarm@quillbrook.example"]}
NOW = at("14:40")


@pytest.fixture
def alarming(plant: PlantFolder, server: Server) -> PlantFolder:
    """The plant with two leaks at one place of the unit, alarms on."""
    declare(plant, mail=server.settings, alarm=ALARM)
    rows = [row for n in range(2) for row in b.run(f"V{n}", f"09:0{n}", "fail", "LEAK/RRQ")]
    plants.load(plant, b.file("water", rows, name="water_b"), now=NOW)
    return plant


def raised(folder: PlantFolder, minutes: float = 0) -> list[str]:
    """The heads of the alarms that leave after so many minutes."""
    now = NOW + timedelta(minutes=minutes)
    told = raise_alarms(folder, read_settings(folder.toml), now=now)
    publish_letters(folder)
    return [alarm.head for alarm in told]


def test_once(alarming: PlantFolder) -> None:
    """An alarm is mailed once, also when more of the same comes in the same shift."""
    assert raised(alarming) == ["3 findings of LEAK Leak at RRQ, 2 or more within 9 units"]
    assert raised(alarming, 1) == []
    plants.load(alarming, b.file("water", b.run("V3", "09:30", "fail", "LEAK/RRQ"), name="water_c"))
    assert raised(alarming, 2) == []


def test_words(alarming: PlantFolder) -> None:
    """The mail goes to those of [alarm], says where to start, and that it protects nobody."""
    raised(alarming)
    [mail] = outbox.kept(alarming.outbox)
    message = read(outbox.content_of(alarming.outbox, mail))
    assert message["To"] == "alarm@quillbrook.example"
    assert message["Subject"] == "[alarm] Quillbrook: 1 code again and again"
    for kind in ("plain", "html"):
        body = message.get_body((kind,))
        assert body is not None
        text = body.get_content()
        assert NOT_PROTECTIVE in text
        assert "Start there." in text
        assert "Dry it." in text


def test_off_by_default(plant: PlantFolder) -> None:
    """A plant that does not ask for alarms gets none."""
    assert raised(plant) == []


def test_nobody_to_tell(alarming: PlantFolder) -> None:
    """Alarms that nobody would get are a fault of plant.toml."""
    declare(alarming, alarm={"on": True})
    with pytest.raises(PlantFileError, match="nobody gets them"):
        raised(alarming)


def test_no_figure_moves_by_an_alarm(alarming: PlantFolder) -> None:
    """What is noted of an alarm is no figure."""
    raised(alarming)
    assert plants.count(alarming, "figure_change") == 0
