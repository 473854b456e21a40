"""Kinds of value."""

import pytest

from eol.plant.values import (
    all_demerits,
    check_address,
    check_encoding,
    check_event_kind,
    check_file_name_time,
    check_time_format,
)


@pytest.mark.parametrize("text", ["utf-8", "cp1252", "latin-1", "utf-16"])
def test_encodings_that_are_known(text: str) -> None:
    """Any encoding that Python knows will do."""
    check_encoding(text)


@pytest.mark.parametrize("text", ["WT_{made_at:%Y%m%d_%H%M}.csv", "{made_at:%s}*.csv"])
def test_file_names_that_tell_a_time(text: str) -> None:
    """One place of the name holds the time."""
    check_file_name_time(text)


@pytest.mark.parametrize(
    "text", ["", "WT.csv", "{made_at}.csv", "{made_at:%Y}{made_at:%m}", "a/{made_at:%Y}"]
)
def test_file_names_that_tell_none(text: str) -> None:
    """No place, no format, two places or a folder cannot be read."""
    with pytest.raises(ValueError, match="must be a file name with one"):
        check_file_name_time(text)


@pytest.mark.parametrize("text", ["quality@example", "a.b+c@mail.example"])
def test_addresses(text: str) -> None:
    """One address, nothing around it."""
    check_address(text)


@pytest.mark.parametrize("text", ["quality", "a@b@c", "a@b\nBcc: c@d", "A <a@b>", "a@b, c@d", ""])
def test_no_addresses(text: str) -> None:
    """Nothing that could become a second header or a second recipient."""
    with pytest.raises(ValueError, match="must be one mail address"):
        check_address(text)


def test_events_and_formats() -> None:
    """Kinds of event are those of the tool; a time format has at least one field."""
    check_event_kind("ship")
    check_time_format("%d.%m.%Y")
    with pytest.raises(ValueError, match="nearest right one is signed_off"):
        check_event_kind("signed off")


def test_weights_are_completed() -> None:
    """Classes that are not set keep their usual weight; zero is a weight."""
    assert all_demerits({"D": 0}) == {"A": 100, "B": 50, "C": 10, "D": 0}
