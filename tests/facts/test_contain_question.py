"""Questions: the same one has the same id; conditions are read."""

from __future__ import annotations

from dataclasses import replace

import polars as pl
import pytest

from eol.errors import UsageError
from eol.facts.contain_question import ContainQuestion, check_question, meeting
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

LEAK = ContainQuestion("LEAK", zone="RRQ")


def test_same_question_same_list() -> None:
    """Versions of one list come from one question; what was not asked is not in it."""
    assert LEAK.containment_id == ContainQuestion("LEAK", zone="RRQ").containment_id
    assert LEAK.containment_id != replace(LEAK, zone=None).containment_id
    told = replace(LEAK, vins=("U1", "U2"), where=("bead < 4",), since="2026-09-08/day")
    assert told.as_command == (
        "eol contain LEAK --zone RRQ --vin U1 --vin U2 --where 'bead < 4' --from 2026-09-08/day"
    )
    assert LEAK.as_json == '{"code": "LEAK", "zone": "RRQ"}'


def test_checked() -> None:
    """A sensitivity of 0 or 1 can be asked; beyond it cannot."""
    check_question(replace(LEAK, sensitivity=0.0))
    with pytest.raises(UsageError, match="between 0 and 1"):
        check_question(replace(LEAK, sensitivity=-0.1))


@pytest.mark.parametrize(
    ("condition", "n"),
    [("roof=fixed", 3), ("roof=open|fixed", 3), ("roof != fixed", 0), ("model=WAG", 0)],
)
def test_conditions(small_plant: PlantFolder, condition: str, n: int) -> None:
    """Texts by one value or several, the model like an attribute."""
    with open_copy(small_plant) as copy:
        units = copy.view("unit", kind="production").with_columns(model=pl.lit("VAN"))
        assert meeting(copy, replace(LEAK, where=(condition,)), units).height == n
