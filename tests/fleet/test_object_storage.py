"""A lake in S3-compatible storage, on a real server on this machine (`pytest -m spark`)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import made_up_lake as made
import pyarrow.fs
import pytest

from eol.fleet.ask import Fleet, ask_fleet
from eol.fleet.facts import fleet_facts
from eol.fleet.lake import read_lake
from eol.fleet.page import build_fleet_page
from eol.fleet.place import open_place
from eol.fleet.publish import finish_commit, publish_lake

pytestmark = [pytest.mark.spark, pytest.mark.filterwarnings("ignore")]


@pytest.fixture(scope="module")
def bucket() -> Iterator[str]:
    """A bucket of a server on loopback, as a URI without a path."""
    from moto.server import ThreadedMotoServer

    server = ThreadedMotoServer("127.0.0.1", 0, verbose=False)
    server.start()
    host, port = server.get_host_and_port()
    options = f"?scheme=http&endpoint_override={host}:{port}&allow_bucket_creation=true"
    files, _ = pyarrow.fs.FileSystem.from_uri(f"s3://key:secret@plants{options}")
    files.create_dir("plants")
    yield f"s3://key:secret@plants/{{}}{options}"
    server.stop()


@pytest.fixture(scope="module")
def lake(bucket: str, tmp_path_factory: pytest.TempPathFactory) -> str:
    """Two plants published into the bucket."""
    root = tmp_path_factory.mktemp("stored")
    uri = bucket.format("some/lake")
    for name, cases in (("south", made.SOUTH), ("west", made.WEST)):
        publish_lake(made.made_plant(root / name, made.tables_of(cases)), uri, plant=name)
    return uri


def test_rows_are_those_of_a_folder(lake: str, lake_folder: Path) -> None:
    """The views give what they give of a lake in a folder."""
    plants = ("south", "west")
    for view in ("ftt_by_shift", "pareto_window", "feed_status"):
        rows = ask_fleet(Fleet(lake, plants=plants), view)
        assert rows.equals(ask_fleet(Fleet(lake_folder, plants=plants), view))


def test_page_of_stored_plants(lake: str) -> None:
    """The page comes from storage as from a folder."""
    assert "south" in build_fleet_page(fleet_facts(Fleet(lake)))


def test_key_is_told_to_nobody(lake: str) -> None:
    """An address with a key in it is named without the key."""
    assert "secret" not in open_place(lake).name


def test_published_again_and_finished(bucket: str, tmp_path: Path) -> None:
    """Touched months alone are written again; what a killed publishing left is put in place."""
    uri = bucket.format("other")
    folder = made.made_plant(tmp_path / "west", made.tables_of(made.WEST))
    publish_lake(folder, uri, plant="west")
    made.change(folder, "UPDATE run SET bay = 'X'")
    assert {path.split("/")[0] for path in publish_lake(folder, uri, plant="west").written} == {
        "run"
    }
    place = open_place(uri)
    finish_commit(place, "west")
    assert place.listed("_commit") == ()
    assert read_lake(place).plants[0].waiting == {}
