"""What axe-core finds on the list of pages, and on a page with all nine panels: nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe import violations
from made_up_shift import empty_shift

from eol.demo.build import DemoResult
from eol.report.index import write_index
from eol.report.page import build_page

pytestmark = pytest.mark.browser


def test_page_of_the_demo(demo_plant: DemoResult, tmp_path: Path) -> None:
    """Headings, names of links and figures, tables, contrasts: nothing against the whole page."""
    assert violations(demo_plant.page.read_text(encoding="utf-8"), tmp_path) == []


def test_list_of_pages(tmp_path: Path) -> None:
    """The list of all pages is as plain."""
    (tmp_path / "2026-09-18_day.html").write_text(build_page(empty_shift()), encoding="utf-8")
    assert violations(write_index(tmp_path).read_text(encoding="utf-8"), tmp_path) == []
