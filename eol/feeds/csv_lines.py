"""The lines of a delimited file, and which of them need a closer look, found in whole arrays.

A plain line has the right number of delimiters, no quote, no control character and a line end of
the usual kind; in a file of a million rows with one bad one, all others are plain.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from eol.feeds.encoding import REPLACEMENT

_LINE_FEED, _RETURN, _TAB, _QUOTE = b'\n\r\t"'
_CONTROLS = 32  # bytes below it
_BLOCK_LINES = 1 << 14

Positions = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Lines:
    """Where the lines of a body begin.

    Args:
        starts: the byte at which each line begins.
        special: the numbers of the lines that need a closer look, ascending.
    """

    starts: Positions
    special: Positions

    def line_at(self, position: int, *, guess: int) -> int:
        """Return the number of the line that begins at a byte; how many there are at the end.

        Args:
            position: the byte.
            guess: the number that is looked at first.
        """
        if guess < len(self.starts) and self.starts[guess] == position:
            return guess
        return int(np.searchsorted(self.starts, position))


def find_lines(body: bytes, delimiter: str, columns: int, *, lossy: bool) -> Lines:
    """Find the lines of the rows below the header.

    Args:
        body: the rows in UTF-8.
        delimiter: the one character between two cells.
        columns: how many cells a row has.
        lossy: whether a U+FFFD in a line is a sign of damage.
    """
    values = np.frombuffer(body, dtype=np.uint8)
    starts, lone = _starts(values)
    marks = [lone, _last(starts)]
    for first in range(0, len(starts), _BLOCK_LINES):
        bounds = starts[first : first + _BLOCK_LINES + 1]
        end = len(values) if first + _BLOCK_LINES >= len(starts) else int(bounds[-1])
        block, begins = values[bounds[0] : end], bounds[:_BLOCK_LINES] - bounds[0]
        marks.append(first + np.flatnonzero(_odd(block, begins, ord(delimiter), columns)))
    if lossy:
        marks.append(_holding(body, starts))
    return Lines(starts, np.unique(np.concatenate(marks)))


def _starts(values: npt.NDArray[np.uint8]) -> tuple[Positions, Positions]:
    """Where lines begin, and the numbers of those that end with a return alone."""
    returns = np.flatnonzero(values == _RETURN)
    behind = values[np.minimum(returns + 1, len(values) - 1)]
    lone = returns[(behind != _LINE_FEED) | (returns == len(values) - 1)]
    ends = np.sort(np.concatenate([np.flatnonzero(values == _LINE_FEED), lone]))
    starts = np.concatenate([[0], ends + 1])
    starts = starts[starts < len(values)].astype(np.int64)
    return starts, np.searchsorted(ends, lone)


def _last(starts: Positions) -> Positions:
    return np.array([len(starts) - 1] if len(starts) else [], dtype=np.int64)


def _odd(
    block: npt.NDArray[np.uint8], begins: Positions, delimiter: int, columns: int
) -> npt.NDArray[np.bool_]:
    """Tell for each line of a block whether its cells or characters are not as they should be."""
    ends = (_LINE_FEED, _RETURN, _TAB)
    strange = (block < _CONTROLS) & ~np.isin(block, ends) | (block == _QUOTE)
    delimiters = np.add.reduceat(block == delimiter, begins, dtype=np.int64)
    odd: npt.NDArray[np.bool_] = delimiters != columns - 1
    odd |= np.logical_or.reduceat(strange, begins)
    odd |= (block[begins] == _LINE_FEED) | (block[begins] == _RETURN)
    return odd


def _holding(body: bytes, starts: Positions) -> Positions:
    """The numbers of the lines that hold a replaced byte."""
    mark, found, position = REPLACEMENT.encode(), [], body.find(REPLACEMENT.encode())
    while position >= 0:
        found.append(position)
        position = body.find(mark, position + 1)
    return np.searchsorted(starts, np.array(found, dtype=np.int64), side="right") - 1
