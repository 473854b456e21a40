"""All that is due, once and in order; each step for itself; after an outage it catches up."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import builders as b
import plants
import pytest
from mail_plants import LEAD, SHIFT, at, declare, states
from mail_server import Server, read

from eol.plant.folder import PlantFolder
from eol.schedule.run import Done, RunResult, last_backup, run_due
from eol.store.backup import backup

pytestmark = pytest.mark.mail

NOW = at("14:35")


def ran(folder: PlantFolder, minutes: float = 0) -> RunResult:
    """Do what is due so many minutes after 14:35; the copy is published, as after an ingest."""
    return run_due(folder, now=NOW + timedelta(minutes=minutes))


def steps(result: RunResult) -> list[str]:
    """What was done, as `step level`."""
    return [f"{one.step} {one.level}" for one in result.done]


def late_file(folder: PlantFolder, clock: str) -> None:
    """Two failed runs of the early shift, loaded at a local time after it."""
    rows = b.run("U4", "09:00", "fail", "LEAK/RRQ") + b.run("U5", "09:10", "fail", "LEAK/RRQ")
    plants.load(folder, b.file("water", rows, name="water_late"), now=at(clock))


@pytest.mark.usefixtures("undrawn")
class TestUndrawn:
    """What is due, with pages and mails that are not drawn."""

    def test_report_then_mail_then_nothing(self, plant: PlantFolder, server: Server) -> None:
        """The report of the shift that ended is made and mailed; a minute later nothing is due."""
        assert steps(ran(plant)) == ["report done", "mail done", "mail done"]
        assert (plant.reports / "2026-09-08_E.html").exists()
        assert ran(plant, 1).done == ()
        assert len(server.mails("lead")) == 1

    def test_before_the_grace_is_over(self, plant: PlantFolder) -> None:
        """Nothing is due before the shift has ended and its grace is over; the night before is history."""
        assert next(one.text for one in ran(plant, -10).done).startswith("2026-09-07/N")

    def test_inbox_is_taken_first(self, plant: PlantFolder, server: Server) -> None:
        """A file in the inbox is loaded before the report is made, so that the report knows it."""
        [path] = plants.write(plant, b.file("water", b.run("U4", "09:00", "fail", "LEAK/RRQ")))
        path.rename(plant.inbox / "water_late.csv")
        assert steps(ran(plant))[:2] == ["ingest done", "report done"]
        assert steps(ran(plant, 120)) == []

    def test_second_mail_after_a_while(self, plant: PlantFolder, server: Server) -> None:
        """A late file moved a mailed figure: one second mail, an hour after the first, telling what."""
        ran(plant)
        late_file(plant, "14:50")
        assert ran(plant, 30).done == ()
        result = ran(plant, 61)
        assert "again: water FTT was 33.3%, now 20.0%, 2 late runs" in result.done[0].text
        assert ran(plant, 200).done == ()
        assert [len(server.mails(name)) for name in ("lead", "shift")] == [2, 2]

    def test_no_second_mail_while_the_first_waits(self, plant: PlantFolder, server: Server) -> None:
        """Without the relay a second mail waits for the first: nobody gets them in the wrong order."""
        declare(plant, mail=server.settings | {"port": 1})
        ran(plant)
        late_file(plant, "14:50")
        declare(plant, mail=server.settings | {"port": 1})
        assert steps(ran(plant, 90)) == ["mail look", "mail look"]
        declare(plant, mail=server.settings)
        ran(plant, 121)
        ran(plant, 122)
        ids = [read(one)["Message-ID"].split(".")[3] for one in server.mails("lead")]
        assert ids == ["0", "1"]

    def test_a_day_without_relay(self, plant: PlantFolder, server: Server) -> None:
        """Reports of a day wait and go out in order, each once, when the relay is back."""
        declare(plant, mail=server.settings | {"port": 1})
        for hours in range(0, 25, 8):
            ran(plant, 60 * hours)
        declare(plant, mail=server.settings)
        ran(plant, 60 * 25)
        told = [subject.split(": ")[0][-5:] for subject in server.subjects("lead")]
        assert told == ["Sep E", "Sep L", "Sep N", "Sep E"]
        assert states(plant, LEAD) == states(plant, SHIFT) == ["sent"] * 4

    def test_outage_is_caught_up_and_told(self, plant: PlantFolder, server: Server) -> None:
        """After a day without the tool each shift's report is made, and those that are late say so."""
        ran(plant)
        result = ran(plant, 60 * 24)
        assert [one.text for one in result.done if one.step == "report"] == [
            "2026-09-08/L: 2026-09-08_L.html, late by 16 h",
            "2026-09-08/N: 2026-09-08_N.html, late by 8 h",
            "2026-09-09/E: 2026-09-09_E.html",
        ]
        assert ["late report" in one for one in server.subjects("lead")] == [
            False,
            True,
            True,
            False,
        ]

    def test_fault_in_one_report_keeps_no_other(
        self, plant: PlantFolder, server: Server, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """A fault of the tool in one step is told; mails of others leave, and it is tried again."""
        declare(plant, mail=server.settings | {"port": 1})
        ran(plant)
        declare(plant, mail=server.settings)

        def fail(*arguments: object, **more: object) -> None:
            raise ZeroDivisionError("by accident")

        with monkeypatch.context() as patch:
            patch.setattr("eol.mail.leave.leave", fail)
            result = ran(plant, 60 * 8)
        assert steps(result) == ["report failed", "mail done", "mail done"]
        assert result.exit_code == 3
        assert steps(ran(plant, 60 * 8 + 1))[0] == "report done"

    def test_settings_at_fault(
        self, plant: PlantFolder, monkeypatch: pytest.MonkeyPatch, server: Server
    ) -> None:
        """A wrong password is a failure with the words that mend it; the report waits."""
        monkeypatch.setenv("EOL_MAIL_PASSWORD", "wrong")
        result = ran(plant)
        assert steps(result) == ["report done", "mail failed", "mail failed"]
        assert "EOL_MAIL_PASSWORD" in result.done[1].text
        assert result.exit_code == 3

    def test_alarms(self, plant: PlantFolder, server: Server) -> None:
        """An alarm is told once, after the mails; it asks for a look."""
        alarm = {"on": True, "count": 2, "within_units": 50}
        declare(plant, mail=server.settings, alarm=alarm)
        ran(plant)
        late_file(plant, "14:40")
        declare(plant, mail=server.settings, alarm=alarm)
        result = ran(plant, 6)
        assert steps(result) == ["alarm look", "alarm done", "alarm done"]
        assert result.exit_code == 1
        assert ran(plant, 7).done == ()

    def test_backup(self, plant: PlantFolder, server: Server, tmp_path: Path) -> None:
        """A declared backup is made when the last one is a day old; one broken off does not count."""
        declare(plant, mail=server.settings, schedule={"backup": str(tmp_path / "copies")})
        assert steps(ran(plant))[-1] == "backup done"
        (tmp_path / "copies" / f"{plant.root.name}-20260908T200000Z").mkdir()
        assert ran(plant, 60).done == ()
        assert steps(ran(plant, 60 * 24 + 1))[-1] == "backup done"


def test_last_backup(plant: PlantFolder, tmp_path: Path) -> None:
    """The newest whole copy tells when."""
    assert last_backup(plant, tmp_path / "none") is None
    backup(plant, tmp_path / "copies", now=NOW)
    assert last_backup(plant, tmp_path / "copies") == NOW.replace(second=0)


def test_exit_codes() -> None:
    """The gravest error decides; something to look at is 1; nothing is 0."""
    done = [Done(NOW, "mail", level, "", code) for level, code in (("look", 0), ("failed", 3))]
    assert [RunResult(tuple(done[:n])).exit_code for n in (0, 1, 2)] == [0, 1, 3]


def test_whole_report_by_mail(plant: PlantFolder, server: Server) -> None:
    """Nothing made up: the page is drawn, mailed with its pictures, and received as it was kept."""
    ran(plant)
    message = read(server.mails("lead")[0])
    assert message["Subject"] == "[quiet] Final line Tue 8 Sep E: line FTT 33.3%"
    assert server.mails("lead") == server.mails("shift")
    page = next(message.iter_attachments())
    assert page.get_filename() == "2026-09-08_E.html"
    images = [part for part in message.walk() if part.get_content_type() == "image/png"]
    assert len(images) >= 2
