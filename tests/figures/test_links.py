"""Places in the page named by text of files."""

from __future__ import annotations

import re

import pytest

from eol.figures.links import place_id


def test_plain_names_stay_readable() -> None:
    """A name of letters, digits and hyphens is its own id."""
    assert place_id("code", "water", "WL-SEAM") == "code-water-WL-SEAM"


@pytest.mark.parametrize(
    "name", ["javascript:alert(1)", '"><b>', "Fü ß", "", "x" * 200, "\u202eabc"]
)
def test_any_text_gives_a_safe_name(name: str) -> None:
    """Whatever a file holds, the id has letters, digits and hyphens only, and is short."""
    assert re.fullmatch(r"code-[A-Za-z0-9-]{1,60}", place_id("code", name))


def test_names_that_look_alike_stay_apart() -> None:
    """Two names that lose the same signs get two ids."""
    assert len({place_id("code", name) for name in ("A/B", "A-B", "A B", "A?B")}) == 4
    assert place_id("code", "a", "b-c") == place_id("code", "a", "b-c")
