"""A shift's mail: the page's figures and lines, small, and text of files as text."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from html.parser import HTMLParser

import pytest
from made_up_shift import loud_shift, quiet_shift, stress_shift
from mail_plants import LEAD, at
from mail_server import read

from eol.facts.shift import ShiftFacts
from eol.mail.changes import Change
from eol.mail.letter import NOT_PROTECTIVE, Occasion, shift_letters
from eol.mail.message import MOST_BYTES, Attachment, Letter, letter_bytes
from eol.report.cells import strip_cells
from eol.report.needs_a_look import SHOWN, needs_a_look
from eol.words import CAUTION

OCCASION = Occasion("<one@q>", "line@q", (LEAD,), at("15:00"))
PAGE = Attachment("2026-09-18_day.html", b"<p>page</p>")
NASTY = "<script>alert('x')</script> \"quoted\" \u202eright to left " + "x" * 200


class Elements(HTMLParser):
    """What an HTML mail is made of: its tags with their attributes."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.found.append((tag, dict(attrs)))

    def of(self, tag: str) -> list[dict[str, str | None]]:
        """The attributes of each element of a tag."""
        return [attributes for name, attributes in self.found if name == tag]


@pytest.fixture
def plain(monkeypatch: pytest.MonkeyPatch) -> None:
    """No pictures: drawing them takes time."""
    monkeypatch.setattr("eol.mail.letter.panels", lambda facts: ())


def whole(facts: ShiftFacts, occasion: Occasion = OCCASION) -> Letter:
    """The mail of a shift, with its page."""
    return shift_letters(facts, occasion, PAGE)[0]


@cache
def drawn() -> Letter:
    """The mail of the loud shift with its pictures, drawn once."""
    return whole(loud_shift())


def test_says_what_the_page_says(plain: None) -> None:
    """Each place of the strip and each of the first lines stand in both texts, word for word."""
    facts = loud_shift()
    letter = whole(facts)
    for cell in strip_cells(facts):
        assert f"{cell.label}: " in letter.text
        assert f">{cell.label}</th>" in letter.html
        assert cell.value in letter.text
    for look in needs_a_look(facts)[:SHOWN]:
        start = look.start.replace("listed below", "listed on the page")
        assert f"[{look.kind}] {look.head}\n    {start}" in letter.text


def test_cautions(plain: None) -> None:
    """Both texts release no unit, protect nobody, and say up to when data was received."""
    letter = whole(quiet_shift())
    for text in (letter.text, letter.html):
        assert "From data received up to 14:41." in text
        assert CAUTION.partition(". ")[0] in text
        assert "This mail releases no unit" in text
        assert NOT_PROTECTIVE in text


def test_handling_words_beside_the_vin(plain: None) -> None:
    """A unit with a safety-related finding stands by its VIN, with the catalogue's words."""
    facts = loud_shift()
    for text in (whole(facts).text, whole(facts).html):
        for unit in facts.safety_units:
            assert unit.handling in text.partition(unit.vin + " ")[2] + text.partition(unit.vin)[2]


def test_text_of_files_stays_text(plain: None) -> None:
    """Whatever a file holds makes no element and no header."""
    shift = loud_shift()
    unit = replace(shift.safety_units[0], place=NASTY, code_title=NASTY)
    nasty = replace(
        shift,
        header=replace(shift.header, shift=NASTY, plant=NASTY),
        safety_units=(unit,),
        escapes=(replace(shift.escapes[0], title=NASTY),),
    )
    letter = whole(nasty)
    assert Elements(letter.html).of("script") == []
    assert "&lt;script&gt;" in letter.html
    message = read(letter_bytes(letter))
    assert "<script>" in message["Subject"]
    assert "\u202e" not in message["Subject"]


def test_late_report_says_so(plain: None) -> None:
    """A report that comes late says since when it was due."""
    letter = whole(quiet_shift(), replace(OCCASION, late="This report is late: it was due."))
    assert "This report is late: it was due." in letter.text
    assert letter.subject.endswith(", late report")


def test_second_mail_says_what_moved(plain: None) -> None:
    """A second mail has what was and what is in its subject, and why."""
    change = Change("ftt_by_shift.ftt", "Water test", 410, 0.952, 441, 0.939)
    letter = whole(quiet_shift(), replace(OCCASION, changes=(change,), reason="31 late runs"))
    assert letter.subject == (
        "[look] Final line Fri 18 Sep day, changed:"
        " water test FTT was 95.2%, now 93.9%, 31 late runs"
    )
    assert "Water test FTT was 95.2% of 410, now 93.9% of 441." in letter.text


def test_small_one_has_no_page(plain: None) -> None:
    """The mail for relays that find it too large goes without its page, and promises none."""
    _, small = shift_letters(quiet_shift(), OCCASION, PAGE)
    assert small.attachment is None
    assert "attached" not in small.text + small.html


@pytest.mark.mail
def test_pictures_resolve_and_have_words() -> None:
    """Every picture is in the mail, every picture of the mail in its HTML, each with numbers in words."""
    letter = drawn()
    images = Elements(letter.html).of("img")
    assert [image["src"] for image in images] == [f"cid:{one.name}" for one in letter.pictures]
    assert len(images) == 4
    for image in images:
        assert any(sign.isdigit() for sign in image["alt"] or "")
    assert "http" not in letter.html


@pytest.mark.mail
def test_small_enough() -> None:
    """HTML under 60 kB and the message under 300 kB."""
    assert len(drawn().html.encode()) < 60_000
    assert len(letter_bytes(drawn())) < MOST_BYTES


@pytest.mark.slow
def test_small_enough_under_stress() -> None:
    """Also with 40 codes, long titles, 12 bays and 300 open units."""
    letter = whole(stress_shift())
    assert len(letter.html.encode()) < 60_000
    assert len(letter_bytes(letter)) < MOST_BYTES
