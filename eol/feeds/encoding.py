"""Bytes of a text file in, UTF-8 out: byte order marks, UTF-16, code pages, no NUL tail."""

from __future__ import annotations

import codecs
from dataclasses import dataclass

from eol.errors import FeedFileError

FALLBACK = "cp1252"
REPLACEMENT = "\N{REPLACEMENT CHARACTER}"

_MARKS = (  # the longer mark first: UTF-32's begins like UTF-16's
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_TAIL = b"\0\x1a"  # pre-allocated space, and the end mark of old systems
_SAMPLE_BYTES = 4096


@dataclass(frozen=True, slots=True)
class Text:
    """A text file as valid UTF-8.

    Args:
        data: the bytes, without byte order mark and NUL tail.
        encoding: what the file was read as.
        lossy: some bytes were not of that encoding; each stands as U+FFFD and spoils its row.
        notes: sentences about what was cut or guessed.
    """

    data: bytes
    encoding: str
    lossy: bool
    notes: tuple[str, ...]


def to_utf8(content: bytes, encoding: str | None, *, where: str) -> Text:
    """Bring a text file to UTF-8.

    The byte order mark decides, else the declared encoding, else UTF-16 where every second byte is
    NUL, else UTF-8, else cp1252 with a note.

    Raises:
        FeedFileError: the declared encoding is unknown, or nothing but NUL bytes is there.
    """
    marked, content = _cut_mark(content)
    declared = _known(encoding, where)
    chosen = marked or declared or _guess_utf16(content)
    if chosen is None or chosen == "utf-8":
        return _utf8(*_cut_tail(content, where), sure=chosen is not None)
    text, lossy = _decode(content, chosen)
    data, notes = _cut_tail(text.encode("utf-8"), where)
    return Text(data, chosen, lossy, notes)


def _utf8(data: bytes, notes: tuple[str, ...], *, sure: bool) -> Text:
    if _is_utf8(data):
        return Text(data, "utf-8", False, notes)
    text = data.decode("utf-8", "replace")
    broken = text.count(REPLACEMENT)
    whole = len(text) - len(text.encode("ascii", "ignore")) - broken
    if sure or whole > broken:  # mostly sound UTF-8: only the rows with broken bytes are spoiled
        return Text(text.encode("utf-8"), "utf-8", True, notes)
    text, lossy = _decode(data, FALLBACK)
    guess = f"The file is not UTF-8 and was read as {FALLBACK}; set `encoding` if that is wrong."
    return Text(text.encode("utf-8"), FALLBACK, lossy, (*notes, guess))


def _is_utf8(data: bytes) -> bool:
    if data.isascii():
        return True
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _decode(data: bytes, encoding: str) -> tuple[str, bool]:
    """Decode; the second value tells whether bytes had to be replaced."""
    try:
        return data.decode(encoding), False
    except UnicodeDecodeError:
        return data.decode(encoding, "replace"), True


def _known(encoding: str | None, where: str) -> str | None:
    if encoding is None:
        return None
    try:
        codec = codecs.lookup(encoding)
        "".encode(codec.name)
    except LookupError as error:
        raise FeedFileError(
            f"the encoding '{encoding}' is not known",
            where=where,
            hint="Set `encoding` of the feed to utf-8, utf-16, cp1252 or another codec's name.",
        ) from error
    return codec.name.removesuffix("-sig")


def _cut_mark(content: bytes) -> tuple[str | None, bytes]:
    for mark, encoding in _MARKS:
        if content.startswith(mark):
            return encoding, content[len(mark) :]
    return None, content


def _guess_utf16(content: bytes) -> str | None:
    """Tell UTF-16 without a mark: Latin text has a NUL in every second byte, and only there."""
    sample = content[:_SAMPLE_BYTES].rstrip(b"\0")
    pairs = len(sample) // 2
    if pairs < 2 or b"\0" not in sample:
        return None
    even, odd = sample[0 : 2 * pairs : 2].count(0), sample[1 : 2 * pairs : 2].count(0)
    if odd > 0.3 * pairs and even < 0.05 * pairs:
        return "utf-16-le"
    if even > 0.3 * pairs and odd < 0.05 * pairs:
        return "utf-16-be"
    return None


def _cut_tail(data: bytes, where: str) -> tuple[bytes, tuple[str, ...]]:
    if data[-1:] not in (b"\0", b"\x1a"):
        return data, ()
    kept = data.rstrip(_TAIL)
    if not kept.strip(b"\0 \t\r\n"):
        raise FeedFileError("the file holds nothing but NUL bytes", where=where)
    return kept, (f"{len(data) - len(kept):,} NUL bytes at the end of the file were cut off.",)
