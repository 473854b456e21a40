"""One writer at a time, readers on the published copy, errors of files told as what to do."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import duckdb
import pytest

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy, open_store, write_lock
from eol.store.publish import publish_again

HOLDER = """
import sys, time
from pathlib import Path
from eol.plant.folder import PlantFolder
from eol.store.connect import write_lock
with write_lock(PlantFolder(Path(sys.argv[1]))):
    print("held", flush=True)
    time.sleep(60)
"""


@pytest.fixture
def holder(folder: PlantFolder) -> Iterator[subprocess.Popen[str]]:
    """Another process that holds the write lock of the plant."""
    process = subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(folder.root)], stdout=subprocess.PIPE, text=True
    )
    with process:
        assert process.stdout is not None
        process.stdout.readline()
        yield process
        process.kill()


def test_second_writer_is_told_who_writes(
    folder: PlantFolder, holder: subprocess.Popen[str]
) -> None:
    """A writer waits, then says which process holds the store, where it lies and what to do."""
    said = rf"plant.duckdb: the store has been in use by process {holder.pid}[\s\S]*run the command"
    with pytest.raises(StoreError, match=said), write_lock(folder, wait_seconds=0.2):
        pass


def test_lock_that_cannot_be_made(folder: PlantFolder) -> None:
    """What stands in the lock's way is named with its place."""
    folder.lock.unlink(missing_ok=True)
    folder.lock.mkdir()
    said = r"plant.lock: the store cannot be locked: [\s\S]*write to the plant folder"
    with pytest.raises(StoreError, match=said), write_lock(folder, wait_seconds=0.2):
        pass


def test_lock_goes_with_its_process(folder: PlantFolder, holder: subprocess.Popen[str]) -> None:
    """A killed writer holds nothing."""
    holder.kill()
    holder.wait()
    with write_lock(folder, wait_seconds=5):
        assert folder.lock.with_suffix(".pid").read_text() == str(os.getpid())


def test_lock_is_given_back(folder: PlantFolder) -> None:
    """A block that fails gives the lock back."""
    with pytest.raises(ZeroDivisionError), write_lock(folder):
        raise ZeroDivisionError
    with write_lock(folder, wait_seconds=0):
        pass


def test_nothing_loaded_yet(folder: PlantFolder) -> None:
    """Without a published copy the reader is told to load first."""
    folder.read_copy.unlink()
    with pytest.raises(StoreError, match=r"nothing has been loaded yet[\s\S]*Run eol ingest first"):
        open_copy(folder).__enter__()


def test_copy_of_another_version_is_told(small_plant: PlantFolder, tmp_path: Path) -> None:
    """Where the tool has changed since the copy was made, eol publish makes it anew; nothing else is needed."""
    folder = PlantFolder(Path(shutil.copytree(small_plant.root, tmp_path / "plant")))
    for path in (folder.store, folder.read_copy):
        with duckdb.connect(str(path)) as store:
            store.execute("UPDATE schema_version SET views = 'other'")
            store.execute("DROP VIEW release_given")
    with (
        pytest.raises(StoreError, match="made by another version of eol") as error,
        open_copy(folder),
    ):
        pass
    assert "eol publish" in (error.value.hint or "")
    publish_again(folder)
    with open_copy(folder) as copy:
        assert copy.view("release_given").is_empty()
        assert not copy.view("run").is_empty()


def test_copy_cannot_be_written(folder: PlantFolder) -> None:
    """The published copy is opened read only."""
    with open_copy(folder) as copy, pytest.raises(duckdb.InvalidInputException):
        copy.execute("DELETE FROM run", {})


@pytest.mark.parametrize("content", [b"no database", bytes(20_000)])
def test_damaged_store_is_told(folder: PlantFolder, content: bytes) -> None:
    """A store that is none is a StoreError that names the file, and stays as it is."""
    folder.store.write_bytes(content)
    with pytest.raises(StoreError, match=r"plant\.duckdb: the store cannot be used"):
        open_store(folder).__enter__()
    assert folder.store.read_bytes() == content


def test_store_in_foreign_hands_is_told(folder: PlantFolder) -> None:
    """A program other than the tool that holds the store is named by DuckDB's own words."""
    script = "import duckdb, sys; c = duckdb.connect(sys.argv[1]); print(1, flush=True); input()"
    command = [sys.executable, "-c", script, str(folder.store)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        process.stdout.readline()
        with pytest.raises(StoreError, match=f"lock.*PID {process.pid}"):
            open_store(folder).__enter__()
        process.kill()


def test_closed_store_has_no_log(folder: PlantFolder) -> None:
    """At the end the store is one file, so that copying it copies everything."""
    with open_store(folder) as store:
        store.execute("CREATE TABLE extra (n INTEGER)", {})
    assert not folder.store.with_suffix(".duckdb.wal").exists()


def test_older_clients_can_open_the_copy(folder: PlantFolder) -> None:
    """The file's format is one that a DuckDB 1.4 reads."""
    with open_copy(folder) as copy:
        tags = copy.query("SELECT tags FROM duckdb_databases() WHERE NOT internal", {})
    assert tags["tags"].to_list()[0] is not None
    assert "v1.4.0" in str(tags["tags"].to_list()[0])


@pytest.mark.parametrize(
    "error", [RuntimeError("Query interrupted"), duckdb.InterruptException("INTERRUPT Error")]
)
def test_interrupted_query_is_an_interrupt(folder: PlantFolder, error: Exception) -> None:
    """Ctrl-C during a query comes as an error of DuckDB's; it leaves as the interrupt that it is."""
    with pytest.raises(KeyboardInterrupt), open_store(folder):
        raise error


def test_other_errors_stay_what_they_are(folder: PlantFolder) -> None:
    """An error that says nothing of files is passed on."""
    with pytest.raises(RuntimeError, match="of another kind"), open_store(folder):
        raise RuntimeError("of another kind")
