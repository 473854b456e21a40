"""How wide text is in the page's typeface, and where its lines break: for a sheet without a browser.

The advance widths are those of Adobe's Core 14 font metrics for Helvetica, to which Arial and
Liberation Sans keep; signs beyond ASCII count as a digit, those of East Asia as a whole em.
"""

from __future__ import annotations

from unicodedata import east_asian_width

_PLAIN = (
    "278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 "
    "556 556 278 278 584 584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 "
    "667 778 722 667 611 722 667 944 667 667 611 278 278 278 469 556 333 556 556 500 556 556 278 556 "
    "556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 500 334 260 334 584"
)
_BOLD = (
    "278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 "
    "556 556 333 333 584 584 584 611 975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 "
    "667 778 722 667 611 722 667 944 667 667 611 333 278 333 584 556 333 556 611 556 611 556 333 611 "
    "611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556 556 500 389 280 389 584"
)
_FIRST = 32
_OTHER, _WIDE = 0.6, 1.0
_ADVANCES = {
    bold: tuple(int(width) / 1000 for width in table.split())
    for bold, table in ((False, _PLAIN), (True, _BOLD))
}


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of a line of text, in the measure of its size.

    Example:
        >>> text_width("FTT", 10)
        18.33
    """
    return round(size * sum(_advance(sign, bold) for sign in text), 4)


def lines_of(
    text: str, width: float, size: float, *, bold: bool = False, most: int = 0
) -> list[str]:
    """Break text into lines at blanks; a word longer than a line is broken where it ends.

    Args:
        text: one paragraph.
        width: of the place it stands in, in the measure of size.
        size: of the type.
        bold: True for bold type.
        most: lines there is room for; where more are needed the last one ends in `…`. 0: any number.

    Example:
        >>> lines_of("a missing record is not a pass", 80, 10)
        ['a missing record', 'is not a pass']
    """
    lines = [""]
    for word in text.split():
        for part in _parts(word, width, size, bold=bold):
            longer = f"{lines[-1]} {part}".strip()
            if text_width(longer, size, bold=bold) <= width:
                lines[-1] = longer
            else:
                lines.append(part)
    lines = [line for line in lines if line] or [""]
    if not most or len(lines) <= most:
        return lines
    return [*lines[: most - 1], shortened(" ".join(lines[most - 1 :]), width, size, bold=bold)]


def shortened(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return the text, with `…` for what does not fit on one line."""
    if text_width(text, size, bold=bold) <= width:
        return text
    while text and text_width(f"{text}…", size, bold=bold) > width:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _parts(word: str, width: float, size: float, *, bold: bool) -> list[str]:
    """A word, cut where it is longer than a line."""
    parts = [""]
    for sign in word:
        if parts[-1] and text_width(parts[-1] + sign, size, bold=bold) > width:
            parts.append("")
        parts[-1] += sign
    return parts


def _advance(sign: str, bold: bool) -> float:
    at = ord(sign) - _FIRST
    if 0 <= at < len(_ADVANCES[bold]):
        return _ADVANCES[bold][at]
    return _WIDE if east_asian_width(sign) in "WF" else _OTHER
