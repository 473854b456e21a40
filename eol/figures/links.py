"""Names of places in the page that are made from text of files: always short, safe and unique."""

from __future__ import annotations

import re
from hashlib import sha256

_UNSAFE = re.compile(r"[^A-Za-z0-9]+")
_LONGEST = 40


def place_id(kind: str, *parts: str) -> str:
    """Return the id of a place in the page.

    Args:
        kind: what it is a place of, a plain word of ours.
        parts: what names it, as the files give it.

    Returns:
        Letters, digits and hyphens only; where that lost anything, eight hexadecimal digits of
        the parts' SHA-256 keep two names apart.

    Example:
        >>> place_id("code", "water", "WL-SEAM")
        'code-water-WL-SEAM'
        >>> place_id("code", "water", "WL/SEAM")
        'code-water-WL-SEAM-03c6d838'
    """
    plain = "-".join(_UNSAFE.sub("-", part).strip("-")[:_LONGEST] for part in parts)
    if all(parts) and plain == "-".join(parts):
        return f"{kind}-{plain}"
    mark = sha256("\x1f".join(parts).encode()).hexdigest()[:8]
    return "-".join(part for part in (kind, plain, mark) if part)
