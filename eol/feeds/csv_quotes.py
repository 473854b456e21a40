"""Whether all quotes of a delimited file stand where RFC 4180 lets them, seen in whole arrays.

Every first quote opens and every second one closes. The one that opens must stand at the start of
a cell, the one that closes at its end, except where a close and the next open stand side by side:
they are a doubled quote inside a cell.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from eol.feeds.csv_head import Head

BLOCK_BYTES = 1 << 20
_QUOTE = 34

Positions = npt.NDArray[np.int64]


def quote_positions(data: bytes, start: int) -> Positions:
    """Return where the quotes of the file stand from `start` on."""
    if b'"' not in data:
        return np.empty(0, dtype=np.int64)
    values = np.frombuffer(data, dtype=np.uint8)
    return np.concatenate(
        [
            np.flatnonzero(values[begin : begin + BLOCK_BYTES] == _QUOTE) + begin
            for begin in range(start, len(values), BLOCK_BYTES)
        ]
    )


def well_quoted(data: bytes, quotes: Positions, head: Head) -> bool:
    """Tell whether the quotes at these positions enclose whole cells, and nothing else."""
    if len(quotes) % 2:
        return False
    opens, closes = quotes[0::2], quotes[1::2]
    values = np.frombuffer(data, dtype=np.uint8)
    edge = np.zeros(256, dtype=bool)
    edge[list(b"\r\n" + head.delimiter.encode())] = True
    doubled = opens[1:] == closes[:-1] + 1
    starts = (opens == head.body) | edge[values[opens - 1]]
    last = len(values) - 1
    ends = (closes == last) | edge[values[np.minimum(closes + 1, last)]]
    starts[1:] |= doubled
    ends[:-1] |= doubled
    return bool(starts.all() and ends.all())
