"""Makes a suspect list of a plant: computed on the published copy, kept in the store, written as files."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from datetime import UTC, datetime

import polars as pl

from eol.facts.contain import SuspectList, suspect_list
from eol.facts.contain_question import ContainQuestion
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.report.contain_files import ContainFiles, write_files
from eol.store.connect import open_copy
from eol.store.containments import UNIT_SCHEMA, Kept, keep_containment


@dataclass(frozen=True, slots=True)
class Containment:
    """A suspect list as it was kept, and the files that hold it."""

    found: SuspectList
    kept: Kept
    files: ContainFiles


def contain(
    folder: PlantFolder,
    question: ContainQuestion,
    *,
    made_by: str | None = None,
    now: datetime | None = None,
) -> Containment:
    """Tell how far a fault reaches; keep the list as a version, and write it as CSV, XLSX and a page.

    Args:
        folder: the plant folder.
        question: the fault, the confirmed units and what holds the others together.
        made_by: who asks; kept as a pseudonym (rule 18).
        now: the wall clock, UTC.

    Returns:
        The list, its version, and its files in the folder `reports`.

    Raises:
        UsageError: the question cannot be asked or answered.
        StoreError: nothing was loaded, or the store is in use for too long.
        ReportError: the files cannot be written.
    """
    with open_copy(folder) as copy:
        found = suspect_list(copy, question)
    key = read_pseudonym_key(folder.pseudonym_key) if made_by else b""
    units = [{name: getattr(unit, name) for name in UNIT_SCHEMA} for unit in found.units]
    kept = keep_containment(
        folder,
        containment_id=question.containment_id,
        question=question.as_json,
        edges=json.dumps(
            [asdict(edge) for edge in found.edges], ensure_ascii=False, sort_keys=True
        ),
        units=pl.DataFrame(units, schema=UNIT_SCHEMA),
        made_at=now or datetime.now(UTC),
        made_by=pseudonym(key, made_by),
    )
    return Containment(found, kept, write_files(found, kept, folder.reports))
