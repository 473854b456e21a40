"""Whether all quotes of a delimited file stand where RFC 4180 lets them, seen in whole arrays.

Every first quote opens and every second one closes. The one that opens must stand at the start of
a cell, the one that closes at its end, except where a close and the next open stand side by side:
they are a doubled quote inside a cell.
"""

from __future__ import annotations

import numpy as np

from eol.feeds.csv_head import Head

BLOCK_BYTES = 1 << 20
_QUOTE = 34


def sound_quotes(data: bytes, head: Head) -> int | None:
    """Count the quotes below the header.

    Args:
        data: the file in UTF-8.
        head: what its top tells.

    Returns:
        How many there are; None where one does not enclose a whole cell.
    """
    if b'"' not in data:
        return 0
    values = np.frombuffer(data, dtype=np.uint8)
    edges = np.zeros(256, dtype=bool)
    edges[list(b'\r\n"' + head.delimiter.encode())] = True
    count = 0
    for start in range(head.body, len(values), BLOCK_BYTES):
        quotes = np.flatnonzero(values[start : start + BLOCK_BYTES] == _QUOTE) + start
        opens, closes = quotes[count % 2 :: 2], quotes[1 - count % 2 :: 2]
        if len(closes) and closes[-1] == len(values) - 1:  # nothing stands behind it
            closes = closes[:-1]
        if not (edges[values[opens - 1]].all() and edges[values[closes + 1]].all()):
            return None
        count += len(quotes)
    return count if count % 2 == 0 else None
