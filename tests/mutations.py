"""Ways in which a file is damaged on its way, each with how many of its rows it can touch."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

Mutation = Callable[[bytes, int, Random], tuple[bytes, int]]
"""A file's bytes, where its first row begins, chance: the damaged bytes, and the rows touched at most."""


def flipped(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Flip one bit in each of one to four bytes; a lost line end joins two rows."""
    damaged, flips = bytearray(content), chance.randint(1, 4)
    for _ in range(flips):
        damaged[chance.randrange(body, len(damaged))] ^= 1 << chance.randrange(8)
    return bytes(damaged), 2 * flips


def truncated(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Cut the file off anywhere below the header; all rows behind the cut are gone."""
    cut = chance.randrange(body, len(content))
    return content[:cut], content[cut:].count(b"\n") + 1


def zeroed(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Overwrite a stretch with NUL bytes, as a disk does that lost a block."""
    start = chance.randrange(body, len(content))
    end = min(len(content), start + chance.randint(1, 200))
    damaged = content[:start] + b"\0" * (end - start) + content[end:]
    return damaged, content[start:end].count(b"\n") + 1


def recoded(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Write one line in another encoding than the rest."""
    lines = content[body:].decode("utf-8").split("\n")
    index = chance.randrange(len(lines) - 1)
    coded = [line.encode("cp1252" if n == index else "utf-8") for n, line in enumerate(lines)]
    return content[:body] + b"\n".join(coded), 1


def cell_dropped(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Leave one cell out of one line, with its delimiter."""
    lines = content[body:].split(b"\n")
    index = chance.randrange(len(lines) - 1)
    cells = lines[index].split(b",")
    del cells[chance.randrange(len(cells))]
    lines[index] = b",".join(cells)
    return content[:body] + b"\n".join(lines), 1


def stray_quote(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Put a quote anywhere; it must not swallow the rows behind it."""
    at = chance.randrange(body, len(content))
    return content[:at] + b'"' + content[at:], 1


def doubled(content: bytes, body: int, chance: Random) -> tuple[bytes, int]:
    """Append the file to itself, header and all."""
    return content + content, 0


MUTATIONS: tuple[Mutation, ...] = (
    flipped,
    truncated,
    zeroed,
    recoded,
    cell_dropped,
    stray_quote,
    doubled,
)
