"""The published copy in other clients: figures, times and words are those of the tool."""

from __future__ import annotations

import json
import subprocess
from datetime import UTC, datetime

import pytest

from eol.ask.dictionary import dictionary
from eol.plant.folder import PlantFolder

STARTED = int(datetime(2026, 9, 8, 4, 56, tzinfo=UTC).timestamp() * 1000)
"""The first run starts at 06:56 at the plant, 04:56 UTC."""


@pytest.mark.parametrize(
    "client",
    [
        "own_python",
        pytest.param("old_python", marks=pytest.mark.clients),
        pytest.param("node", marks=pytest.mark.clients),
    ],
)
def test_same_in_every_client(
    client: str, small_plant: PlantFolder, request: pytest.FixtureRequest
) -> None:
    """A client of DuckDB 1.5 or 2, from Python or Node, reads views, comments and times as they are."""
    command = [*request.getfixturevalue(client), str(small_plant.read_copy)]
    ran = subprocess.run(command, capture_output=True, text=True, check=True)
    told = {name: str(value) for name, value in json.loads(ran.stdout).items()}
    words = dictionary(small_plant)
    [hours] = [c for c in words.relation("open_unit").columns if c.name == "hours"]
    assert told == {
        "runs": "8",
        "tested": "3",
        "first_ms": str(STARTED),
        "words": words.relation("ftt_by_shift").comment,
        "column_words": hours.comment,
    }
