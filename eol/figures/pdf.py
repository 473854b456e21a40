"""Draws one SVG sheet as a PDF of one page, without a browser; its text can be selected."""

from __future__ import annotations

import re

from eol.errors import ReportError

_NO_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
_NAMED = re.compile(
    rb"/(?:Font|XObject|ExtGState|Pattern|Shading|ColorSpace) <<\n(.*?)\n\s*>>", re.DOTALL
)
_OFFSET = re.compile(rb"(\d{10}) \d{5} n")
_OBJECT = re.compile(rb"(\d+) 0 obj\n(.*?)(\nstream\n.*)?\nendobj\s*", re.DOTALL)
_REFERENCE = re.compile(rb"\b(\d+) 0 R\b")


def svg_pdf(svg: str) -> bytes:
    """Draw a sheet as PDF.

    Args:
        svg: one `<svg>` with width and height in points; figures may be nested in it.

    Returns:
        The file; the same sheet gives the same bytes.

    Raises:
        ReportError: the sheet cannot be drawn.
    """
    import vl_convert

    try:
        return _settled(bytes(vl_convert.svg_to_pdf(_NO_XML.sub("\ufffd", svg))))
    except (ValueError, RuntimeError) as error:
        raise ReportError(
            f"the PDF cannot be drawn: {str(error).splitlines()[0]}",
            hint="The page itself is not touched; report this with the shift it was asked for.",
        ) from error


def _settled(pdf: bytes) -> bytes:
    """Resources come in an order that changes from call to call: list and number them by name.

    The objects are written in the order in which they are referred to, from the root on.
    """
    starts = sorted(int(offset) for offset in _OFFSET.findall(pdf[pdf.rindex(b"\nxref\n") :]))
    ends = [*starts[1:], pdf.rindex(b"xref\n", 0, pdf.rindex(b"startxref"))]
    found = [_OBJECT.fullmatch(pdf[start:end]) for start, end in zip(starts, ends, strict=True)]
    objects = {one[1]: (_NAMED.sub(_sorted, one[2]), one[3] or b"") for one in found if one}
    trailer = pdf[pdf.rindex(b"trailer") : pdf.rindex(b"startxref")]
    numbers: dict[bytes, int] = {}
    _number(_REFERENCE.findall(trailer), objects, numbers)
    return _written(pdf[: starts[0]], objects, trailer, numbers)


def _sorted(named: re.Match[bytes]) -> bytes:
    return named[0].replace(named[1], b"\n".join(sorted(named[1].split(b"\n"))))


def _number(
    referred: list[bytes], objects: dict[bytes, tuple[bytes, bytes]], numbers: dict[bytes, int]
) -> None:
    """Number objects in the order in which they are met."""
    for name in referred:
        if name not in numbers:
            numbers[name] = len(numbers) + 1
            _number(_REFERENCE.findall(objects[name][0]), objects, numbers)


def _written(
    head: bytes,
    objects: dict[bytes, tuple[bytes, bytes]],
    trailer: bytes,
    numbers: dict[bytes, int],
) -> bytes:
    """The file under the new numbers, with its table of offsets."""

    def renumbered(part: bytes) -> bytes:
        return _REFERENCE.sub(lambda one: b"%d 0 R" % numbers[one[1]], part)

    out, offsets = head, []
    for name, number in numbers.items():
        offsets.append(len(out))
        told, stream = objects[name]
        out += b"%d 0 obj\n%s%s\nendobj\n\n" % (number, renumbered(told), stream)
    table = b"".join(b"%010d 00000 n\r\n" % offset for offset in offsets)
    size = len(offsets) + 1
    told = re.sub(rb"/Size \d+", b"/Size %d" % size, renumbered(trailer))
    return out + b"xref\n0 %d\n0000000000 65535 f\r\n%s%sstartxref\n%d\n%%%%EOF" % (
        size,
        table,
        told,
        len(out),
    )
