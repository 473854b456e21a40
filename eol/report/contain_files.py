"""Writes a suspect list as CSV, as an XLSX workbook and as a page to print; no cell is ever run."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jinja2
import polars as pl

from eol.errors import ReportError
from eol.facts.contain import SuspectList
from eol.facts.contain_edges import edge_words
from eol.report.page import POLICY
from eol.store.containments import Kept

CAUTION = (
    "From statistics and records; not a field-action decision;"
    " units outside this list are not thereby cleared."
)
"""Printed on every form of a suspect list."""

_RUN = ("=", "+", "-", "@", "\t", "\r")
_TEMPLATE = Path(__file__).parent / "templates"


@dataclass(frozen=True, slots=True)
class ContainFiles:
    """Where the forms of a version lie."""

    csv: Path
    xlsx: Path
    html: Path


def harmless(text: str | None) -> str | None:
    """Put an apostrophe before a text that a spreadsheet would run as a formula.

    Source: CWE-1236, improper neutralization of formula elements in a CSV file.

    Example:
        >>> harmless("=1+1"), harmless("repair: water")
        ("'=1+1", 'repair: water')
    """
    return f"'{text}" if text and text.startswith(_RUN) else text


def write_files(found: SuspectList, kept: Kept, folder: Path) -> ContainFiles:
    """Write the three forms of a version into a folder; a version's files are written again alike.

    Raises:
        ReportError: the folder cannot be written.
    """
    stem = f"contain_{kept.containment_id}_v{kept.version}"
    files = ContainFiles(*(folder / f"{stem}.{kind}" for kind in ("csv", "xlsx", "html")))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        rows = unit_rows(found)
        rows.with_columns(caution=pl.lit(CAUTION)).write_csv(files.csv)
        _write_workbook(rows, found, kept, files.xlsx)
        files.html.write_text(contain_page(found, kept), encoding="utf-8", newline="\n")
    except OSError as error:
        what = f"the list cannot be written: {error.strerror}"
        raise ReportError(what, where=str(folder), hint="Mend the folder and ask again.") from error
    return files


def unit_rows(found: SuspectList) -> pl.DataFrame:
    """Return one row a unit, its texts harmless to a spreadsheet."""
    rows = [
        {
            "vin": harmless(unit.vin),
            "build_seq": unit.build_seq,
            "evidence": unit.evidence,
            "place": harmless(unit.place),
            "residual_risk": unit.residual_risk,
            "handling": harmless(unit.handling),
        }
        for unit in found.units
    ]
    schema = {
        "vin": pl.String,
        "build_seq": pl.Int64,
        "evidence": pl.String,
        "place": pl.String,
        "residual_risk": pl.Float64,
        "handling": pl.String,
    }
    return pl.DataFrame(rows, schema=schema)


def contain_page(found: SuspectList, kept: Kept) -> str:
    """Return the list as one self-contained page: no script, no outside address."""
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(_TEMPLATE),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["risk"] = risk_words
    return environment.get_template("contain.html").render(**_context(found, kept))


def heading(found: SuspectList) -> str:
    """Return what the list is of."""
    question = found.question
    parts = [
        question.code or "any defect",
        found.title,
        f"at {question.zone}" if question.zone else None,
    ]
    if question.bay:
        parts.append(f"passed at {question.bay}")
    return "Suspect units: " + " ".join(part for part in parts if part)


def risk_words(risk: float | None) -> str:
    """Write a risk as a percentage with two figures; nothing where it is not told.

    Example:
        >>> risk_words(1.0), risk_words(0.109), risk_words(0.0093)
        ('100 %', '11 %', '0.93 %')
    """
    if risk is None:
        return ""
    return f"{100 * risk:.0f} %" if risk >= 0.1 else f"{100 * risk:.2g} %"


def lines_of(found: SuspectList, kept: Kept) -> list[tuple[str, str]]:
    """Return what stands above the units, as pairs of a name and words."""
    made = f"{kept.made_at:%Y-%m-%d %H:%M} UTC, version {kept.version}, {len(found.units)} units"
    lines = [
        ("list", f"{kept.containment_id}, {made}"),
        ("fingerprint", kept.sha256),
        ("asked", found.question.as_command),
        ("data", f"received up to {found.data_clock:%Y-%m-%d %H:%M}"),
    ]
    lines += [("edges", words) for edge in found.edges for words in edge_words(edge)]
    lines += [("evidence", f"{n} {name}{_risks(found, name)}") for name, n in found.by_evidence]
    lines += [("a pass", words) for words in found.sensitivity]
    if any(edge.risk_share is None for edge in found.edges):
        lines.append(("risk left", "not told: too few confirmed units to give a share"))
    if found.left_out:
        lines.append(("left out", f"{found.left_out} units that cannot have it by the catalogue"))
    if found.elsewhere:
        lines.append(("elsewhere", f"{found.elsewhere} units with it lie outside all edges"))
    return lines


def _risks(found: SuspectList, evidence: str) -> str:
    """Write the risks left of one class of evidence: `, risk left 0.44 % to 6.3 %`."""
    risks = [u.residual_risk for u in found.units if u.evidence == evidence]
    told = sorted({risk for risk in risks if risk is not None})
    if not told:
        return ""
    ends = list(dict.fromkeys([risk_words(told[0]), risk_words(told[-1])]))
    return f", risk left {' to '.join(ends)}"


def _context(found: SuspectList, kept: Kept) -> dict[str, Any]:
    return {
        "policy": POLICY,
        "title": heading(found),
        "caution": CAUTION,
        "handling": found.handling,
        "safety_related": found.safety_related,
        "lines": lines_of(found, kept),
        "units": found.units,
    }


def _write_workbook(rows: pl.DataFrame, found: SuspectList, kept: Kept, path: Path) -> None:
    import xlsxwriter

    options = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with xlsxwriter.Workbook(path, options) as workbook:
        told = [("caution", CAUTION), ("handling", found.handling or ""), *lines_of(found, kept)]
        head = pl.DataFrame(
            [(name, harmless(words)) for name, words in told],
            schema=["what", "words"],
            orient="row",
        )
        rows.write_excel(workbook, "units", autofit=True, column_formats={"residual_risk": "0.00%"})
        head.write_excel(workbook, "list", autofit=True)
