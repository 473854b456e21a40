"""Keyed pseudonyms of persons (rule 18)."""

import hashlib
import hmac
from pathlib import Path

import pytest

from eol.errors import PlantFileError
from eol.plant.persons import pseudonym, read_pseudonym_key

KEY = bytes(range(32))


def test_a_pseudonym_is_the_start_of_the_keyed_hash() -> None:
    """Ten hexadecimal digits of HMAC-SHA256, so that another tool can make the same."""
    expected = hmac.digest(KEY, "Jörg E17".encode(), hashlib.sha256).hex()[:10]
    assert pseudonym(KEY, "Jörg E17") == f"p-{expected}"


def test_another_key_or_person_gives_another_pseudonym() -> None:
    """Two plants cannot be joined by their persons."""
    assert len({pseudonym(KEY, "E17"), pseudonym(KEY, "E18"), pseudonym(bytes(32), "E17")}) == 3


def test_nobody_stays_nobody() -> None:
    """Null stays null and blank stays empty: no person is made up."""
    assert pseudonym(KEY, None) is None
    assert pseudonym(KEY, "") == pseudonym(KEY, "  ") == ""


def test_a_pseudonym_is_not_hidden_twice() -> None:
    """A kept row that is read again still means the same person."""
    once = pseudonym(KEY, "E17")
    assert pseudonym(KEY, once) == once


def test_the_key_is_read_from_its_file(tmp_path: Path) -> None:
    """The file holds the key in hexadecimal."""
    path = tmp_path / "pseudonym.key"
    path.write_text(KEY.hex() + "\n")
    assert read_pseudonym_key(path) == KEY


@pytest.mark.parametrize(
    ("content", "words"),
    [("", "64 hexadecimal digits, this one has 0"), ("zz", "this is no key"), (None, "cannot be")],
)
def test_a_missing_or_damaged_key_is_told(tmp_path: Path, content: str | None, words: str) -> None:
    """Without the key no pseudonym is made, and the message says where a key comes from."""
    path = tmp_path / "pseudonym.key"
    if content is not None:
        path.write_text(content)
    with pytest.raises(PlantFileError, match=words) as caught:
        read_pseudonym_key(path)
    assert "backup" in caught.value.hint
