"""Reports that came late are told by the next page, and by no other."""

from __future__ import annotations

from datetime import date, datetime

import builders as b
import pytest

from eol.facts.late import LateReport, late_reports
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy, open_store, write_lock
from eol.store.database import Database
from eol.store.publish import publish

NEXT = b.TUESDAY.replace(day=9)
SENT = (
    # the early shift ends at 12:00Z, the late one at 20:00Z, the night at 04:00Z of the next day
    (b.TUESDAY, "E", "a@q", "sent", "2026-09-08 12:31:00+00"),
    (b.TUESDAY, "L", "a@q", "sent", "2026-09-09 04:40:00+00"),
    (b.TUESDAY, "L", "b@q", "refused", None),
    (b.TUESDAY, "N", "a@q", "sent", "2026-09-09 04:41:00+00"),
    (b.TUESDAY, "N", "b@q", "waiting", None),
)


@pytest.fixture(scope="module")
def late_plant(small_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant whose late shift was reported at the end of the night."""
    import shutil

    root = tmp_path_factory.mktemp("late") / "plant"
    shutil.copytree(small_plant.root, root)
    folder = PlantFolder(root)
    with write_lock(folder):
        with open_store(folder) as store:
            _note(store)
        publish(folder)
    return folder


def _note(store: Database) -> None:
    for day, shift, recipient, state, sent_at in SENT:
        store.connection.execute(
            "INSERT INTO report_sent VALUES ('shift', ?, ?, ?, '<id>', ?, 1, ?)",
            [day, shift, recipient, state, sent_at and datetime.fromisoformat(sent_at)],
        )


def told(folder: PlantFolder, day: date, shift: str | None) -> list[LateReport]:
    """The late reports that the page of a shift tells of."""
    with open_copy(folder) as copy:
        return list(late_reports(copy, production_date=day, shift=shift))


def test_next_page_tells(late_plant: PlantFolder) -> None:
    """The night's page tells of the late shift: how late, and that one was refused."""
    [report] = told(late_plant, b.TUESDAY, "N")
    assert (report.shift, report.waiting, report.refused) == ("L", 0, 1)
    assert report.hours == pytest.approx(8 + 10 / 60)


def test_who_still_waits(late_plant: PlantFolder) -> None:
    """One who has not got the night's report is told while that lasts; who got it in time is not."""
    night = told(late_plant, NEXT, "E")[-1]
    assert (night.shift, night.hours, night.waiting) == ("N", None, 1)


def test_not_told_for_ever(late_plant: PlantFolder) -> None:
    """A report that was late before the present shift began was told before; of itself no page tells."""
    assert [one.hours for one in told(late_plant, NEXT, "L")] == [None, None]
    assert told(late_plant, b.TUESDAY, "E") == []
    assert told(late_plant, b.TUESDAY, None) == []
