from pathlib import Path

from eol.demo.plan import SHIFTS, moment, shift_at
from eol.demo.record import Record
from eol.plant.calendar import shift_windows
from eol.plant.settings import read_settings


def test_trial_vans_come_on_day_7(record: Record) -> None:
    """Six of them, run through all tests."""
    assert len(record.world.trials) == 6
    assert {unit.model for unit in record.world.trials} == {"VAN"}
    days = {shift.day for unit in record.world.trials if (shift := shift_at(unit.line_off or 0))}
    assert days == {7}


def test_plant_file_has_the_records_calendar(committed: Path) -> None:
    """The windows of plant.toml are those in which the record happened."""
    settings = read_settings(committed / "plant.toml")
    windows = shift_windows(settings, SHIFTS[0].production_date, SHIFTS[-1].production_date)
    told = {
        (window.production_date, window.shift): (window.starts_at, window.ends_at)
        for window in windows
    }
    for shift in SHIFTS:
        assert told[shift.production_date, shift.name] == (moment(shift.starts), moment(shift.ends))


def test_plant_file_names_the_reference_vehicles(record: Record, committed: Path) -> None:
    """Rule 13 needs their VIN, code and zone."""
    settings = read_settings(committed / "plant.toml")
    assert [row.vin for row in settings.references] == [
        unit.vin for unit in record.world.references
    ]


def test_plant_file_names_every_station_and_bay(record: Record, committed: Path) -> None:
    """All that ran is declared."""
    settings = read_settings(committed / "plant.toml")
    declared = {
        (row.test, row.name, bay) for row in settings.stations for bay in row.bays or (None,)
    }
    assert {(run.test, run.station, run.bay) for run in record.world.runs} == declared


def test_persons_are_off(committed: Path) -> None:
    """S6: figures about persons are off until a plant turns them on (rule 18)."""
    assert read_settings(committed / "plant.toml").persons.figures is False
