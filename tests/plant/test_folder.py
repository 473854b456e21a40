"""The plant folder: its places, and a new one."""

from datetime import date
from pathlib import Path

import pytest

from eol.errors import PlantFileError, UsageError
from eol.plant.folder import TEMPLATE, PlantFolder, init_folder, open_folder
from eol.plant.persons import read_pseudonym_key
from eol.plant.settings import parse_settings, read_settings

START = date(2026, 9, 8)


def made(root: Path) -> PlantFolder:
    """A new plant folder."""
    return init_folder(root, name="Quillbrook", starts_on=START)


def test_a_new_folder_holds_what_it_should(tmp_path: Path) -> None:
    """plant.toml, the folders and the key are there; the store comes with the first load."""
    folder = made(tmp_path / "plant")
    names = sorted(path.name for path in folder.root.iterdir())
    assert names == ["inbox", "plant.toml", "pseudonym.key", "read", "reports"]
    assert folder.taken.is_dir()


def test_a_new_plant_toml_says_what_was_given(tmp_path: Path) -> None:
    """Name, first day and time zone are filled in, and the file is right as it stands."""
    name = 'Werk "Süd" \\ 1'
    folder = init_folder(tmp_path, name=name, starts_on=START, timezone="Asia/Tokyo")
    plant = read_settings(folder.toml).plant
    assert (plant.name, plant.starts_on, plant.timezone) == (name, START, "Asia/Tokyo")


def test_the_key_is_its_owner_s_alone(tmp_path: Path) -> None:
    """Nobody but the owner may read the key, and no two plants have the same (rule 18)."""
    one, other = made(tmp_path / "a"), made(tmp_path / "b")
    assert one.pseudonym_key.stat().st_mode & 0o777 == 0o600
    assert read_pseudonym_key(one.pseudonym_key) != read_pseudonym_key(other.pseudonym_key)


def test_a_plant_toml_is_never_written_over(tmp_path: Path) -> None:
    """A second call is refused and changes nothing."""
    folder = made(tmp_path)
    folder.toml.write_text("# mine")
    with pytest.raises(PlantFileError, match=r"there is a plant\.toml here already"):
        made(tmp_path)
    assert folder.toml.read_text() == "# mine"


def test_a_key_that_is_there_stays(tmp_path: Path) -> None:
    """An interrupted call can be made again without parting old and new pseudonyms."""
    folder = made(tmp_path)
    before = folder.pseudonym_key.read_bytes()
    folder.toml.unlink()
    assert made(tmp_path).pseudonym_key.read_bytes() == before


def test_blanks_and_umlauts_in_the_path_do_no_harm(tmp_path: Path) -> None:
    """A folder may be called as people call folders."""
    folder = made(tmp_path / "Prüf Feld" / "Größe 1")
    assert open_folder(str(folder.root)) == folder
    assert read_settings(folder.toml).plant.name == "Quillbrook"


def test_a_folder_without_plant_toml_is_refused(tmp_path: Path) -> None:
    """The message names the folder and the command that makes one."""
    with pytest.raises(PlantFileError, match=r"there is no plant\.toml here") as caught:
        open_folder(tmp_path)
    assert str(tmp_path) in caught.value.where
    assert "eol init" in caught.value.hint


def test_the_root_is_absolute(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder named from here stays the same when the program goes elsewhere."""
    made(tmp_path / "plant")
    monkeypatch.chdir(tmp_path)
    assert open_folder("plant").root == tmp_path / "plant"


def test_a_place_that_is_a_file_is_told(tmp_path: Path) -> None:
    """A folder that cannot be made is a message, not a crash."""
    (tmp_path / "plant").write_text("")
    with pytest.raises(PlantFileError, match="the plant folder cannot be made"):
        made(tmp_path / "plant")


@pytest.mark.parametrize(
    ("name", "zone", "words"),
    [
        (" ", "UTC", "name: the plant's name must be one line"),
        ("a\nb", "UTC", "one line of text"),
        ("Quillbrook", "Europe/Berln", "nearest right one is Europe/Berlin"),
    ],
)
def test_a_wrong_name_or_zone_writes_nothing(
    tmp_path: Path, name: str, zone: str, words: str
) -> None:
    """What cannot be used is refused before anything is made."""
    with pytest.raises(UsageError, match=words):
        init_folder(tmp_path / "plant", name=name, starts_on=START, timezone=zone)
    assert not (tmp_path / "plant").exists()


def test_places_of_the_folder() -> None:
    """The places that other parts rely on."""
    folder = PlantFolder(Path("/p"))
    places = (folder.store, folder.read_copy, folder.taken, folder.reports, folder.lock)
    names = [place.relative_to("/p").as_posix() for place in places]
    assert names == ["plant.duckdb", "read/plant.duckdb", "inbox/taken", "reports", "plant.lock"]


def test_the_template_is_right_and_names_the_usual_plant() -> None:
    """A new plant has three shifts round the clock and three tests, water with its conditions."""
    settings = parse_settings(TEMPLATE.read_text(encoding="utf-8"))
    assert [shift.name for shift in settings.shifts] == ["early", "late", "night"]
    assert list(settings.tests) == ["electrical", "water", "squeak_rattle"]
    names = [row.name for row in settings.tests["water"].condition]
    assert names == ["pressure_kpa", "duration_s"]


def test_the_template_is_right_with_its_examples_taken_in() -> None:
    """Each example that is commented out is right too, so that it can be used as it stands."""
    lines = TEMPLATE.read_text(encoding="utf-8").splitlines()
    text = "\n".join(line.removeprefix("# ") if _is_example(line) else line for line in lines)
    settings = parse_settings(text)
    assert settings.feeds["water"].join == {"started_at": ("DATE", "TIME")}
    assert (settings.mail.host, settings.references[0].zone) == ("relay.example", "RR-QTR")


def _is_example(line: str) -> bool:
    """A remark that is TOML: it opens a table or sets a key."""
    text = line.removeprefix("# ")
    return line.startswith("# ") and (
        text.startswith("[") or text.partition(" = ")[0].isidentifier()
    )
