"""A sheet as PDF."""

from __future__ import annotations

import re

import pytest

from eol.errors import ReportError
from eol.figures.pdf import svg_pdf

SHEET = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="842" height="595" viewBox="0 0 842 595" '
    'font-family="Arial, Liberation Sans"><text x="9" y="40">plain {}</text>'
    '<text x="9" y="80" font-weight="bold">bold</text>'
    '<svg x="9" y="99" width="90" height="90" viewBox="0 0 9 9"><g opacity="0.5">'
    '<rect width="9" height="9"/><text y="8">n</text></g></svg></svg>'
)


def test_one_page_of_the_size_asked_for() -> None:
    """The sheet is one page with fonts in it and no picture."""
    pdf = svg_pdf(SHEET.format("text"))
    assert len(re.findall(rb"/Type /Page\b(?!s)", pdf)) == 1
    assert b"/MediaBox [0 0 842 595]" in pdf
    assert b"/Subtype /Image" not in pdf
    assert b"/ToUnicode" in pdf


def test_same_bytes_every_time() -> None:
    """However fonts and groups are listed by the drawing library, the file is the same."""
    assert len({svg_pdf(SHEET.format("text")) for _ in range(6)}) == 1


def test_offsets_lead_to_their_objects() -> None:
    """The table at the end of the file tells where each object begins."""
    pdf = svg_pdf(SHEET.format("text"))
    table = pdf[int(pdf[pdf.rindex(b"startxref") :].split()[1]) :]
    offsets = [int(at) for at in re.findall(rb"(\d{10}) 00000 n", table)]
    assert [pdf[at:].split()[:3] for at in offsets] == [
        [b"%d" % (at + 1), b"0", b"obj"] for at in range(len(offsets))
    ]


def test_signs_that_xml_has_not() -> None:
    """A control sign of a file does not stop the sheet."""
    assert svg_pdf(SHEET.format("a\x00b\x0bc\ufffe")).startswith(b"%PDF-")


def test_what_is_no_sheet_is_told() -> None:
    """A broken sheet is an error with what to do."""
    with pytest.raises(ReportError, match="the PDF cannot be drawn"):
        svg_pdf("<svg")
