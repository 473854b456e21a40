"""A plant.toml in a few lines: a test writes the section it is about, the others are added."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from eol.errors import PlantFileError
from eol.plant.settings import Settings, parse_settings

SECTIONS = {
    "[plant]": 'name = "Quillbrook"\ntimezone = "Europe/Berlin"\nstarts_on = 2026-01-01\n',
    "[[shift]]": 'name = "day"\nstarts = "06:00"\nends = "14:30"\n',
    "[test.": 'title = "Water test"\n',
}
HEADS = {"[test.": "[test.water]"}


def whole(text: str) -> str:
    """The text with the sections that every plant.toml needs added where it has none."""
    missing = [head for head in SECTIONS if head not in text]
    return text + "".join(f"\n{HEADS.get(head, head)}\n{SECTIONS[head]}" for head in missing)


@pytest.fixture
def settings_of() -> Callable[[str], Settings]:
    """Settings of a few lines of plant.toml."""
    return lambda text: parse_settings(whole(text))


@pytest.fixture
def faults_of() -> Callable[[str], list[str]]:
    """The faults of a few lines of plant.toml, a sentence each."""

    def faults(text: str) -> list[str]:
        with pytest.raises(PlantFileError) as caught:
            parse_settings(whole(text))
        lines = caught.value.what.splitlines()
        return [line.strip() for line in lines[1:] or lines]

    return faults
