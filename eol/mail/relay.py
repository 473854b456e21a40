"""Hands mails to the plant's relay: STARTTLS, a password where there is one, never clear text by itself.

Every failure becomes an `Outcome` that says whether to try again, and what to mend.
"""

from __future__ import annotations

import ipaddress
import smtplib
import socket
import ssl
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from eol.errors import MailError
from eol.plant.folder import PlantFolder
from eol.plant.sections import MailSettings

State = Literal["sent", "later", "away", "refused", "failed", "large", "settings"]

_TLS_FROM_THE_START = 465
_TOO_LARGE = 552
_AUTH_WANTED = 530
_SECONDS = 30.0
_WORDS = 300


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one try.

    Attributes:
        state: `sent`; `later` (the relay defers this recipient); `away` (the relay cannot be reached);
            `refused` (this recipient is refused for good); `failed` (the message is); `large` (try
            it without its page); `settings` (nothing leaves until somebody mends something).
        words: what the relay or the system said, and what to do.
    """

    state: State
    words: str


@dataclass(frozen=True, slots=True)
class Relay:
    """Where mails are handed over, and as whom; the password is in no text made of it."""

    host: str
    port: int
    starttls: bool
    ca_file: Path | None
    user: str | None
    password: str | None = field(repr=False)
    seconds: float = _SECONDS


def relay_of(folder: PlantFolder, mail: MailSettings, login: tuple[str, str] | None) -> Relay:
    """Return the relay that `[mail]` declares.

    Args:
        folder: the plant folder; a relative `ca_file` lies in it.
        mail: the section.
        login: user and password, None where the relay asks for none.

    Raises:
        MailError: no relay is declared, or clear text would leave this machine.
    """
    if mail.host is None:
        raise MailError(
            "no relay is declared",
            where=f"{folder.toml}, [mail]",
            hint="Set host, sender and to, or write the mail as a file with --dry-run.",
        )
    if not mail.starttls and mail.port != _TLS_FROM_THE_START and not _is_here(mail.host):
        raise MailError(
            "starttls = false would send reports in clear text over the network",
            where=f"{folder.toml}, [mail]",
            hint="Leave starttls on; only a relay on this machine may go without.",
        )
    ca_file = folder.root / mail.ca_file if mail.ca_file else None
    user, password = login or (None, None)
    return Relay(mail.host, mail.port, mail.starttls, ca_file, user, password)


@contextmanager
def session(relay: Relay) -> Iterator[smtplib.SMTP]:
    """Open a connection, encrypt it and log in.

    Raises:
        OSError, smtplib.SMTPException: as `outcome_of` reads them.
    """
    smtp = _connected(relay)
    try:
        if relay.starttls and relay.port != _TLS_FROM_THE_START:
            smtp.starttls(context=_tls(relay))
        if relay.user is not None:
            smtp.login(relay.user, relay.password or "")
        yield smtp
    finally:
        with suppress(OSError, smtplib.SMTPException):
            smtp.quit()
        smtp.close()


def hand_over(smtp: smtplib.SMTP, *, sender: str, recipient: str, content: bytes) -> Outcome:
    """Hand one message to the relay for one recipient; its refusal is an outcome, not an error."""
    try:
        smtp.sendmail(sender, [recipient], content)
    except (OSError, smtplib.SMTPException, UnicodeError) as error:
        return outcome_of(error)
    return Outcome("sent", "")


def outcome_of(error: Exception) -> Outcome:
    """Say what a failure of `smtplib`, `ssl` or the network means for the mail.

    Returns:
        An outcome that is never `sent`.
    """
    if isinstance(error, smtplib.SMTPRecipientsRefused):
        return _of_recipient(error.recipients)
    if isinstance(error, smtplib.SMTPNotSupportedError):
        return Outcome("settings", _not_offered(str(error)))
    if isinstance(error, smtplib.SMTPResponseException):
        return _of_answer(error)
    if isinstance(error, ssl.SSLCertVerificationError):
        return Outcome(
            "settings",
            f"the relay's certificate is not trusted: {error.verify_message}. Name the plant's own"
            " authority with ca_file in [mail], and the relay by the name in its certificate.",
        )
    if isinstance(error, UnicodeError):
        return Outcome(
            "failed", "the address has letters outside ASCII, which this relay cannot take"
        )
    return _of_network(error)


def _of_recipient(refused: Mapping[str, tuple[int, bytes]]) -> Outcome:
    """One class for greylisting and for an address that is not there: the code tells them apart."""
    code, said = next(iter(refused.values()))
    if code == _AUTH_WANTED:
        return Outcome("settings", _said(code, said) + ". " + _LOGIN)
    # At a recipient 552 means a full mailbox, which is for a while (RFC 5321, 4.5.3.1.10).
    later = code < 500 or code == _TOO_LARGE
    return Outcome("later" if later else "refused", _said(code, said))


_LOGIN = (
    "The relay asks for STARTTLS or a password: see starttls in [mail],"
    " EOL_MAIL_USER and EOL_MAIL_PASSWORD."
)


def _of_answer(error: smtplib.SMTPResponseException) -> Outcome:
    code, words = error.smtp_code, _said(error.smtp_code, error.smtp_error)
    if 0 < code < 500:
        return Outcome("later" if isinstance(error, _OF_ONE_MAIL) else "away", words)
    if code == _TOO_LARGE:
        return Outcome("large", words)
    if isinstance(error, smtplib.SMTPAuthenticationError):
        return Outcome("settings", f"{words}. Mend EOL_MAIL_USER and EOL_MAIL_PASSWORD.")
    if code == _AUTH_WANTED:
        return Outcome("settings", f"{words}. {_LOGIN}")
    if isinstance(error, smtplib.SMTPSenderRefused):
        return Outcome("settings", f"{words}. Mend sender in [mail].")
    if isinstance(error, smtplib.SMTPDataError):
        return Outcome("failed", words)
    return Outcome("away" if code < 0 else "settings", words)


_OF_ONE_MAIL = (smtplib.SMTPSenderRefused, smtplib.SMTPDataError)


def _of_network(error: Exception) -> Outcome:
    if isinstance(error, FileNotFoundError | PermissionError | IsADirectoryError):
        return Outcome("settings", f"ca_file in [mail] cannot be read: {error.strerror}")
    if isinstance(error, ssl.SSLError):
        return Outcome(
            "settings",
            f"no encrypted connection: {error.reason or error}. See port, starttls and ca_file in [mail].",
        )
    told = getattr(error, "strerror", None) or str(error) or type(error).__name__
    return Outcome("away", f"the relay cannot be reached: {told}")


def _not_offered(said: str) -> str:
    if "STARTTLS" in said:
        return (
            "the relay offers no STARTTLS, and nothing leaves in clear text."
            " Name one that does, or its port for it, in [mail]."
        )
    return f"{said} See EOL_MAIL_USER, EOL_MAIL_PASSWORD and port in [mail]."


def _connected(relay: Relay) -> smtplib.SMTP:
    # Asking the network for this machine's full name can take long where there is none.
    name = socket.gethostname() or "localhost"
    name = name if name.isascii() else "localhost"
    if relay.port == _TLS_FROM_THE_START:
        return smtplib.SMTP_SSL(
            relay.host, relay.port, name, timeout=relay.seconds, context=_tls(relay)
        )
    return smtplib.SMTP(relay.host, relay.port, name, timeout=relay.seconds)


def _tls(relay: Relay) -> ssl.SSLContext:
    """Trusts the plant's own authority where it names one, else those of the system."""
    return ssl.create_default_context(cafile=str(relay.ca_file) if relay.ca_file else None)


def _is_here(host: str) -> bool:
    if host.lower() == "localhost":
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def _said(code: int, said: bytes | str) -> str:
    """The relay's answer as one line."""
    text = said.decode("utf-8", "replace") if isinstance(said, bytes) else str(said)
    return " ".join(f"{code} {text}".split())[:_WORDS]
