"""Bytes of a text file in, UTF-8 out: byte order marks, UTF-16, code pages, no NUL tail."""

from __future__ import annotations

import codecs
from dataclasses import dataclass, replace

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
_END_MARK = b"\x1a"  # old systems end a text with it
_SAMPLE_BYTES = 4096
_BLANKS = b"\0 \t\r\n"


@dataclass(frozen=True, slots=True)
class Text:
    """A text file as valid UTF-8.

    Args:
        data: the bytes, without byte order mark and NUL tail.
        encoding: what the file was read as.
        lossy: some bytes were not of that encoding; each stands as U+FFFD and spoils its row.
        padding: NUL bytes cut off the end; behind a line without its end they show that it was
            never finished.
        notes: sentences about what was cut or guessed.
    """

    data: bytes
    encoding: str
    lossy: bool = False
    padding: int = 0
    notes: tuple[str, ...] = ()


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
    text = _decoded(content, chosen) if chosen else _guessed(content)
    return _cut_tail(text, where)


def _guessed(data: bytes) -> Text:
    """Read as UTF-8, also where it is mostly sound: then only the rows with broken bytes are spoiled."""
    text = _decoded(data, "utf-8")
    if not text.lossy:
        return text
    characters = text.data.decode("utf-8")
    broken = characters.count(REPLACEMENT)
    whole = len(characters) - len(characters.encode("ascii", "ignore")) - broken
    if whole > broken:
        return text
    guess = f"The file is not UTF-8 and was read as {FALLBACK}; set `encoding` if that is wrong."
    return replace(_decoded(data, FALLBACK), notes=(guess,))


def _decoded(data: bytes, encoding: str) -> Text:
    if encoding == "utf-8" and _is_utf8(data):
        return Text(data, encoding)
    try:
        return Text(data.decode(encoding).encode("utf-8"), encoding)
    except UnicodeDecodeError:
        return Text(data.decode(encoding, "replace").encode("utf-8"), encoding, lossy=True)


def _is_utf8(data: bytes) -> bool:
    if data.isascii():
        return True
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


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


def _cut_tail(text: Text, where: str) -> Text:
    kept = text.data
    if kept.endswith((b"\0", _END_MARK)):
        kept = kept.removesuffix(_END_MARK).rstrip(b"\0")
    if not kept[:_SAMPLE_BYTES].strip(_BLANKS) and not kept.strip(_BLANKS):
        raise FeedFileError("the file holds no text, only NUL bytes or blanks", where=where)
    padding = len(text.data) - len(kept)
    if not text.data.endswith(b"\0"):
        return replace(text, data=kept)
    note = f"{padding:,} NUL bytes at the end of the file were cut off."
    return replace(text, data=kept, padding=padding, notes=(*text.notes, note))
