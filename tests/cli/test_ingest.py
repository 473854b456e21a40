"""`eol ingest`: what it says of files, and its exit codes."""

from __future__ import annotations

from pathlib import Path

import builders as b
import plants
import pytest
from called import Eol

from eol.plant.folder import PlantFolder

HEAD = ["file", "feed", "state", "rows", "accepted", "repeated", "amended", "rejected"]


def stored(folder: PlantFolder) -> int:
    """How many rows the plant has taken in."""
    return sum(plants.count(folder, name) for name in ("unit", "run", "source_file"))


def test_table_of_files(eol: Eol, folder: PlantFolder) -> None:
    """A table of files on stdout, the sum in words on stderr, exit 0."""
    [path] = plants.write(folder, b.file("water", b.run("U1")))
    answer = eol("--plant", folder.root, "ingest", path)
    assert answer.code == 0
    head, _, row = answer.out.splitlines()
    assert head.split() == HEAD
    assert row.split() == [path.name, "water", "loaded", "1", "1", "0", "0", "0"]
    assert answer.err == "1 file, 1 unit stamped.\n"


def test_json(eol: Eol, folder: PlantFolder) -> None:
    """As JSON: every field of the result."""
    [path] = plants.write(folder, b.file("water", b.run("U1")))
    told = eol("--plant", folder.root, "ingest", path, "--json").json
    assert (told["units"], told["doubles"]) == (1, 0)
    [file] = told["files"]
    assert (file["path"], file["state"], file["accepted"]) == (str(path), "loaded", 1)


def test_refused_rows_are_told(eol: Eol, folder: PlantFolder) -> None:
    """Rows refused: exit 1, and each reason with how often."""
    rows = [b.run(f"U{n}")[0] | {"result": "perhaps"} for n in range(2)] + b.run("U3")
    answer = eol("--plant", folder.root, "ingest", *plants.write(folder, b.file("water", rows)))
    assert answer.code == 1
    assert "2 refused: result" in answer.err


BAD = {
    "wrong column": ("water_1.csv", b"vin,when\nU1,now\n", "column station is missing"),
    "empty file": ("water_1.csv", b"", "empty"),
    "no feed": ("letter.csv", b"to whom it may concern\n", "belongs to no feed"),
    "no Parquet": ("water_1.parquet", b"PAR1 and no more", "Parquet"),
    "unknown kind": ("water_1.docx", b"PK\x03\x04", "docx"),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_file(eol: Eol, folder: PlantFolder, tmp_path: Path, case: str) -> None:
    """A file that cannot be used: exit 3, its name, what is wrong and what to do; store unharmed."""
    name, content, said = BAD[case]
    (tmp_path / name).write_bytes(content)
    answer = eol("--plant", folder.root, "ingest", tmp_path / name)
    assert answer.code == 3
    assert said in answer.err
    what, hint = answer.err.split("eol: ")[1].split("\n  ")[:2]
    assert name in what
    assert hint
    assert stored(folder) == 0


def test_directory(eol: Eol, folder: PlantFolder) -> None:
    """A directory in place of a file: exit 3 and words."""
    answer = eol("--plant", folder.root, "ingest", folder.reports)
    assert answer.code == 3
    assert "reports" in answer.err
    assert stored(folder) == 0


def test_missing_file(eol: Eol, folder: PlantFolder) -> None:
    """A file that is not there: exit 3, and no other command is harmed."""
    answer = eol("--plant", folder.root, "ingest", folder.root / "water_none.csv")
    assert answer.code == 3
    assert "water_none.csv" in answer.err


def test_good_files_load_beside_bad_ones(eol: Eol, folder: PlantFolder) -> None:
    """The good files of a call are loaded, whatever the others are."""
    paths = plants.write(folder, b.file("water", b.run("U1")))
    assert eol("--plant", folder.root, "ingest", folder.reports, *paths).code == 3
    assert plants.column(folder, "run", "vin") == ["U1"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[plant\n", "plant.toml"),
        ("", "plant"),
        (
            '[plant]\nname = "Q"\ntimezone = "Europe/Berlin"\nstarts_on = 2026-01-01\nshfit = 1\n',
            "shfit",
        ),
        ('[plant]\nname = "Q"\ntimezone = "Europe/Berlin"\nstarts_on = "soon"\n', "starts_on"),
    ],
)
def test_broken_plant_file(eol: Eol, folder: PlantFolder, text: str, said: str) -> None:
    """A broken plant.toml: exit 2, the key, what to do; nothing is changed."""
    paths = plants.write(folder, b.file("water", b.run("U1")))
    folder.toml.write_text(text, encoding="utf-8")
    answer = eol("--plant", folder.root, "ingest", *paths)
    assert (answer.code, answer.out) == (2, "")
    assert said in answer.err
    assert stored(folder) == 0


def test_lost_key_of_pseudonyms(eol: Eol, folder: PlantFolder) -> None:
    """Without the key no file is read: a new one would part old and new pseudonyms (rule 18)."""
    folder.pseudonym_key.unlink()
    paths = plants.write(folder, b.file("water", b.run("U1")))
    answer = eol("--plant", folder.root, "ingest", *paths)
    assert answer.code == 2
    assert "pseudonym.key" in answer.err
    assert stored(folder) == 0


def test_past_is_rewritten_with_a_reason(eol: Eol, folder: PlantFolder) -> None:
    """A plant.toml that moves counted figures: exit 2 and how to go on; with a reason exit 0."""
    plants.load(folder, b.file("water", b.run("U1")))
    test = {"electrical": b.declared_test(), "water": b.declared_test(length=300)}
    plants.declare(folder, b.settings(test=test))
    answer = eol("--plant", folder.root, "ingest")
    assert answer.code == 2
    assert "--rewrite-history" in answer.err
    assert eol("--plant", folder.root, "ingest", "--rewrite-history", "longer").code == 0
    assert plants.column(folder, "history_rewrite", "reason") == ["longer"]


def test_damaged_store(eol: Eol, folder: PlantFolder) -> None:
    """A store that cannot be opened: exit 3, its path, and the copy can still be read."""
    folder.store.write_bytes(b"no database")
    answer = eol("--plant", folder.root, "ingest")
    assert answer.code == 3
    assert str(folder.store) in answer.err
    assert eol("--plant", folder.root, "sql", "FROM as_of").code == 0
