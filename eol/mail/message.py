"""Words, pictures and an attachment in, the bytes of one mail out: ASCII, with lines no longer than 78."""

from __future__ import annotations

import hashlib
import io
import unicodedata
import zipfile
from dataclasses import dataclass
from datetime import datetime
from email.header import Header
from email.message import EmailMessage, MIMEPart
from email.policy import EmailPolicy
from email.utils import format_datetime
from typing import Any

MOST_BYTES = 300_000
"""A message larger than this takes its page along packed, then not at all."""

_LONGEST_LINE = 76
_LONGEST_SUBJECT = _LONGEST_LINE - len("Subject: ")
_QUOTED = "quoted-printable"
_ZIP_TIME = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture within the HTML: its name there (`cid:NAME`) and its PNG."""

    name: str
    png: bytes


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that goes along: HTML text, packed into a zip where it is too large otherwise."""

    name: str
    html: bytes


@dataclass(frozen=True, slots=True)
class Letter:
    """What a mail is made of; `made_at` is its Date, aware of its zone."""

    message_id: str
    sender: str
    recipients: tuple[str, ...]
    subject: str
    made_at: datetime
    text: str
    html: str
    pictures: tuple[Picture, ...] = ()
    attachment: Attachment | None = None


class _Folding(EmailPolicy):
    """Folds a subject by RFC 2047 so that readers put it together again as it was.

    Python's own folding writes encoded words longer than 75 characters and drops a blank between two.
    """

    def header_store_parse(self, name: str, value: Any) -> tuple[str, Any]:
        """Keep a subject as it is: what looks like an encoded word in it is text of a file."""
        return (name, value) if name == "Subject" else super().header_store_parse(name, value)

    def fold(self, name: str, value: Any) -> str:
        """Fold one header to text."""
        text = str(value)
        if name != "Subject":
            return str(super().fold(name, value))
        if text.isascii() and "=?" not in text and len(text) <= _LONGEST_SUBJECT:
            return f"{name}: {text}{self.linesep}"
        words = Header(text, "utf-8", header_name=name, maxlinelen=_LONGEST_LINE)
        return f"{name}: {words.encode(linesep=self.linesep)}{self.linesep}"

    def fold_binary(self, name: str, value: Any) -> bytes:
        """Fold one header to bytes."""
        return self.fold(name, value).encode("ascii")


_POLICY = _Folding(linesep="\r\n", max_line_length=78)


def letter_bytes(letter: Letter) -> bytes:
    """Return a mail as it goes over the wire; the same letter gives the same bytes.

    Args:
        letter: its parts. A page that would make the message too large is packed, then left out.

    Returns:
        `multipart/mixed` of `multipart/alternative` (text, then HTML with its pictures) and the page.
    """
    content = _built(letter, letter.attachment)
    if letter.attachment and len(content) > MOST_BYTES:
        content = _built(letter, _packed(letter.attachment))
    return content if len(content) <= MOST_BYTES else _built(letter, None)


def one_line(text: str) -> str:
    """Return a text fit for a header: one line, without signs that steer how it is shown.

    Example:
        >>> one_line(" Wasserprüfung:  91 % ")
        'Wasserprüfung: 91 %'
    """
    kept = (" " if unicodedata.category(sign).startswith("C") else sign for sign in text)
    return " ".join("".join(kept).split())


def _built(letter: Letter, attachment: Attachment | None) -> bytes:
    message = EmailMessage(policy=_POLICY)
    message["Subject"] = one_line(letter.subject)
    message["From"] = letter.sender
    message["To"] = ", ".join(letter.recipients)
    message["Date"] = format_datetime(letter.made_at)
    message["Message-ID"] = letter.message_id
    message["Auto-Submitted"] = "auto-generated"
    message.set_content(letter.text, cte=_QUOTED)
    message.add_alternative(letter.html, subtype="html", cte=_QUOTED)
    if letter.pictures:
        _add_pictures(message, letter.pictures)
    if attachment:
        _attach(message, attachment)
    _number_boundaries(message, letter.message_id)
    return message.as_bytes()


def _add_pictures(message: EmailMessage, pictures: tuple[Picture, ...]) -> None:
    html = list(message.iter_parts())[1]
    assert isinstance(html, MIMEPart)
    for picture in pictures:
        html.add_related(
            picture.png,
            maintype="image",
            subtype="png",
            cid=f"<{picture.name}>",
            disposition="inline",
            filename=f"{picture.name}.png",
        )


def _attach(message: EmailMessage, attachment: Attachment) -> None:
    kind = ("application", "zip") if attachment.name.endswith(".zip") else ("text", "html")
    message.add_attachment(
        attachment.html, maintype=kind[0], subtype=kind[1], filename=attachment.name
    )


def _packed(attachment: Attachment) -> Attachment:
    """The file in a zip; its time is none, so that the same page gives the same bytes."""
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as pack:
        entry = zipfile.ZipInfo(attachment.name, date_time=_ZIP_TIME)
        entry.compress_type = zipfile.ZIP_DEFLATED
        pack.writestr(entry, attachment.html)
    return Attachment(attachment.name + ".zip", whole.getvalue())


def _number_boundaries(message: EmailMessage, message_id: str) -> None:
    """Boundaries come from chance: make them from the message's id instead."""
    stem = hashlib.sha256(message_id.encode()).hexdigest()[:24]
    parts = [part for part in message.walk() if part.is_multipart()]
    for number, part in enumerate(parts):
        part.set_boundary(f"=_{stem}_{number}")
