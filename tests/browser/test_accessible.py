"""What axe-core finds on the pages: nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_core import violations
from made_up_shift import empty_shift, loud_shift, stress_shift

from eol.report.index import write_index
from eol.report.page import build_page

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("make", [loud_shift, empty_shift, stress_shift])
def test_page(make: object, tmp_path: Path) -> None:
    """Loud, empty or under stress: headings, names of links and figures, tables, contrasts, all of it."""
    assert violations(build_page(make()), tmp_path) == []  # type: ignore[operator]


def test_list_of_pages(tmp_path: Path) -> None:
    """The list of all pages is as plain."""
    (tmp_path / "2026-09-18_day.html").write_text(build_page(empty_shift()), encoding="utf-8")
    assert violations(write_index(tmp_path).read_text(encoding="utf-8"), tmp_path) == []


def test_it_would_find_something(tmp_path: Path) -> None:
    """The same look sees a picture without words and a link without a name."""
    broken = build_page(empty_shift()).replace(
        "</main>", '<img src="data:,"><a href="#top"></a></main>'
    )
    assert {line.split(":")[0] for line in violations(broken, tmp_path)} >= {
        "image-alt",
        "link-name",
    }
