"""A real mail server on loopback: STARTTLS, a password, refusals as a test asks for them."""

from __future__ import annotations

import socket
import ssl
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path
from typing import Any, ClassVar

import trustme
from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

USER, PASSWORD = "line", "open sesame"


@dataclass
class Server:
    """A running server: what it took, and what it answers.

    `answers` gives a reply for a recipient's RCPT or, by the word DATA, for a message.
    """

    ca_file: Path
    answers: dict[str, str] = field(default_factory=dict)
    taken: list[tuple[str, bytes]] = field(default_factory=list)
    port: int = 0
    largest: ClassVar[int] = 10_000_000

    @property
    def settings(self) -> dict[str, Any]:
        """The section [mail] that leads here."""
        return {
            "host": "localhost",
            "port": self.port,
            "ca_file": str(self.ca_file),
            "sender": "line@quillbrook.example",
            "to": ["lead@quillbrook.example", "shift@quillbrook.example"],
        }

    def mails(self, recipient: str) -> list[bytes]:
        """What one recipient got, in order; the recipient by what stands before the @."""
        return [content for to, content in self.taken if to.partition("@")[0] == recipient]

    def subjects(self, recipient: str) -> list[str]:
        """The subjects of what one recipient got."""
        return [read(content)["Subject"] for content in self.mails(recipient)]

    async def handle_RCPT(  # noqa: D102 (the server's own names)
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        answer = self.answers.get(address.partition("@")[0])
        if answer is None:
            envelope.rcpt_tos.append(address)
        return answer or "250 OK"

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:  # noqa: D102
        if "DATA" in self.answers:
            return self.answers["DATA"]
        content = bytes(envelope.original_content or b"")
        if len(content) > self.largest:
            return "552 5.3.4 too large"
        self.taken += [(address, content) for address in envelope.rcpt_tos]
        return "250 OK"


def read(content: bytes) -> EmailMessage:
    """Read a mail as a reader of mails does."""
    message = message_from_bytes(content, policy=policy.default)
    assert isinstance(message, EmailMessage)
    return message


@contextmanager
def mail_server(
    folder: Path, *, tls: bool = True, login: bool = True, trusted: bool = True, **more: Any
) -> Iterator[Server]:
    """Run a server for as long as the block lasts.

    Args:
        folder: where the authority's certificate is written.
        tls: it offers and demands STARTTLS.
        login: it demands a password.
        trusted: the certificate at `ca_file` is that of its own authority.
        more: options of the server, such as data_size_limit.
    """
    authority = trustme.CA()
    server = Server(folder / "relay.pem")
    other = authority if trusted else trustme.CA()
    other.cert_pem.write_to_path(str(server.ca_file))
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    authority.issue_cert("localhost", "127.0.0.1").configure_cert(context)
    options: dict[str, Any] = dict(more)
    if tls:
        options |= {"tls_context": context, "require_starttls": True}
    if login:
        options |= {"authenticator": _authenticate, "auth_required": True, "auth_require_tls": tls}
    controller = Controller(server, hostname="127.0.0.1", port=_free_port(), **options)
    controller.start()
    server.port = controller.port
    try:
        yield server
    finally:
        controller.stop()


def _authenticate(
    server: SMTP, session: Session, envelope: Envelope, mechanism: str, data: object
) -> AuthResult:
    right = isinstance(data, LoginPassword) and data.login == USER.encode()
    return AuthResult(success=right and _password(data) == PASSWORD.encode(), handled=False)


def _password(data: object) -> bytes:
    assert isinstance(data, LoginPassword)
    return data.password


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port
