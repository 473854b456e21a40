"""Words that figures and page share, so that a mark and its table say the same."""

from __future__ import annotations

from eol.statistics.ranks import RankRange


def short_title(title: str) -> str:
    """Return a test's title without the word test or track, which every row would repeat.

    Example:
        >>> short_title("Water test")
        'Water'
    """
    return title.removesuffix(" test").removesuffix(" track")


def hours_words(hours: float | None) -> str:
    """Return a waiting time: minutes under an hour, whole hours above; a dash where unknown.

    Example:
        >>> hours_words(0.5), hours_words(76.2)
        ('30 min', '76 h')
    """
    if hours is None:
        return "–"
    return f"{hours * 60:.0f} min" if hours < 1 else f"{hours:.0f} h"


def range_words(found: RankRange | None) -> str:
    """Return a range of ranks; a dash where there is none.

    Example:
        >>> range_words(RankRange(1, 3, 0.5)), range_words(RankRange(2, 2, 0.0)), range_words(None)
        ('1–3', '2', '–')
    """
    if found is None:
        return "–"
    return str(found.low) if found.low == found.high else f"{found.low}–{found.high}"
