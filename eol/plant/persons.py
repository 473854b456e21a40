"""The name of a person in, a keyed pseudonym out; no name reaches the store (rule 18)."""

from __future__ import annotations

import hashlib
import hmac
import re
from pathlib import Path
from typing import overload

from eol.errors import PlantFileError

KEY_BYTES = 32
_PSEUDONYM = re.compile(r"p-[0-9a-f]{10}")


@overload
def pseudonym(key: bytes, person: str) -> str: ...
@overload
def pseudonym(key: bytes, person: None) -> None: ...
@overload
def pseudonym(key: bytes, person: str | None) -> str | None: ...
def pseudonym(key: bytes, person: str | None) -> str | None:
    """Return the pseudonym of a person: the same for the same key and name, and no way back.

    Args:
        key: the plant's key, from `read_pseudonym_key`.
        person: a name or number; outer blanks do not matter.

    Returns:
        "p-" and ten hexadecimal digits. None stays None and an empty text empty; a pseudonym
        stays as it is, so that a kept row can be read again.

    Source: RFC 2104 (HMAC) with SHA-256 (FIPS 180-4).

    Example:
        >>> pseudonym(bytes(32), " E17 ") == pseudonym(bytes(32), "E17")
        True
    """
    name = person.strip() if person is not None else None
    # Rows kept for a later try hold pseudonyms already.
    if not name or _PSEUDONYM.fullmatch(name):
        return name
    return "p-" + hmac.new(key, name.encode("utf-8"), hashlib.sha256).hexdigest()[:10]


def read_pseudonym_key(path: Path) -> bytes:
    """Return the plant's key for pseudonyms.

    Raises:
        PlantFileError: the file is missing, cannot be read or holds no key.
    """
    hint = "Put back the plant's own pseudonym.key from a backup; a new one would part old and new."
    try:
        key = bytes.fromhex(path.read_text(encoding="ascii").strip())
    except OSError as error:
        what = f"the key for pseudonyms cannot be read: {error.strerror}"
        raise PlantFileError(what, where=str(path), hint=hint) from error
    except ValueError as error:
        raise PlantFileError("this is no key", where=str(path), hint=hint) from error
    if len(key) != KEY_BYTES:
        what = f"a key has {2 * KEY_BYTES} hexadecimal digits, this one has {2 * len(key)}"
        raise PlantFileError(what, where=str(path), hint=hint)
    return key
