"""User and password: from the environment or from a closed file, never from plant.toml."""

from __future__ import annotations

from pathlib import Path

import pytest

from eol.errors import MailError
from eol.mail.secrets import read_login
from eol.plant.folder import PlantFolder


def secrets(root: Path, text: str, mode: int = 0o600) -> PlantFolder:
    """A plant folder with a file of secrets."""
    folder = PlantFolder(root)
    folder.mail_secrets.write_text(text, encoding="utf-8")
    folder.mail_secrets.chmod(mode)
    return folder


def test_none(tmp_path: Path) -> None:
    """A relay that asks for no password gets none."""
    assert read_login(PlantFolder(tmp_path), {}) is None


def test_environment_goes_first(tmp_path: Path) -> None:
    """What the environment says stands before the file."""
    folder = secrets(tmp_path, "# the relay\nEOL_MAIL_USER=file\nEOL_MAIL_PASSWORD='a = b'\n")
    assert read_login(folder, {}) == ("file", "a = b")
    assert read_login(folder, {"EOL_MAIL_USER": "line"}) == ("line", "a = b")


def test_half_of_it(tmp_path: Path) -> None:
    """A user without a password is a slip."""
    with pytest.raises(MailError, match="EOL_MAIL_PASSWORD is missing"):
        read_login(PlantFolder(tmp_path), {"EOL_MAIL_USER": "line"})


@pytest.mark.parametrize("mode", [0o640, 0o604, 0o644])
def test_file_that_others_may_read(tmp_path: Path, mode: int) -> None:
    """A file that others may read is not used; the words say how to close it, not what is in it."""
    folder = secrets(tmp_path, "EOL_MAIL_USER=line\nEOL_MAIL_PASSWORD=sesame\n", mode)
    with pytest.raises(MailError, match="chmod 600") as told:
        read_login(folder, {})
    assert "sesame" not in str(told.value)
