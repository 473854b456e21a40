"""Files of the reports folder, whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from eol.errors import ReportError
from eol.report.whole import write_whole


def test_text_and_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    """Text goes in as UTF-8 with its own line ends, and nothing else is left beside it."""
    write_whole(tmp_path / "new" / "a.html", "früh\n")
    write_whole(tmp_path / "new" / "a.pdf", b"%PDF")
    assert (tmp_path / "new" / "a.html").read_bytes() == b"fr\xc3\xbch\n"
    assert sorted(path.name for path in (tmp_path / "new").iterdir()) == ["a.html", "a.pdf"]


def test_folder_that_is_a_file(tmp_path: Path) -> None:
    """Where nothing can be written the error says where."""
    (tmp_path / "reports").write_text("", encoding="utf-8")
    with pytest.raises(ReportError, match="cannot be written"):
        write_whole(tmp_path / "reports" / "a.html", "")
