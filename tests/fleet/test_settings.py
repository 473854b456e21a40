"""How Spark is reached: what the caller says, else the lake's file, else the environment."""

from __future__ import annotations

from pathlib import Path

import pytest

from eol.errors import EngineError
from eol.fleet.place import Place, open_place
from eol.fleet.settings import LOCAL_MASTER, SparkSettings, spark_settings

FILE = (
    '[spark]\nremote = "sc://cluster:15002"\nlake = "s3a://b/lake"\n[spark.conf]\n"spark.x" = 2\n'
)


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Place:
    """A lake without settings, in an environment that says nothing."""
    monkeypatch.delenv("SPARK_REMOTE", raising=False)
    return open_place(tmp_path)


def test_nothing_said_is_this_machine(place: Place) -> None:
    """Without any word Spark runs here."""
    assert spark_settings(place, None) == SparkSettings(master=LOCAL_MASTER)


def test_environment_names_a_server(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    """SPARK_REMOTE is the variable that Spark itself knows."""
    monkeypatch.setenv("SPARK_REMOTE", "sc://there")
    assert spark_settings(place, None) == SparkSettings(remote="sc://there")


def test_file_of_the_lake(place: Place) -> None:
    """The lake's fleet.toml names the cluster for everyone."""
    place.write_text("fleet.toml", FILE)
    found = spark_settings(place, None)
    assert found == SparkSettings("sc://cluster:15002", "", "s3a://b/lake", {"spark.x": "2"})


def test_what_the_caller_says_goes_first(place: Place) -> None:
    """A master named by the caller puts the file's server aside, the rest of the file stands."""
    place.write_text("fleet.toml", FILE)
    found = spark_settings(place, SparkSettings(master="local[2]", conf={"spark.y": "1"}))
    assert (found.remote, found.master, found.lake) == ("", "local[2]", "s3a://b/lake")
    assert found.conf == {"spark.x": "2", "spark.y": "1"}


@pytest.mark.parametrize("text", ["spark = 1 2", '[spark]\nmaser = "x"', "[sparks]\n"])
def test_wrong_file_is_told(place: Place, text: str) -> None:
    """A file that is no TOML, or has a key that nobody knows, is told with the keys there are."""
    place.write_text("fleet.toml", text)
    with pytest.raises(EngineError, match=r"fleet\.toml cannot be used"):
        spark_settings(place, None)
