"""`send_report`: once, again only where a figure moved; a dry run sends nothing."""

from __future__ import annotations

import builders as b
import plants
import pytest
from mail_plants import LEAD, at, declare, states
from mail_server import Server, read

from eol.errors import PlantFileError, UsageError
from eol.mail.send import send_report
from eol.plant.folder import PlantFolder

pytestmark = pytest.mark.mail

SHIFT = "2026-09-08/E"


def test_sent_once(plant: PlantFolder, server: Server, undrawn: None) -> None:
    """The report goes to both, and a second call sends nothing."""
    first = send_report(plant, shift=SHIFT, now=at("14:35"))
    assert [one.state for one in first.deliveries] == ["sent", "sent"]
    again = send_report(plant, shift=SHIFT, now=at("14:40"))
    assert (again.message_id, again.deliveries) == (None, ())
    assert [len(server.mails(name)) for name in ("lead", "shift")] == [1, 1]


def test_again_where_a_figure_moved(plant: PlantFolder, server: Server, undrawn: None) -> None:
    """A late file moved the water test: a second mail tells from what to what."""
    send_report(plant, shift=SHIFT, now=at("14:35"))
    late = b.run("U4", "09:00", "fail", "LEAK/RRQ")
    plants.load(plant, b.file("water", late, name="water_late"), now=at("14:50"))
    send_report(plant, shift=SHIFT, now=at("15:00"))
    assert [read(one)["Message-ID"].count(".1.") for one in server.mails("lead")] == [0, 1]
    assert server.subjects("lead")[1].endswith("water FTT was 33.3%, now 25.0%, 1 late run")


def test_one_refused_is_told(plant: PlantFolder, server: Server, undrawn: None) -> None:
    """A recipient who is refused asks for a look; the other one has the report."""
    server.answers["lead"] = "550 no such user"
    result = send_report(plant, shift=SHIFT, now=at("14:35"))
    assert result.needs_a_look
    assert states(plant, LEAD) == ["refused"]
    assert len(server.mails("shift")) == 1


def test_dry_run_sends_nothing(plant: PlantFolder, server: Server, undrawn: None) -> None:
    """The mail is written beside the page; store and outbox know nothing of it."""
    result = send_report(plant, shift=SHIFT, dry_run=True, now=at("14:35"))
    assert result.mail == plant.reports / "2026-09-08_E.eml"
    assert (
        read(result.mail.read_bytes())["To"] == "lead@quillbrook.example, shift@quillbrook.example"
    )
    assert (server.taken, plant.outbox.exists()) == ([], False)
    plants.load(plant)
    assert plants.count(plant, "report_sent") == 0


def test_no_mail_declared(plant: PlantFolder, undrawn: None) -> None:
    """Without [mail] nothing can be sent; the words name what is missing and the dry run."""
    declare(plant)
    with pytest.raises(PlantFileError, match="--dry-run"):
        send_report(plant, shift=SHIFT)
    assert send_report(plant, shift=SHIFT, dry_run=True).mail is not None


def test_no_such_shift(plant: PlantFolder) -> None:
    """A shift that is none."""
    with pytest.raises(UsageError, match="noon"):
        send_report(plant, shift="2026-09-08/noon")
