"""The words of `eol.words` are those of the schema's comments, the stamps and the documents."""

from __future__ import annotations

import re
from enum import StrEnum

import pytest
from source_tree import ROOT

from eol.sqlfiles import sql_file, sql_files
from eol.words import (
    CAUTION,
    EQUIPMENT,
    UNSPECIFIED,
    EventKind,
    Kind,
    Purpose,
    RepairClass,
    Result,
    Severity,
    VoidReason,
)

COLUMNS: dict[str, type[StrEnum]] = {
    "unit.kind": Kind,
    "unit_sent.kind": Kind,
    "run.result": Result,
    "run.purpose": Purpose,
    "run.void_reason": VoidReason,
    "repair.class": RepairClass,
    "event.kind": EventKind,
    "defect_code.severity": Severity,
    "demerit_weight.severity": Severity,
}
"""Columns whose comment lists what they may hold, and the words for it."""


def comments() -> dict[str, str]:
    """Return the comment of each column of the schema, by `table.column`."""
    text = "\n".join(file.text for file in sql_files("schema")).replace('"', "")
    found = re.findall(r"COMMENT ON COLUMN ([\w.]+) IS '((?:[^']|'')*)';", text)
    return dict(found)


@pytest.mark.parametrize("column", COLUMNS)
def test_comment_lists_the_words(column: str) -> None:
    """A column's comment lists its words, all of them and in their order."""
    values = [str(word) for word in COLUMNS[column]]
    listed = ", ".join(values)
    with_or = " or ".join([", ".join(values[:-1]), values[-1]])
    assert listed in comments()[column] or with_or in comments()[column]


def test_reasons_apply_in_order() -> None:
    """The stamp asks for the reasons of a void run in the order of the words (rule 4)."""
    asked = re.findall(r"THEN '(\w+)'", sql_file("stamp", "void").text)
    assert list(dict.fromkeys(asked)) == [str(reason) for reason in VoidReason]


def test_equipment_and_unspecified_are_the_stamps_words() -> None:
    """The owner area of bench faults and the code of a fail without a finding are spelled alike."""
    stamps = "\n".join(file.text for file in sql_files("stamp"))
    assert f"'{EQUIPMENT}'" in stamps
    assert f"'{UNSPECIFIED}'" in stamps


def test_severities_run_from_the_gravest() -> None:
    """Classes sort as they weigh."""
    assert list(Severity) == sorted(Severity)


def test_caution_promises_nothing() -> None:
    """The caution says that a missing record is no pass, and that the page releases no unit."""
    assert CAUTION.startswith("A missing record is not a pass. This page releases no unit")
    assert not re.search(r"\b(ok|safe|clean|good)\b", CAUTION, re.IGNORECASE)


def test_documents_print_the_caution() -> None:
    """The README shows the caution in the words of the page."""
    text = " ".join((ROOT / "README.md").read_text(encoding="utf-8").split())
    assert CAUTION in text
