"""The record as files: Parquet a week as a plant's systems send it, odd ones as CSV, plant.toml, truth."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import polars as pl

from eol.demo import catalogue_tables, dirt, tables
from eol.demo.catalogue import TESTS
from eol.demo.plan import DAY, HOUR, RECORD_ENDS, moment
from eol.demo.record import Record, make_record
from eol.demo.truth import SentFile, Truth, make_truth
from eol.demo.world import Run

SEED = 13
"""The one seed."""

DIRT_FOLDER = "dirt"
_PLANT_FILE = Path(__file__).with_name("plant.toml")
_LOCAL_ZONE = "Europe/Berlin"
_TIMES = ("started_at", "ended_at")
_WEEK = 7 * DAY
_MADE_AFTER = 5 * DAY + 3 * HOUR
"""A week's files are made on Saturday at 03:00."""


@dataclass(frozen=True, slots=True)
class Draft:
    """A file to be written: its name, its rows, and how its bytes are made of them."""

    name: str
    rows: pl.DataFrame
    write: Callable[[pl.DataFrame], bytes]
    story: str | None = None


def write_demo(folder: Path, *, seed: int = SEED) -> Truth:
    """Write the demo plant's files.

    Args:
        folder: where to; it is made where it is missing, files of the same names are replaced.
        seed: of every draw; the committed files come from the default.

    Returns:
        What is true of the record, as truth.json holds it.
    """
    return write_record(folder, make_record(seed), seed)


def write_record(folder: Path, record: Record, seed: int) -> Truth:
    """Write the files of a record that is made already; see `write_demo`."""
    (folder / DIRT_FOLDER).mkdir(parents=True, exist_ok=True)
    sent = [_write(folder, draft) for draft in _drafts(record)]
    (folder / "plant.toml").write_bytes(_PLANT_FILE.read_bytes())
    truth = make_truth(record, seed, sent)
    (folder / "truth.json").write_text(truth.as_json(), encoding="utf-8", newline="\n")
    return truth


def _write(folder: Path, draft: Draft) -> SentFile:
    content = draft.write(draft.rows)
    (folder / draft.name).write_bytes(content)
    digest = hashlib.sha256(content).hexdigest()
    return SentFile(draft.name, len(draft.rows), digest, draft.story)


def _drafts(record: Record) -> Iterator[Draft]:
    yield from _catalogues()
    yield from _fortnights(record)
    for test in TESTS:
        runs = [run for run in record.world.runs if run.test == test.name]
        for week in range(4):
            rows = tables.test_rows(test.name, _weeks_own(runs, week))
            yield Draft(_name(test.name, week), rows, _parquet)
    yield from _odd_files(record)


def _catalogues() -> Iterator[Draft]:
    before, later = "20260828_1200", "20260925_1200"
    yield Draft(f"defect_codes_{before}.parquet", catalogue_tables.code_rows(), _parquet)
    yield Draft(f"zones_{before}.parquet", catalogue_tables.zone_rows(), _parquet)
    yield Draft(f"shifts_{before}.parquet", catalogue_tables.shift_rows(), _parquet)
    yield Draft(f"lots_{later}.parquet", catalogue_tables.lot_rows(), _parquet)
    yield Draft(
        f"countermeasures_{later}.parquet", catalogue_tables.countermeasure_rows(), _parquet
    )


def _fortnights(record: Record) -> Iterator[Draft]:
    """Units, attributes, repairs and events come every other week; reference vehicles with the first."""
    world = record.world
    half = len(world.units) // 2
    units = (
        [*world.references, *world.units[:half], *world.trials],
        world.units[half:],
    )
    repairs = tables.repair_rows(sorted(world.repairs, key=lambda r: (r.started, r.vin)))
    ordered = sorted(world.events, key=lambda e: (e.at, e.vin, e.kind))
    events = tables.event_rows([event for event in ordered if event.at < RECORD_ENDS])
    middle = moment(_WEEK + _MADE_AFTER)
    for half_number, week in enumerate((1, 3)):
        first = half_number == 0
        entered, at = pl.col("entered_at") < middle, pl.col("at") < middle
        yield Draft(_name("units", week), tables.unit_rows(units[half_number]), _parquet)
        yield Draft(_name("attributes", week), tables.attribute_rows(units[half_number]), _parquet)
        yield Draft(_name("repairs", week), repairs.filter(entered == first), _parquet)
        yield Draft(_name("events", week), events.filter(at == first), _parquet)


def _odd_files(record: Record) -> Iterator[Draft]:
    runs = record.world.runs
    odd: tuple[tuple[str, str, Callable[[pl.DataFrame], bytes]], ...] = (
        (dirt.RENAMED, "header renamed", _renamed),
        (dirt.BY_HAND, "typed by hand: one unknown VIN, one with two signs swapped", _csv),
        (dirt.SENT_TWICE[0], "sent twice", _csv),
        (dirt.SENT_TWICE[1], "sent twice", _csv),
        (dirt.LATE, "bay C silent, sent a day late", _csv),
        (dirt.NUL_TAIL, "ends in NUL bytes", _with_nul_tail),
        (dirt.ONE_HOUR_ON, "exported again one hour on", _csv),
    )
    for name, story, write in odd:
        test = next(test.name for test in TESTS if name.startswith(test.name))
        brought = dirt.SENT_TWICE[0] if name == dirt.SENT_TWICE[1] else name
        own = [run for run in (*runs, *record.dirt.doubles) if run.sent_in == brought]
        yield Draft(f"{DIRT_FOLDER}/{name}", tables.test_rows(test, own), write, f"S9: {story}")


def _weeks_own(runs: Iterable[Run], week: int) -> list[Run]:
    starts, ends = week * _WEEK, (week + 1) * _WEEK
    return [run for run in runs if run.sent_in is None and starts <= run.ended < ends]


def _name(feed: str, week: int) -> str:
    made = moment(week * _WEEK + _MADE_AFTER + 2 * HOUR)
    return f"{feed}_{made:%Y%m%d_%H%M}.parquet"


def _parquet(rows: pl.DataFrame) -> bytes:
    buffer = BytesIO()
    rows.write_parquet(buffer, compression="zstd", compression_level=9)
    return buffer.getvalue()


def _csv(rows: pl.DataFrame) -> bytes:
    """As a bench writes it: local times without an offset."""
    local = pl.col(*_TIMES).dt.convert_time_zone(_LOCAL_ZONE).dt.strftime("%Y-%m-%d %H:%M:%S")
    return rows.with_columns(local).write_csv().encode()


def _renamed(rows: pl.DataFrame) -> bytes:
    return _csv(rows.rename(dirt.RENAMED_HEADER))


def _with_nul_tail(rows: pl.DataFrame) -> bytes:
    return _csv(rows) + b"\0" * dirt.NUL_BYTES
