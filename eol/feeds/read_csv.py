"""CSV and TSV after RFC 4180, as text.

A clean file goes through polars' own reader; whether it was clean is proved by an account of its
bytes, not by a look at each row. Any other file is read record by record, and each row that
cannot be read is refused with its reason while the others are kept.
"""

from __future__ import annotations

from dataclasses import replace

from eol.feeds.csv_careful import read_careful
from eol.feeds.csv_clean import read_clean
from eol.feeds.csv_head import read_head
from eol.feeds.encoding import to_utf8
from eol.feeds.raw import RawFile, ReadOptions, number_rows, refused_frame
from eol.feeds.tidy import tidy


def read_csv(content: bytes, options: ReadOptions, *, where: str, usual: str = ",") -> RawFile:
    """Read delimited text.

    Args:
        content: the file's bytes, unpacked.
        options: what the feed declares; the rest is found out.
        where: the file, for messages.
        usual: the delimiter of a file with one column.

    Returns:
        The rows as text, the refused rows, and notes; see `RawFile`.

    Raises:
        FeedFileError: there is no usable header, or the encoding is unknown.
    """
    text = to_utf8(content, options.encoding, where=where)
    head = read_head(text.data, options, where=where, usual=usual)
    cut_off = text.padding and not text.data.endswith(head.line_end.encode())
    clean = None if text.lossy or cut_off else read_clean(text.data, head)
    if clean is not None:
        frame, refused = number_rows(clean), refused_frame()
    else:
        frame, refused = read_careful(text, head)
    tidied = tidy(frame, refused, head.header)
    return replace(tidied, notes=(*text.notes, *head.notes, *tidied.notes))
