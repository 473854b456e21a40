"""Delivery: one of two refused, greylisted, a day without the relay, settings at fault."""

from __future__ import annotations

from datetime import datetime, timedelta

import builders as b
import plants
import polars as pl
import pytest
from mail_plants import LEAD, SHIFT, at, declare, states
from mail_server import Server

from eol.errors import MailError
from eol.mail import outbox
from eol.mail.deliver import deliver, mail_lock
from eol.mail.outbox import Kept
from eol.mail.record import FIGURES, Leaving, note_leaving, publish_letters, writing
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings

pytestmark = pytest.mark.mail

NOW = at("14:35")
MAIL = Kept("one", "<one@q>", "line@q.example", (LEAD, SHIFT), NOW)
WHOLE, SMALL = b"Subject: whole\r\n\r\npage\r\n", b"Subject: small\r\n\r\n"
NO_FIGURES = pl.DataFrame(schema=FIGURES)


@pytest.fixture
def waiting(plant: PlantFolder) -> PlantFolder:
    """The plant with one mail to two recipients in its outbox."""
    with writing(plant) as store:
        outbox.keep(plant.outbox, MAIL, whole=WHOLE, small=SMALL)
        leaving = Leaving("shift", b.TUESDAY, "E", "<one@q>", NOW, (LEAD, SHIFT), None, NO_FIGURES)
        note_leaving(store, leaving)
    return plant


def tried(folder: PlantFolder, now: datetime = NOW, *, hurry: bool = False) -> list[str]:
    """Deliver what is due; the states of the tries."""
    settings = read_settings(folder.toml)
    made = deliver(folder, settings.mail, now=now, hurry=hurry)
    publish_letters(folder)
    return [one.state for one in made.deliveries]


def test_everybody_gets_it_once(waiting: PlantFolder, server: Server) -> None:
    """Both get the very bytes that were kept; nothing waits afterwards, and nothing is sent again."""
    assert tried(waiting) == ["sent", "sent"]
    assert server.taken == [(LEAD, WHOLE), (SHIFT, WHOLE)]
    assert states(waiting, LEAD) == states(waiting, SHIFT) == ["sent"]
    assert list(waiting.outbox.iterdir()) == []
    assert tried(waiting, NOW + timedelta(days=1)) == []


def test_one_of_two_refused(waiting: PlantFolder, server: Server) -> None:
    """A recipient who is not there is told as refused, and keeps nobody from getting it."""
    server.answers["lead"] = "550 5.1.1 no such user"
    assert tried(waiting) == ["refused", "sent"]
    assert (states(waiting, LEAD), states(waiting, SHIFT)) == (["refused"], ["sent"])
    assert tried(waiting, hurry=True) == []


def test_greylisted(waiting: PlantFolder, server: Server) -> None:
    """One who is put off waits, is tried after retry_after and not before, and gets the same bytes."""
    server.answers["lead"] = "451 4.7.1 try again"
    assert tried(waiting) == ["later", "sent"]
    assert tried(waiting, NOW + timedelta(minutes=29)) == []
    server.answers.clear()
    assert tried(waiting, NOW + timedelta(minutes=31)) == ["sent"]
    assert server.mails("lead") == server.mails("shift") == [WHOLE]
    [row] = plants.rows(waiting, "report_sent", recipient=LEAD)
    assert (row["state"], row["tries"]) == ("sent", 2)


def test_put_off_for_days(waiting: PlantFolder, server: Server) -> None:
    """One who is put off for give_up_days is given up, and that is written down."""
    server.answers["lead"] = "451 4.7.1 try again"
    tried(waiting)
    assert tried(waiting, NOW + timedelta(days=5)) == ["failed"]
    assert states(waiting, LEAD) == ["failed"]


def test_a_week_without_relay(waiting: PlantFolder, server: Server) -> None:
    """A relay that is away makes nobody miss a report, however long it is."""
    declare(waiting, mail=server.settings | {"port": 1})
    assert tried(waiting) == ["away", "away"]
    assert tried(waiting, NOW + timedelta(days=7)) == ["away", "away"]
    assert states(waiting, LEAD) == ["waiting"]
    declare(waiting, mail=server.settings)
    assert tried(waiting, NOW + timedelta(days=8)) == ["sent", "sent"]


def test_wrong_password_is_not_tried_again(
    waiting: PlantFolder, server: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fault of the settings rests until somebody mends something: accounts get closed else."""
    monkeypatch.setenv("EOL_MAIL_PASSWORD", "wrong")
    later = datetime.now(NOW.tzinfo) + timedelta(days=1)
    assert tried(waiting, later) == ["settings", "settings"]
    assert tried(waiting, later + timedelta(hours=5)) == []
    monkeypatch.setenv("EOL_MAIL_PASSWORD", "open sesame")
    assert tried(waiting, later + timedelta(hours=6), hurry=True) == ["sent", "sent"]


def test_too_large_goes_without_its_page(waiting: PlantFolder, server: Server) -> None:
    """Where the relay finds the mail too large, it goes out at once without its page."""
    server.answers["DATA"] = "552 5.3.4 too large"
    assert tried(waiting) == ["large", "failed", "large", "failed"]
    assert states(waiting, LEAD) == ["failed"]


def test_small_one_gets_through(
    waiting: PlantFolder, server: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The small mail is the one that arrives then."""
    monkeypatch.setattr(Server, "largest", len(SMALL))
    assert tried(waiting) == ["large", "sent", "large", "sent"]
    assert server.taken == [(LEAD, SMALL), (SHIFT, SMALL)]


def test_mail_that_the_store_does_not_know(waiting: PlantFolder, server: Server) -> None:
    """A mail whose sender died before it was to leave is not sent: its report is made anew."""
    stranger = Kept("two", "<two@q>", "line@q.example", (LEAD,), NOW)
    outbox.keep(waiting.outbox, stranger, whole=b"x", small=b"x")
    assert tried(waiting) == ["sent", "sent"]
    assert outbox.kept(waiting.outbox) == []


def test_one_sender_at_a_time(plant: PlantFolder) -> None:
    """Two processes never send at once."""
    second = mail_lock(plant, wait_seconds=0)
    with mail_lock(plant), pytest.raises(MailError, match="another process"), second:
        pass
