"""A word somebody wrote and the words there are in, the nearest right one out."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that is most like a word, whatever its case; None where none is near.

    Example:
        >>> nearest("Timzone", ["name", "timezone"])
        'timezone'
    """
    by_lower = {candidate.lower(): candidate for candidate in known}
    found = get_close_matches(word.lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None
