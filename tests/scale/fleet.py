"""Three plants of a year in one lake: publishing, then views over all of them on each engine.

python tests/scale/fleet.py [DAYS] [ENGINE …]      engines: duckdb sail spark, all where none is named
"""

from __future__ import annotations

import json
import os
import shutil
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

from made_plant import PLANT, write_plant
from measured import measure

from eol.fleet.ask import Fleet
from eol.fleet.asked import Asked
from eol.fleet.closure import fleet_file
from eol.fleet.lake import read_lake
from eol.fleet.on_duckdb import duckdb_engine
from eol.fleet.on_spark import spark_engine
from eol.fleet.place import open_place
from eol.fleet.publish import publish_lake
from eol.fleet.settings import SparkSettings
from eol.plant.folder import PlantFolder, init_folder

os.environ.setdefault("RUST_LOG", "error")
FIRST = date(2025, 1, 1)
VIEWS = ("ftt_by_shift", "dphu_by_shift", "line_by_shift", "pareto_by_shift", "tests_of_plants")
ENGINES = ("duckdb", "sail", "spark")
CONF = {"spark.driver.memory": "6g", "spark.log.level": "ERROR"}
"""Of Spark on this machine, `local[2]`."""


def main(days: int, engines: tuple[str, ...]) -> None:
    """Make the lake and print a table for each engine."""
    place = Path(tempfile.mkdtemp(prefix="eol-fleet-"))
    try:
        runs = make_lake(place, days)
        for engine in engines:
            asked = measure(__file__, "--engine", engine, place / "lake")
            told = json.loads(asked.said.splitlines()[-1])
            peak = asked.peak + told["children"]
            print(
                f"\n{engine}: opened in {told['opened']:.1f} s, {told['cores']} cores, {peak:.0f} MB"
            )
            for view, (rows, seconds) in told["views"].items():
                rate = 3 * runs / seconds
                print(
                    f"  {view:18} {rows:8} rows {seconds:8.1f} s  {rate / 1e3:8.0f} k runs/s"
                    f"  {rate / 1e3 / told['cores']:8.0f} k a core"
                )
    finally:
        shutil.rmtree(place)


def make_lake(place: Path, days: int) -> int:
    """Load one made-up plant, publish it under three names, and say how long that took; return its runs."""
    paths = write_plant(place / "files", FIRST, days)
    plant = init_folder(place / "plant", name="Quillbrook", starts_on=FIRST)
    plant.toml.write_text(PLANT.format(first=FIRST), encoding="utf-8")
    loaded = measure("-m", "eol", "--plant", plant.root, "ingest", *paths)
    print(f"{days} days a plant, loaded in {loaded.wall:.0f} s")
    runs = 0
    for number in range(3):
        folder = named(plant, place / f"P{number}", number)
        begin = time.perf_counter()
        publish_lake(folder, place / "lake", plant=f"P{number}")
        first = time.perf_counter() - begin
        begin = time.perf_counter()
        publish_lake(folder, place / "lake", plant=f"P{number}")
        again = time.perf_counter() - begin
        parts = read_lake(open_place(place / "lake"), [f"P{number}"]).plants[0].manifest.parts
        runs = sum(part.rows for part in parts if part.table == "run")
        rows = sum(part.rows for part in parts)
        print(
            f"P{number}: {rows} rows, {runs} runs, published in {first:.1f} s, again in {again:.1f} s"
        )
    sizes = {
        table.name: sum(file.stat().st_size for file in table.rglob("*.parquet"))
        for table in sorted((place / "lake").iterdir())
    }
    large = ", ".join(f"{name} {size / 1e6:.1f}" for name, size in sizes.items() if size > 1e6)
    print(f"lake: {sum(sizes.values()) / 1e6:.0f} MB (MB by table: {large})")
    return runs


def named(plant: PlantFolder, root: Path, number: int) -> PlantFolder:
    """The same plant in a folder of its own, with a key of its own."""
    folder = PlantFolder(root)
    folder.read_folder.mkdir(parents=True)
    os.link(plant.read_copy, folder.read_copy)
    folder.pseudonym_key.write_text(f"{number:064d}", encoding="ascii")
    return folder


def ask(engine: str, lake: str) -> None:
    """Ask the views of one engine, in a process of its own; print what they took as JSON."""
    begin = time.perf_counter()
    seen = read_lake(open_place(Fleet(lake).lake))
    server = sail_server() if engine == "sail" else None
    with opened(engine, seen, server) as running:
        told = {"opened": time.perf_counter() - begin, "cores": os.cpu_count(), "views": {}}
        for name in VIEWS:
            asked = Asked(fleet_file(name), values={"first_date": None, "last_date": None})
            begin = time.perf_counter()
            rows = running.rows(asked).height
            told["views"][name] = (rows, time.perf_counter() - begin)
            print(f"{engine} {name} {told['views'][name][1]:.1f} s", file=sys.stderr, flush=True)
        told["children"] = children_peak()
    print(json.dumps(told))


def children_peak() -> float:
    """Peak resident megabytes of the processes that this one started, a Java machine say."""
    children = Path(f"/proc/self/task/{os.getpid()}/children").read_text().split()
    texts = [Path(f"/proc/{child}/status").read_text() for child in children]
    return sum(int(text.split("VmHWM:")[1].split()[0]) for text in texts) / 1024


def sail_server():
    """Start the server that speaks Spark Connect; it lives as long as the value is held."""
    from pysail.spark import SparkConnectServer

    server = SparkConnectServer("127.0.0.1", 0)
    server.start(background=True)
    return server


def opened(engine: str, lake, server):
    """Open an engine over a lake."""
    if engine == "duckdb":
        return duckdb_engine(lake)
    if engine == "spark":
        return spark_engine(lake, SparkSettings(master="local[2]", conf=CONF))
    return spark_engine(lake, SparkSettings(remote=f"sc://127.0.0.1:{server.listening_address[1]}"))


if __name__ == "__main__":
    if sys.argv[1:2] == ["--engine"]:
        ask(*sys.argv[2:4])
    else:
        words = sys.argv[1:]
        count = int(words.pop(0)) if words and words[0].isdigit() else 365
        main(count, tuple(words) or ENGINES)
