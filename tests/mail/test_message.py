"""Mails as bytes: headers that come back as they were, the same bytes for the same letter."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mail_server import read

from eol.mail.message import MOST_BYTES, Attachment, Letter, Picture, letter_bytes, one_line

LETTER = Letter(
    message_id="<quillbrook.2026-09-18.day.0.4b5d5a3d95@quillbrook.example>",
    sender="line@quillbrook.example",
    recipients=("lead@quillbrook.example", "shift@quillbrook.example"),
    subject="[quiet] Final line",
    made_at=datetime(2026, 9, 18, 13, 0, tzinfo=UTC),
    text="Früh ▲ 1\n",
    html='<img src="cid:ftt" alt="91 %"><p>Früh</p>',
    pictures=(Picture("ftt", b"\x89PNG"),),
    attachment=Attachment("2026-09-18_day.html", b"<p>page</p>"),
)

SUBJECTS = (
    "Schicht Früh 2026-10-24 – Wasserprüfung: FTT 91,3 %, 14 offene Fahrzeuge und drei"
    " ausgebliebene Prüfungen in der Endlinie",
    "漏水 links offene % 漏水 2026-10-24 漏水 – –",
    "what looks like =?utf-8?q?an=20encoded?= word",
    "a" * 200,
)


def subject_lines(content: bytes) -> list[bytes]:
    """The lines of the subject, as they go over the wire."""
    head = content.split(b"\r\n\r\n")[0].split(b"\r\n")
    start = next(at for at, line in enumerate(head) if line.startswith(b"Subject:"))
    return [head[start], *(line for line in head[start + 1 : start + 9] if line[:1] == b" ")]


@pytest.mark.parametrize("subject", SUBJECTS)
def test_subject_comes_back(subject: str) -> None:
    """Encoded words are at most 75 characters and their lines 76 (RFC 2047, section 2), nothing lost."""
    content = letter_bytes(replace(LETTER, subject=subject))
    assert read(content)["Subject"] == subject
    lines = subject_lines(content)
    assert max(len(line) for line in lines) <= 76
    assert max(len(word) for line in lines for word in line.split() if b"=?" in word) <= 75


@settings(max_examples=40)
@given(st.text(st.characters(codec="utf-8"), max_size=120).map(one_line))
def test_any_subject_comes_back(subject: str) -> None:
    """Whatever stands in a plant's words, a reader of mails sees it again."""
    assert (read(letter_bytes(replace(LETTER, subject=subject)))["Subject"] or "") == subject


def test_one_line_steers_nothing() -> None:
    """A name from a file breaks no header and turns no direction of reading."""
    assert one_line("night\r\nBcc: a@b\t\u202enoitator\u200b x") == "night Bcc: a@b noitator x"


def test_headers_once_each() -> None:
    """Date, From, To, Message-ID and Subject come once; the mail says that a machine wrote it."""
    message = read(letter_bytes(LETTER))
    for name in ("Date", "From", "To", "Message-ID", "Subject"):
        assert len(message.get_all(name) or []) == 1
    assert message["Auto-Submitted"] == "auto-generated"
    assert message["Message-ID"] == LETTER.message_id


def test_structure() -> None:
    """Text, then HTML with its pictures, then the page; ASCII lines no longer than 78."""
    content = letter_bytes(LETTER)
    message = read(content)
    kinds = [part.get_content_type() for part in message.walk()]
    assert kinds == [
        "multipart/mixed",
        "multipart/alternative",
        "text/plain",
        "multipart/related",
        "text/html",
        "image/png",
        "text/html",
    ]
    assert max(len(line) for line in content.split(b"\r\n")) <= 78
    assert [part.defects for part in message.walk() if part.defects] == []
    plain = message.get_body(("plain",))
    assert plain is not None
    assert plain.get_content().splitlines() == ["Früh ▲ 1"]


def test_same_letter_same_bytes() -> None:
    """Nothing in a mail comes from chance or from the clock of its making."""
    assert letter_bytes(LETTER) == letter_bytes(replace(LETTER))


def test_large_page_is_packed_then_left_out() -> None:
    """A message stays under 300 kB: its page is packed, and left out where that does not help."""
    page = Attachment("page.html", b"<p>" * 100_000)
    packed = read(letter_bytes(replace(LETTER, attachment=page)))
    assert [part.get_filename() for part in packed.iter_attachments()] == ["page.html.zip"]
    noise = Attachment("page.html", Random(1).randbytes(MOST_BYTES))
    assert list(read(letter_bytes(replace(LETTER, attachment=noise))).iter_attachments()) == []
