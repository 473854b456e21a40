"""Sessions on the copy: many statements, each on its own, apart from every other reader."""

from __future__ import annotations

from pathlib import Path

import pyarrow as pa
import pytest

from eol.ask.session import open_session
from eol.errors import StoreError, UsageError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_statement_after_a_wrong_one(small_plant: PlantFolder) -> None:
    """A wrong statement leaves the session as it was."""
    with open_session(small_plant) as session:
        with pytest.raises(UsageError):
            session.ask("SELECT nothing FROM run")
        assert session.ask("SELECT 1 AS n")["n"].to_list() == [1]


def test_sessions_and_other_readers_do_not_meet(small_plant: PlantFolder) -> None:
    """Two sessions and a plain reader stand side by side in one process; the lock of one binds no other."""
    with (
        open_copy(small_plant) as copy,
        open_session(small_plant) as one,
        open_session(small_plant) as two,
    ):
        assert one.ask("FROM run").height == two.ask("FROM run").height == copy.view("run").height
        copy.connection.execute("SET threads = 1")


def test_arrow(small_plant: PlantFolder) -> None:
    """An answer is an Arrow table too, times in UTC."""
    with open_session(small_plant) as session:
        table = session.arrow("SELECT run_id, started_at FROM run")
    assert table.num_rows == 8
    assert table.schema.field("started_at").type == pa.timestamp("us", tz="UTC")


def test_names_for_completion(small_plant: PlantFolder) -> None:
    """The columns of everything that can be asked for."""
    with open_session(small_plant) as session:
        assert ("plant", "main", "ftt_by_shift", "ftt") in session.columns()


def test_nothing_published(tmp_path: Path) -> None:
    """A plant without a copy says what to do."""
    with (
        pytest.raises(StoreError, match="Run eol ingest first"),
        open_session(PlantFolder(tmp_path)),
    ):
        pass
