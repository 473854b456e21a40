"""The dictionary of a plant's copy as one self-contained page: every table, view and column, and the rules."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

import jinja2

from eol.ask.dictionary import Dictionary, dictionary
from eol.ask.rules import counting_rules
from eol.errors import ReportError
from eol.plant.folder import PlantFolder

PAGE = "dictionary.html"
POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; "
    "base-uri 'none'; form-action 'none'"
)


def report_dictionary(folder: PlantFolder) -> Path:
    """Write `reports/dictionary.html` from the published copy.

    Raises:
        StoreError: nothing has been published yet.
        ReportError: the page cannot be written.
    """
    text = dictionary_page(dictionary(folder))
    path = folder.reports / PAGE
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside.write_text(text, encoding="utf-8", newline="\n")
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink()
        raise ReportError(
            f"the page cannot be written: {error.strerror}",
            where=str(path),
            hint="Make room or mend the folder's rights, then run the command again.",
        ) from error
    return path


def dictionary_page(words: Dictionary) -> str:
    """Return the dictionary as HTML: no script, no outside address; a link for each name and rule."""
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    groups = (
        ("Views", [r for r in words.relations if r.kind == "view" and "." not in r.name]),
        ("Tables", [r for r in words.relations if r.kind == "table" and "." not in r.name]),
        ("Views of the plant's own", [r for r in words.relations if r.name.startswith("mine.")]),
        ("Losing versions", [r for r in words.relations if r.name.startswith("superseded.")]),
    )
    return environment.get_template("dictionary.html").render(
        policy=POLICY,
        groups=[(title, relations) for title, relations in groups if relations],
        rules=list(counting_rules().values()),
    )
