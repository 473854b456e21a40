"""What stands behind a view is found by its names."""

from __future__ import annotations

import pytest

from eol.errors import UsageError
from eol.fleet.closure import behind, fleet_file, named_in
from eol.sqlfiles import sql_file


def test_views_and_tables_behind_a_view() -> None:
    """All views on the way and the tables at their ends, in order; the view itself is not behind itself."""
    need = behind(sql_file("views", "defect"))
    assert [view.name for view in need.views] == [
        "catalogue",
        "run_of_unit",
        "classed_finding",
        "defect_all",
    ]
    assert {"run", "finding", "zone", "defect_code", "demerit_weight"} <= set(need.tables)
    assert "reading" not in need.tables


def test_names_in_a_file_are_its_own() -> None:
    """Only what a file names itself, not what stands behind that; comments do not count."""
    assert named_in(sql_file("views", "station_latest")) == ("station_heard",)


def test_unknown_name_lists_what_there_is() -> None:
    """A name that is neither view nor question is told with the names there are."""
    with pytest.raises(UsageError, match="no view or question named 'nonsense'") as told:
        fleet_file("nonsense")
    assert "ftt_by_shift" in str(told.value)
