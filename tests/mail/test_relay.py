"""The relay: every failure of a real server, and what is to be done about it."""

from __future__ import annotations

import smtplib
from pathlib import Path
from typing import Any

import pytest
from mail_server import PASSWORD, USER, Server, mail_server

from eol.errors import MailError
from eol.mail.relay import Outcome, hand_over, outcome_of, relay_of, session
from eol.plant.folder import PlantFolder
from eol.plant.sections import MailSettings

LOGIN = (USER, PASSWORD)
HERE = PlantFolder(Path("/nowhere"))


def attempt(
    server: Server, *, to: str = "lead", login: tuple[str, str] | None = LOGIN, **over: Any
) -> Outcome:
    """Hand one mail over, with other settings than those that lead to the server."""
    content = over.pop("content", b"Subject: x\r\n\r\n.x\r\n")
    settings = MailSettings(**(server.settings | over))
    try:
        with session(relay_of(HERE, settings, login)) as smtp:
            return hand_over(
                smtp, sender="line@q.example", recipient=f"{to}@q.example", content=content
            )
    except (OSError, smtplib.SMTPException) as error:
        return outcome_of(error)


def test_bytes_arrive_as_they_are(server: Server) -> None:
    """Over STARTTLS and with a password, what arrives is what was handed over."""
    content = b"Subject: x\r\n\r\n.a line that begins with a dot\r\n"
    assert attempt(server, content=content).state == "sent"
    assert server.taken == [("lead@q.example", content)]


@pytest.mark.parametrize(
    ("login", "over", "words"),
    [
        (None, {}, "530"),
        ((USER, "wrong"), {}, "535"),
        (None, {"starttls": False}, "STARTTLS"),
        (LOGIN, {"ca_file": None}, "not trusted"),
        (LOGIN, {"ca_file": "missing.pem"}, "ca_file"),
    ],
)
def test_settings_must_be_mended(
    server: Server, login: tuple[str, str] | None, over: dict[str, Any], words: str
) -> None:
    """No password, a wrong one, no STARTTLS, an unknown authority: nothing leaves until mended."""
    outcome = attempt(server, login=login, **over)
    assert outcome.state == "settings"
    assert words in outcome.words
    assert PASSWORD not in outcome.words
    assert server.taken == []


@pytest.mark.parametrize(
    ("answer", "state"),
    [
        ("451 4.7.1 greylisted", "later"),
        ("550 5.1.1 no such user", "refused"),
        ("552 5.2.2 mailbox full", "later"),
        ("421 4.3.2 going down", "later"),
    ],
)
def test_code_tells_whether_to_try_again(server: Server, answer: str, state: str) -> None:
    """One class of error for greylisting and for an address that is not there: 4xx later, 5xx never."""
    server.answers["lead"] = answer
    assert attempt(server) == Outcome(state, answer)  # type: ignore[arg-type]
    assert attempt(server, to="shift").state == "sent"


@pytest.mark.parametrize(
    ("answer", "state"), [("552 too large", "large"), ("554 spam", "failed"), ("451 busy", "later")]
)
def test_answer_to_the_message(server: Server, answer: str, state: str) -> None:
    """A message may be too large, refused for good, or put off."""
    server.answers["DATA"] = answer
    assert attempt(server).state == state


def test_size_is_told_before_it_is_sent(tmp_path: Path) -> None:
    """A server that names its limit refuses the sender already."""
    with mail_server(tmp_path, login=False, data_size_limit=10) as server:
        assert attempt(server, login=None, content=b"x" * 1000).state == "large"


def test_nothing_leaves_in_clear_text_by_itself(tmp_path: Path) -> None:
    """A server without STARTTLS gets nothing, unless it is on this machine and that is declared."""
    with mail_server(tmp_path, tls=False, login=False) as server:
        assert attempt(server, login=None).state == "settings"
        assert server.taken == []
        assert attempt(server, login=None, starttls=False).state == "sent"


def test_clear_text_over_the_network_is_refused() -> None:
    """Starttls = false is for a relay on this machine."""
    with pytest.raises(MailError, match="clear text"):
        relay_of(HERE, MailSettings(host="relay.example", starttls=False), None)


def test_server_that_is_down(server: Server) -> None:
    """A relay that cannot be reached is tried again."""
    assert attempt(server, port=1).state == "away"


def test_address_outside_ascii(server: Server) -> None:
    """An address that this way of mailing cannot write fails by itself."""
    assert attempt(server, to="früh").state == "failed"


def test_password_is_in_no_text() -> None:
    """What is printed of a relay does not tell its password."""
    assert PASSWORD not in repr(relay_of(HERE, MailSettings(host="relay.example"), LOGIN))


def test_no_relay() -> None:
    """Without a host the words say where to declare one."""
    with pytest.raises(MailError, match="no relay is declared"):
        relay_of(HERE, MailSettings(), None)
