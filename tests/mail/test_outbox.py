"""The outbox: mails and journals that survive a kill at any byte."""

from __future__ import annotations

from pathlib import Path

import pytest
from mail_plants import LEAD, SHIFT, at, outcome

from eol.errors import MailError
from eol.mail.outbox import Kept, Try, content_of, forget, keep, kept, note_try

MAIL = Kept("quillbrook.0", "<quillbrook.0@q>", "line@q", (LEAD, SHIFT), at("15:00"))


@pytest.fixture
def outbox(tmp_path: Path) -> Path:
    """An outbox with one mail."""
    keep(tmp_path / "outbox", MAIL, whole=b"whole", small=b"small")
    return tmp_path / "outbox"


def test_comes_back_as_it_was_kept(outbox: Path) -> None:
    """A mail is read from disk as it was written; everybody waits for it."""
    assert kept(outbox) == [MAIL]
    assert MAIL.waiting == (LEAD, SHIFT)
    assert content_of(outbox, MAIL) == b"whole"


def test_journal_tells_who_has_it(outbox: Path) -> None:
    """Sent, refused and failed are ends; all else waits."""
    note_try(outbox, MAIL, Try(at("15:01"), LEAD, outcome("later", "451 busy")))
    note_try(outbox, MAIL, Try(at("15:31"), LEAD, outcome("sent")))
    note_try(outbox, MAIL, Try(at("15:31"), SHIFT, outcome("away")))
    [mail] = kept(outbox)
    assert [one.outcome.state for one in mail.tries_of(LEAD)] == ["later", "sent"]
    assert (mail.state_of(LEAD), mail.state_of(SHIFT)) == ("sent", "waiting")
    assert mail.waiting == (SHIFT,)


def test_too_large_goes_without_its_page(outbox: Path) -> None:
    """Once the relay has called it too large, the small one goes out."""
    note_try(outbox, MAIL, Try(at("15:01"), LEAD, outcome("large", "552")))
    [mail] = kept(outbox)
    assert content_of(outbox, mail) == b"small"


@pytest.mark.parametrize(
    "left", [b'\n{"at": "20', b"\n\xc3", b'\n{"at": "2026-09-08T13:01:00+00:00"']
)
def test_half_a_line_is_passed_over(outbox: Path, left: bytes) -> None:
    """A sender killed while it wrote leaves half a line; what comes after it is read."""
    with (outbox / "quillbrook.0.journal").open("ab") as file:
        file.write(left)
    note_try(outbox, MAIL, Try(at("15:01"), LEAD, outcome("sent")))
    [mail] = kept(outbox)
    assert mail.waiting == (SHIFT,)


def test_forgotten(outbox: Path) -> None:
    """A mail that everybody has leaves nothing behind; forgetting it twice is no fault."""
    forget(outbox, MAIL)
    forget(outbox, MAIL)
    assert kept(outbox) == []
    assert list(outbox.iterdir()) == []


def test_no_outbox_is_empty(tmp_path: Path) -> None:
    """A plant that never mailed has nothing waiting."""
    assert kept(tmp_path / "outbox") == []


def test_place_that_cannot_be_written(tmp_path: Path) -> None:
    """Where the outbox cannot be, the words say that no mail is lost."""
    (tmp_path / "outbox").write_text("a file", encoding="utf-8")
    with pytest.raises(MailError, match="none is lost"):
        keep(tmp_path / "outbox", MAIL, whole=b"", small=b"")
