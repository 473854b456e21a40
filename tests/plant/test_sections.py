"""The sections as models."""

from datetime import time
from typing import get_args

import pytest
from pydantic import BaseModel, ValidationError

from eol.plant.sections import PlantSettings, Settings, ShiftSettings


@pytest.mark.parametrize(
    ("starts", "ends", "over"),
    [
        ("06:00", "14:00", False),
        ("22:00", "06:00", True),
        ("16:00", "24:00", False),
        ("06:00", "06:00", True),
        ("00:00", "24:00", False),
    ],
)
def test_which_shifts_cross_midnight(starts: str, ends: str, over: bool) -> None:
    """One that ends at midnight does not; one that ends when it starts lasts a day."""
    shift = ShiftSettings.model_validate({"name": "N", "starts": starts, "ends": ends})
    assert shift.over_midnight is over


def test_a_time_of_day_may_be_written_without_quotes() -> None:
    """TOML has times of its own."""
    shift = ShiftSettings.model_validate({"name": "E", "starts": time(6), "ends": time(14)})
    assert shift.starts == time(6)


def test_every_section_is_frozen_and_knows_its_keys() -> None:
    """No table of plant.toml takes an unknown key or changes after it was checked."""
    models: list[type[BaseModel]] = [Settings, *_models(Settings)]
    assert len(models) == 18
    assert all(model.model_config["frozen"] for model in models)
    assert {model.model_config["extra"] for model in models} == {"forbid"}


def test_a_date_is_no_time() -> None:
    """Types are as they are written: a time does not stand for a date."""
    with pytest.raises(ValidationError, match="starts_on"):
        PlantSettings.model_validate({"name": "Q", "timezone": "UTC", "starts_on": "2026-01-01"})


def _models(kind: object) -> list[type[BaseModel]]:
    """The models inside a model, a list or a table, at any depth."""
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        inner = [field.annotation for field in kind.model_fields.values()]
    else:
        inner = list(get_args(kind))
    found = [one for one in inner if isinstance(one, type) and issubclass(one, BaseModel)]
    return found + [model for one in inner for model in _models(one)]
