"""How Spark is reached: what the caller says, else the lake's `fleet.toml`, else the environment.

[spark]
remote = "sc://cluster.example:15002"   # Spark Connect; or master = "local[2]", "spark://…", "yarn"
lake = "s3a://bucket/lake"              # the lake as Spark names it, where that differs
[spark.conf]                            # for a session that is made here; an existing one is used as it is
"spark.executor.memory" = "8g"
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from eol.errors import EngineError
from eol.fleet.place import Place

SETTINGS = "fleet.toml"
LOCAL_MASTER = "local[*]"
_KEYS = ("remote", "master", "lake", "conf")


@dataclass(frozen=True, slots=True)
class SparkSettings:
    """How Spark is reached.

    Args:
        remote: address of a Spark Connect server, `sc://…`; goes before a master.
        master: a master, such as `local[2]` or `spark://…`; both empty: as the environment says.
        lake: the lake as Spark names it; empty: as pyarrow does.
        conf: settings of a session that is made here.
    """

    remote: str = ""
    master: str = ""
    lake: str = ""
    conf: Mapping[str, str] = field(default_factory=dict)


def spark_settings(place: Place, said: SparkSettings | None) -> SparkSettings:
    """Return how Spark is reached for a lake.

    Args:
        place: the lake; its `fleet.toml` is read where it has one.
        said: what the caller said; a value that is empty there comes from the file, else from SPARK_REMOTE.

    Raises:
        EngineError: `fleet.toml` cannot be read, or has a key that is not known.
    """
    told = said or SparkSettings()
    filed = _from_file(place)
    merged = replace(
        told,
        remote=told.remote or ("" if told.master else filed.remote),
        master=told.master or ("" if told.remote else filed.master),
        lake=told.lake or filed.lake,
        conf={**filed.conf, **told.conf},
    )
    if merged.remote or merged.master:
        return merged
    remote = os.environ.get("SPARK_REMOTE", "")
    return replace(merged, remote=remote, master="" if remote else LOCAL_MASTER)


def _from_file(place: Place) -> SparkSettings:
    text = place.read_text(SETTINGS)
    if text is None:
        return SparkSettings()
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _wrong(place, str(error)) from error
    spark: dict[str, Any] = found.get("spark", {})
    unknown = [*(set(found) - {"spark"}), *(set(spark) - set(_KEYS))]
    if unknown:
        raise _wrong(place, f"'{sorted(unknown)[0]}' is no key of it")
    conf = {str(key): str(value) for key, value in spark.pop("conf", {}).items()}
    return SparkSettings(conf=conf, **{key: str(value) for key, value in spark.items()})


def _wrong(place: Place, what: str) -> EngineError:
    return EngineError(
        f"{SETTINGS} cannot be used: {what}",
        where=f"{place.name}/{SETTINGS}",
        hint=f"Known: [spark] with {', '.join(_KEYS)}.",
    )
