import json
from pathlib import Path

import polars as pl
import pytest
from polars.testing import assert_frame_equal

from eol.demo.truth import Truth
from eol.feeds.parse import parse_file
from eol.plant.settings import read_settings

PICTURE = "page.png"
"""A picture of the page for the README, made by a browser and not by the generator."""


def names(folder: Path) -> list[str]:
    """All files of a folder, by their path in it."""
    files = (path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    return sorted(name for name in files if name != PICTURE)


def test_rebuild_names_the_committed_files(rebuilt: tuple[Path, Truth], committed: Path) -> None:
    """A rebuild gives the committed files, none more and none less."""
    assert names(rebuilt[0]) == names(committed)


def test_rebuild_gives_the_committed_rows(rebuilt: tuple[Path, Truth], committed: Path) -> None:
    """Every Parquet file comes again row for row, in the same order and types."""
    for path in sorted(committed.glob("*.parquet")):
        assert_frame_equal(pl.read_parquet(rebuilt[0] / path.name), pl.read_parquet(path))


def test_rebuild_gives_the_committed_text(rebuilt: tuple[Path, Truth], committed: Path) -> None:
    """Odd files and plant.toml come again byte for byte; truth.json but for Parquet fingerprints."""
    folder = rebuilt[0]
    for name in names(committed):
        if name.endswith((".csv", ".toml")):
            assert (folder / name).read_bytes() == (committed / name).read_bytes()
    new, old = (
        json.loads((root / "truth.json").read_text("utf-8")) for root in (folder, committed)
    )
    for file in (*new["files"], *old["files"]):
        file.pop("sha256")
    assert new == old


def test_files_are_few_and_small(committed: Path) -> None:
    """Fewer than 40 files, less than 5 MB in all."""
    sizes = [path.stat().st_size for path in committed.rglob("*") if path.is_file()]
    assert len(sizes) < 40
    assert sum(sizes) < 5_000_000


def test_each_file_belongs_to_a_feed_and_loses_no_row(committed: Path, truth: Truth) -> None:
    """The tool's own reader takes every row of every file under the plant's own settings."""
    settings = read_settings(committed / "plant.toml")
    for file in truth.files:
        batch = parse_file(committed / file.path, settings)
        assert (batch.rows, batch.rejected.height) == (file.rows, 0), file.path
        assert Path(file.path).name.startswith(batch.feed)


def test_each_file_says_when_it_was_made(committed: Path, truth: Truth) -> None:
    """The order in which files win is told by their names, not by a disk's clock (rule 1)."""
    settings = read_settings(committed / "plant.toml")
    odd = [file.path for file in truth.files if file.path.startswith("dirt/")]
    for path in odd:
        made = parse_file(committed / path, settings).made_at.strftime("%Y%m%d")
        assert made in path


@pytest.mark.parametrize("column", ["started_at", "ended_at"])
def test_times_in_parquet_carry_their_zone(committed: Path, column: str) -> None:
    """Weekly files hold UTC."""
    schema = pl.read_parquet_schema(next(committed.glob("water_*.parquet")))
    assert schema[column] == pl.Datetime("us", "UTC")
