"""What the store keeps of mails: rows before the first try, the journals' states after."""

from __future__ import annotations

import builders as b
import plants
import polars as pl
import pytest
from mail_plants import LEAD, SHIFT, at, outcome, states

from eol.mail.outbox import Kept, Try
from eol.mail.record import (
    FIGURES,
    Leaving,
    known_letters,
    note_leaving,
    note_tries,
    publish_letters,
    writing,
)
from eol.plant.folder import PlantFolder

FIGURE = pl.DataFrame(
    {
        "figure": ["ftt_by_shift.ftt"],
        "key": ["{}"],
        "n": [3],
        "value": [0.5],
        "low": [0.1],
        "high": [0.9],
    }
)
LEAVING = Leaving(
    "shift", b.TUESDAY, "E", "<one@q>", at("14:35"), (LEAD, SHIFT), "2026-09-08_E.html", FIGURE
)

pytestmark = pytest.mark.mail


def test_written_down_before_the_first_try(folder: PlantFolder) -> None:
    """A row a recipient waits; the page is there at once; the figures are those of the report."""
    with writing(folder) as store:
        note_leaving(store, LEAVING)
        assert known_letters(store, ["<one@q>", "<two@q>"]) == {"<one@q>"}
    publish_letters(folder)
    assert states(folder, LEAD) == states(folder, SHIFT) == ["waiting"]
    assert states(folder, "2026-09-08_E.html") == ["sent"]
    [row] = plants.rows(folder, "figure_sent")
    assert list(row) == list(FIGURES)
    assert (row["message_id"], row["value"]) == ("<one@q>", 0.5)


def test_journal_twice_is_once(folder: PlantFolder) -> None:
    """A killed sender's journal is written down by the next one; doing it again changes nothing."""
    tries = (Try(at("14:36"), LEAD, outcome("later")), Try(at("15:06"), LEAD, outcome("sent")))
    mail = Kept("one", "<one@q>", "line@q", (LEAD, SHIFT), at("14:35"), tries)
    with writing(folder) as store:
        note_leaving(store, LEAVING)
        note_tries(store, [mail])
        note_tries(store, [mail])
    publish_letters(folder)
    [row] = plants.rows(folder, "report_sent", recipient=LEAD)
    assert (row["state"], row["tries"], row["sent_at"]) == ("sent", 2, at("15:06"))
    assert states(folder, SHIFT) == ["waiting"]


def test_a_load_under_way_is_not_published(folder: PlantFolder) -> None:
    """Rows whose stamps are due are no figures yet: the load that stamps them publishes."""
    before = folder.read_copy.stat().st_mtime_ns
    with writing(folder) as store:
        store.connection.execute("INSERT INTO touched_unit (vin) VALUES ('U1')")
    publish_letters(folder)
    assert folder.read_copy.stat().st_mtime_ns == before
