"""The outbox: each mail whole on disk before its first try, with a journal of what became of it.

A mail is tried again with the very bytes that were tried before, whenever its sender was killed, so
nobody gets two that differ. The journal is flushed after each recipient, the store follows it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from eol.errors import MailError
from eol.mail.relay import Outcome

FINAL = {"sent": "sent", "refused": "refused", "failed": "failed"}
"""Outcomes after which a recipient is not tried again, and the state that the store gives them."""


@dataclass(frozen=True, slots=True)
class Try:
    """One try for one recipient."""

    at: datetime
    recipient: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Kept:
    """A mail in the outbox; `tries` are in the order in which they were made."""

    stem: str
    message_id: str
    sender: str
    recipients: tuple[str, ...]
    made_at: datetime
    tries: tuple[Try, ...] = ()

    def tries_of(self, recipient: str) -> list[Try]:
        """Return the tries for one recipient."""
        return [one for one in self.tries if one.recipient == recipient]

    def state_of(self, recipient: str) -> str:
        """Return `sent`, `refused`, `failed`, or `waiting` while it is still to be tried."""
        ends = (FINAL.get(one.outcome.state) for one in self.tries_of(recipient))
        return next((end for end in ends if end), "waiting")

    @property
    def waiting(self) -> tuple[str, ...]:
        """The recipients still to be tried."""
        return tuple(one for one in self.recipients if self.state_of(one) == "waiting")

    @property
    def is_large(self) -> bool:
        """True once the relay has said that the mail with its page is too large."""
        return any(one.outcome.state == "large" for one in self.tries)


def keep(outbox: Path, mail: Kept, *, whole: bytes, small: bytes) -> None:
    """Write a mail down, on disk for certain when this returns.

    Args:
        outbox: the folder; made where it is not there.
        mail: what it is and to whom it goes; one of that stem is replaced.
        whole: its bytes.
        small: its bytes without the page, for a relay that finds the whole too large.

    Raises:
        MailError: the folder cannot be written to.
    """
    head = {
        "message_id": mail.message_id,
        "sender": mail.sender,
        "recipients": mail.recipients,
        "made_at": mail.made_at.isoformat(),
    }
    contents = ((_WHOLE, whole), (_SMALL, small), (_JOURNAL, _line(head)))
    try:
        outbox.mkdir(exist_ok=True)
        for ending, content in contents:
            _write_for_certain(outbox / (mail.stem + ending), content)
    except OSError as error:
        raise _unwritable(outbox, error) from error


def kept(outbox: Path) -> list[Kept]:
    """Return the mails in the outbox, the oldest first.

    Raises:
        MailError: the folder cannot be read.
    """
    try:
        journals = sorted(outbox.glob("*" + _JOURNAL))
        read = [_read(path) for path in journals]
    except OSError as error:
        raise _unwritable(outbox, error) from error
    return sorted((mail for mail in read if mail), key=lambda mail: (mail.made_at, mail.stem))


def content_of(outbox: Path, mail: Kept) -> bytes:
    """Return the bytes that go out for a mail.

    Raises:
        MailError: they are gone.
    """
    path = outbox / (mail.stem + (_SMALL if mail.is_large else _WHOLE))
    try:
        return path.read_bytes()
    except OSError as error:
        raise _unwritable(path, error) from error


def note_try(outbox: Path, mail: Kept, one: Try) -> None:
    """Add a try to a mail's journal, on disk for certain when this returns.

    Raises:
        MailError: the journal cannot be written.
    """
    row = {
        "at": one.at.isoformat(),
        "recipient": one.recipient,
        "state": one.outcome.state,
        "words": one.outcome.words,
    }
    try:
        with (outbox / (mail.stem + _JOURNAL)).open("ab") as file:
            # A killed sender may have left half a line; it ends here, and is passed over when read.
            file.write(b"\n" + _line(row))
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        raise _unwritable(outbox, error) from error


def forget(outbox: Path, mail: Kept) -> None:
    """Take a mail out of the outbox; its journal goes first, so that half of it is nothing."""
    with suppress(FileNotFoundError):
        for ending in (_JOURNAL, _WHOLE, _SMALL):
            (outbox / (mail.stem + ending)).unlink(missing_ok=True)


_WHOLE, _SMALL, _JOURNAL = ".eml", ".small", ".journal"


def _read(path: Path) -> Kept | None:
    head, *rows = list(_rows(path)) or [{}]
    if "message_id" not in head:
        return None
    return Kept(
        stem=path.name.removesuffix(_JOURNAL),
        message_id=head["message_id"],
        sender=head["sender"],
        recipients=tuple(head["recipients"]),
        made_at=datetime.fromisoformat(head["made_at"]),
        tries=tuple(_try(row) for row in rows),
    )


def _try(row: Mapping[str, Any]) -> Try:
    at = datetime.fromisoformat(row["at"])
    return Try(at, row["recipient"], Outcome(row["state"], row["words"]))


def _rows(path: Path) -> Iterator[dict[str, Any]]:
    for line in path.read_bytes().splitlines():
        with suppress(ValueError):
            yield json.loads(line)


def _line(row: Mapping[str, str | Sequence[str]]) -> bytes:
    return json.dumps(row, ensure_ascii=False).encode() + b"\n"


def _write_for_certain(path: Path, content: bytes) -> None:
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    with beside.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    beside.replace(path)


def _unwritable(place: Path, error: OSError) -> MailError:
    return MailError(
        f"the outbox cannot be used: {error.strerror}",
        where=str(place),
        hint="Make room or mend the folder's rights; mails not yet sent wait, none is lost.",
    )
