"""User and password of the relay: from the environment, else from a file that nobody else may read."""

from __future__ import annotations

import os
import stat
from collections.abc import Mapping
from pathlib import Path

from eol.errors import MailError
from eol.plant.folder import PlantFolder

USER, PASSWORD = "EOL_MAIL_USER", "EOL_MAIL_PASSWORD"

_OTHERS = stat.S_IRWXG | stat.S_IRWXO


def read_login(
    folder: PlantFolder, environment: Mapping[str, str] = os.environ
) -> tuple[str, str] | None:
    """Return the user and the password of the relay; None where it asks for none.

    Args:
        folder: the plant folder; its `mail.env` may hold lines such as `EOL_MAIL_USER=line`.
        environment: goes before the file.

    Raises:
        MailError: one of the two is missing, or others may read the file.
    """
    told = _of_file(folder.mail_secrets) | {
        name: environment[name] for name in (USER, PASSWORD) if environment.get(name)
    }
    user, password = told.get(USER), told.get(PASSWORD)
    if user is None and password is None:
        return None
    if not user or not password:
        missing = PASSWORD if user else USER
        raise MailError(
            f"{missing} is missing",
            where="the environment, " + str(folder.mail_secrets),
            hint="Set both EOL_MAIL_USER and EOL_MAIL_PASSWORD, or neither.",
        )
    return user, password


def _of_file(path: Path) -> dict[str, str]:
    try:
        mode = path.stat().st_mode
        lines = path.read_text(encoding="utf-8").splitlines()
    except FileNotFoundError:
        return {}
    except (OSError, UnicodeDecodeError) as error:
        raise MailError(f"the file cannot be read: {error}", where=str(path)) from error
    if os.name == "posix" and mode & _OTHERS:
        raise MailError(
            "others may read this file",
            where=str(path),
            hint=f"Close it: chmod 600 '{path}'. Then change the password.",
        )
    pairs = (line.partition("=") for line in lines if not line.lstrip().startswith("#"))
    return {name.strip(): _bare(value) for name, sign, value in pairs if sign}


def _bare(value: str) -> str:
    """A value without the blanks or the quotes around it."""
    text = value.strip()
    quoted = len(text) > 1 and text[0] == text[-1] and text[0] in "\"'"
    return text[1:-1] if quoted else text
