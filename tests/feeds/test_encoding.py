"""Text files of any encoding come out as UTF-8."""

import codecs

import pytest

from eol.errors import FeedFileError
from eol.feeds.encoding import to_utf8

ROWS = "vin,note\nU1,Rücklicht größer\nU2,ok\n"


@pytest.mark.parametrize(
    ("content", "encoding"),
    [
        (ROWS.encode("utf-8"), "utf-8"),
        (ROWS.encode("utf-8-sig"), "utf-8"),
        (codecs.BOM_UTF16_LE + ROWS.encode("utf-16-le"), "utf-16-le"),
        (codecs.BOM_UTF16_BE + ROWS.encode("utf-16-be"), "utf-16-be"),
        (ROWS.encode("utf-16-le"), "utf-16-le"),
        (ROWS.encode("utf-16-be"), "utf-16-be"),
    ],
)
def test_unicode_is_found_with_and_without_its_mark(content: bytes, encoding: str) -> None:
    """The mark decides, else the NUL bytes of UTF-16; neither needs a note."""
    text = to_utf8(content, None, where="w.csv")
    assert (text.data, text.encoding) == (ROWS.encode(), encoding)
    assert (text.lossy, text.notes) == (False, ())


def test_text_that_is_no_utf8_falls_back_on_cp1252_with_a_note() -> None:
    """A guess is told, with the setting that mends it."""
    text = to_utf8(ROWS.encode("cp1252"), None, where="w.csv")
    assert text.data == ROWS.encode()
    assert "read as cp1252; set `encoding`" in text.notes[0]


def test_a_declared_encoding_needs_no_note() -> None:
    """What the feed declares is no guess."""
    text = to_utf8(ROWS.encode("latin-1"), "latin-1", where="w.csv")
    assert (text.data, text.notes) == (ROWS.encode(), ())


def test_a_mark_goes_before_the_declared_encoding() -> None:
    """A file that says what it is is believed."""
    assert to_utf8(ROWS.encode("utf-8-sig"), "cp1252", where="w.csv").data == ROWS.encode()


def test_one_broken_line_does_not_turn_utf8_into_cp1252() -> None:
    """Mostly sound UTF-8 stays UTF-8; its broken bytes stand as U+FFFD and spoil their row."""
    text = to_utf8(ROWS.encode() + b"U3,\xfc\n", None, where="w.csv")
    assert (text.encoding, text.lossy) == ("utf-8", True)
    assert text.data == (ROWS + "U3,\ufffd\n").encode()


def test_a_nul_tail_is_cut_off_with_a_note() -> None:
    """Space that was reserved and never written is no content."""
    text = to_utf8(ROWS.encode() + b"\0" * 4096, None, where="w.csv")
    assert (text.data, text.padding) == (ROWS.encode(), 4096)
    assert text.notes == ("4,096 NUL bytes at the end of the file were cut off.",)


def test_the_nul_tail_of_utf16_is_cut_off_too() -> None:
    """A NUL tail is not taken for a sign of another encoding."""
    text = to_utf8(ROWS.encode("utf-16-be") + b"\0" * 64, None, where="w.csv")
    assert (text.data, text.padding) == (ROWS.encode(), 32)


def test_the_end_mark_of_old_systems_is_dropped() -> None:
    """Control-Z at the end is no row."""
    assert to_utf8(ROWS.encode() + b"\x1a", None, where="w.csv").data == ROWS.encode()


@pytest.mark.parametrize("content", [b"\0" * 512, b"\r\n \r\n\0\0"])
def test_a_file_of_nothing_is_refused(content: bytes) -> None:
    """A file that holds only NUL bytes or blanks has no rows to wait for."""
    with pytest.raises(FeedFileError, match="holds no text"):
        to_utf8(content, None, where="w.csv")


@pytest.mark.parametrize("encoding", ["utf-9", "hex"])
def test_an_unknown_encoding_is_named(encoding: str) -> None:
    """A wrong setting is told by its name, whether no codec at all or none for text."""
    with pytest.raises(FeedFileError, match=f"the encoding '{encoding}' is not known"):
        to_utf8(ROWS.encode(), encoding, where="w.csv")
