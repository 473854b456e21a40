"""plant.toml read and checked whole."""

import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from pydantic import ValidationError

from eol.errors import PlantFileError
from eol.plant.folder import TEMPLATE
from eol.plant.settings import Settings, parse_settings, read_settings

FaultsOf = Callable[[str], list[str]]
SettingsOf = Callable[[str], Settings]
PLANT = '[plant]\nname = "Quillbrook"\ntimezone = "Europe/Berlin"\nstarts_on = 2026-01-01\n'
REST = '[[shift]]\nname = "day"\nstarts = "06:00"\nends = "14:30"\n[test.water]\n'


def test_all_faults_are_told_at_once(faults_of: FaultsOf) -> None:
    """Faults of single values do not hide those between values of other sections."""
    text = (
        PLANT.replace("Berlin", "Berln")
        + "[test.water]\nlenght = 1\n[[test.wind.condition]]\nname = 'p'\nlower = 2\nupper = 1\n"
        + "[[station]]\nname = 'W1'\ntest = 'watr'\n[inbox]\ntaken = 1\n[alarm]\ncount = 99\n"
    )
    assert [fault.split(" ")[0].rstrip(":") for fault in faults_of(text)] == [
        "plant.timezone",
        "test.water.lenght",
        "inbox.taken",
        "test.wind.condition[0].lower",
        "station[0].test",
        "alarm.count",
    ]


def test_a_faulty_test_is_still_a_declared_one(faults_of: FaultsOf) -> None:
    """A slip in a test's table does not make its station's test unknown."""
    text = "[test.water]\nlenght = 1\n[[station]]\nname = 'W1'\ntest = 'water'\n[feed.water]\n"
    assert len(faults_of(text)) == 1


def test_several_faults_are_counted() -> None:
    """The message opens with the number of faults and closes with what to do."""
    with pytest.raises(PlantFileError) as caught:
        parse_settings(PLANT + REST + "[inbox]\na = 1\nb = 2\n", where="/q/plant.toml")
    first, *faults, last = str(caught.value).splitlines()
    assert first == "/q/plant.toml: 2 things are wrong"
    assert len(faults) == 2
    assert last.strip().startswith("Mend plant.toml")
    assert caught.value.exit_code == 2


def test_no_toml_names_line_and_column() -> None:
    """A slip in the syntax is told by its place."""
    with pytest.raises(PlantFileError, match="this is no TOML") as caught:
        parse_settings(PLANT + "\n[[shift]\n", where="plant.toml")
    assert caught.value.where == "plant.toml, line 6, column 8"


def test_no_toml_at_the_end_names_the_last_line() -> None:
    """A file cut off in the middle is told by its last line."""
    with pytest.raises(PlantFileError) as caught:
        parse_settings('[plant]\nname = """Quill', where="plant.toml")
    assert caught.value.where.startswith("plant.toml, line 2")


def test_a_byte_order_mark_and_windows_lines_are_fine(tmp_path: Path) -> None:
    """Editors that write a mark and CR LF do no harm, nor do umlauts."""
    path = tmp_path / "plant.toml"
    text = (PLANT + REST).replace("Quillbrook", "Werk Süd")
    path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert read_settings(path).plant.name == "Werk Süd"


def test_another_encoding_names_its_line(tmp_path: Path) -> None:
    """A file that is not UTF-8 is told by the line of the first such byte."""
    path = tmp_path / "plant.toml"
    path.write_bytes((PLANT + REST + "\n# Süd").encode("cp1252"))
    with pytest.raises(PlantFileError, match="the file is not in UTF-8") as caught:
        read_settings(path)
    assert caught.value.where == f"{path}, line 11"


def test_a_missing_file_names_the_command_that_makes_one(tmp_path: Path) -> None:
    """The message says what to do next."""
    with pytest.raises(PlantFileError, match="eol init"):
        read_settings(tmp_path / "plant.toml")


def test_a_folder_in_its_place_is_told(tmp_path: Path) -> None:
    """What cannot be read is a message, not a crash."""
    with pytest.raises(PlantFileError, match="the file cannot be read"):
        read_settings(tmp_path)


def test_an_empty_file_misses_its_sections() -> None:
    """A plant has a name, shifts and tests."""
    with pytest.raises(PlantFileError) as caught:
        parse_settings("")
    lines = caught.value.what.splitlines()[1:]
    assert [line.strip() for line in lines] == [
        "plant: is missing",
        "shift: is missing",
        "test: is missing",
    ]


def test_what_is_not_written_has_its_usual_value(settings_of: SettingsOf) -> None:
    """A short plant.toml is a whole one."""
    settings = settings_of("")
    assert settings.plant.demerits == {"A": 100, "B": 50, "C": 10, "D": 1}
    assert settings.plant.proof_at == ("signed_off", "ship")
    assert (settings.schedule.grace, settings.report.usual_shifts) == (1800, 60)
    assert (settings.mail.host, settings.mail.starttls) == (None, True)


def test_weights_that_are_not_written_stay(settings_of: SettingsOf) -> None:
    """A plant that sets one weight keeps the others."""
    settings = settings_of(PLANT + "demerits = { A = 200 }\n")
    assert settings.plant.demerits == {"A": 200, "B": 50, "C": 10, "D": 1}


def test_settings_cannot_be_changed(settings_of: SettingsOf) -> None:
    """What was checked stays as it was checked."""
    with pytest.raises(ValidationError, match="frozen"):
        settings_of("").plant.starts_on = date(2030, 1, 1)


def test_constants_and_words_may_be_numbers(settings_of: SettingsOf) -> None:
    """Files are text, so a number, truth or date stands for how it is written."""
    text = (
        "[feed.water.constants]\nrevision = 1\nbay = 'A'\n[feed.zones.values.hv_near]\nja = true\n"
    )
    feeds = settings_of(text).feeds
    assert feeds["water"].constants == {"revision": "1", "bay": "A"}
    assert feeds["zones"].values == {"hv_near": {"ja": "true"}}


def test_reading_settings_brings_in_no_heavy_library() -> None:
    """Every command reads plant.toml, so reading it must not import frames, stores or charts."""
    code = (
        "import sys, eol.plant.settings, eol.plant.calendar, eol.plant.folder;"
        "print(sorted({'polars', 'duckdb', 'altair', 'numpy'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_template_is_read_from_its_file() -> None:
    """The file of a new plant is itself a right plant.toml."""
    assert read_settings(TEMPLATE).plant.name == "Quillbrook"
