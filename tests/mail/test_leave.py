"""A report leaves once: made from one copy, written down before its first try."""

from __future__ import annotations

from datetime import timedelta

import builders as b
import plants
import pytest
from mail_plants import LEAD, at, declare, states
from mail_server import Server, read

from eol.mail import outbox
from eol.mail.asked import Asked
from eol.mail.leave import leave, make_report, message_id, slug
from eol.plant.folder import PlantFolder
from eol.plant.settings import parse_settings, read_settings

pytestmark = pytest.mark.mail

ASKED = Asked(b.TUESDAY, "E", at("14:00"))


def test_message_id_is_the_same_in_every_process() -> None:
    """It is made from plant, date, shift and revision alone, and tells them apart."""
    settings = parse_settings(b.plant_toml(b.settings()))
    ids = {message_id(settings, b.TUESDAY, shift, n) for shift in ("E", "e", "É") for n in (0, 1)}
    assert len(ids) == 6
    assert (
        message_id(settings, b.TUESDAY, "E", 0)
        == "<quillbrook.2026-09-08.e.0.a033b38fd3@eol.invalid>"
    )


def test_slug() -> None:
    """Words of a plant as ids take them."""
    assert [slug(text) for text in ("Werk Süd", "漏水", "A/B")] == ["werk-sud", "x", "a-b"]


def test_leaves_with_page_mail_and_figures(plant: PlantFolder, undrawn: None) -> None:
    """Page, mail and figures are there before anything is sent."""
    made = leave(plant, read_settings(plant.toml), ASKED, now=at("14:35"))
    assert made.page.name == "2026-09-08_E.html"
    [mail] = outbox.kept(plant.outbox)
    assert read(outbox.content_of(plant.outbox, mail))["Message-ID"] == made.message_id
    plants.load(plant)
    assert states(plant, LEAD) == ["waiting"]
    assert plants.count(plant, "figure_sent", message_id=made.message_id) == made.figures.height


def test_one_that_is_written_down_stays(plant: PlantFolder, undrawn: None) -> None:
    """A report made twice, as after a kill, goes out as it was made first."""
    settings = read_settings(plant.toml)
    leave(plant, settings, ASKED, now=at("14:35"))
    [first] = outbox.kept(plant.outbox)
    content = outbox.content_of(plant.outbox, first)
    leave(plant, settings, ASKED, now=at("16:35"))
    assert outbox.kept(plant.outbox) == [first]
    assert outbox.content_of(plant.outbox, first) == content


def test_late_one_says_so(plant: PlantFolder, undrawn: None) -> None:
    """More than an hour after it was due a report is late; a second one of the shift is not."""
    settings = read_settings(plant.toml)
    late = make_report(plant, settings, ASKED, now=at("14:30") + timedelta(hours=26))
    assert "it was due Tue 8 Sep 2026 14:30 and was made Wed 9 Sep 2026 16:30" in late.whole.text
    assert "is late" not in make_report(plant, settings, ASKED, now=at("15:30")).whole.text


def test_plant_without_mail(plant: PlantFolder, server: Server, undrawn: None) -> None:
    """Without [mail] the page is made and noted, and nothing waits."""
    declare(plant)
    leave(plant, read_settings(plant.toml), ASKED, now=at("14:35"))
    plants.load(plant)
    assert plants.column(plant, "report_sent", "recipient") == ["2026-09-08_E.html"]
    assert outbox.kept(plant.outbox) == []
