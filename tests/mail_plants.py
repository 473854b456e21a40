"""Plants that mail: small ones, at given times of their day, for the tests of mail and schedule."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import builders as b
import plants
from made_up_shift import quiet_shift

from eol.facts.shift import ShiftFacts
from eol.mail.relay import Outcome
from eol.plant.folder import PlantFolder
from eol.report.shift import page_name

LEAD, SHIFT = "lead@quillbrook.example", "shift@quillbrook.example"


def at(clock: str, day: date = b.TUESDAY) -> datetime:
    """A local time of a day, in UTC."""
    return b.at(clock, day).astimezone(UTC)


def mailing(source: PlantFolder, root: Path, mail: dict[str, Any], **sections: Any) -> PlantFolder:
    """Copy a plant and let it mail."""
    shutil.copytree(source.root, root)
    folder = PlantFolder(root)
    declare(folder, mail=mail, **sections)
    return folder


def declare(folder: PlantFolder, **sections: Any) -> None:
    """Write plant.toml with more sections, as old as the copy, so that nothing need be loaded."""
    plants.declare(folder, b.settings(**sections))
    stamp = folder.read_copy.stat().st_mtime - 60
    os.utime(folder.toml, (stamp, stamp))


def draw_nothing(patch: Callable[[str, object], None]) -> None:
    """Let reports tell a made-up quiet shift on a page of one word, without pictures.

    Their figures in the store are those of the plant.
    """

    def facts(
        copy: object, *, production_date: date, shift: str | None, **more: object
    ) -> ShiftFacts:
        quiet = quiet_shift()
        header = replace(quiet.header, production_date=production_date, shift=shift)
        return replace(quiet, header=header)

    def page(facts: ShiftFacts, reports: Path, **more: object) -> Path:
        path = reports / page_name(facts.header.production_date, facts.header.shift)
        path.write_text("page", encoding="utf-8")
        return path

    patch("eol.mail.leave.shift_facts", facts)
    patch("eol.mail.leave.keep_answers", lambda folder, facts: facts)
    patch("eol.mail.leave.write_page", page)
    patch("eol.mail.letter.panels", lambda facts: ())


def states(folder: PlantFolder, recipient: str) -> list[str]:
    """What the store says of the reports to one recipient."""
    return plants.column(folder, "report_sent", "state", recipient=recipient)


def outcome(state: Any, words: str = "") -> Outcome:
    """An outcome in one word."""
    return Outcome(state, words)
