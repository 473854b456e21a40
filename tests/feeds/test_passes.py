"""The two passes of the hour that comes twice (rule 3)."""

from __future__ import annotations

from feed_rows import VIN, parsed, utc

ORDERED = "[feed.water]\nordered = true\n"


def starts(lines: list[str], more: str = ORDERED) -> list[str]:
    """When runs that were sent without offset began, as minutes of the night in UTC."""
    text = "vin,station,started_at,result\n" + "\n".join(
        f"{VIN},W1,2026-10-25 {at},pass" for at in lines
    )
    runs = parsed("water", text, more).tables["run"]
    return runs["started_at"].dt.to_string("%H:%M").to_list()


def test_second_pass_begins_where_time_runs_backwards() -> None:
    """02:50 then 02:10 are 00:50 and 01:10 UTC (CASES 2)."""
    assert starts(["02:50", "02:10"]) == ["00:50", "01:10"]


def test_all_later_rows_are_of_the_second_pass() -> None:
    """Once in the second pass, a file stays there."""
    assert starts(["01:59", "02:10", "02:50", "02:05", "02:40", "03:00"]) == [
        "23:59",
        "00:10",
        "00:50",
        "01:05",
        "01:40",
        "02:00",
    ]


def test_equal_times_do_not_run_backwards() -> None:
    """Several rows of one run have one time."""
    assert sorted(starts(["02:10", "02:10", "02:50"])) == ["00:10", "00:50"]


def test_without_order_the_first_pass_is_taken() -> None:
    """A feed without order keeps the first pass, and a note says so."""
    text = f"vin,station,started_at,result\n{VIN},W1,2026-10-25 02:50,pass\n{VIN},W1,2026-10-25 02:10,pass"
    batch = parsed("water", text)
    assert batch.tables["run"]["started_at"].to_list() == [
        utc("2026-10-25T00:50:00"),
        utc("2026-10-25T00:10:00"),
    ]
    assert batch.notes == (
        "started_at: 2 times of the hour that came twice on 2026-10-25 in Europe/Berlin "
        "taken as its first pass",
    )


def test_offsets_need_no_choice() -> None:
    """A time with its offset is what it says."""
    assert starts(["02:50+01:00", "02:10+02:00"]) == ["01:50", "00:10"]


def times(start: str, end: str) -> tuple[str, str]:
    """Start and end of one run of an unordered feed, in UTC."""
    text = (
        f"vin,station,started_at,ended_at,result\n{VIN},W1,2026-10-25 {start},2026-10-25 {end},pass"
    )
    run = parsed("water", text).tables["run"]
    started, ended = (run[name].dt.to_string("%H:%M")[0] for name in ("started_at", "ended_at"))
    return started, ended


def test_run_over_the_change_ends_after_it_starts() -> None:
    """02:58 to 02:02 runs from the first pass into the second."""
    assert times("02:58", "02:02") == ("00:58", "01:02")


def test_run_that_ends_after_the_hour_began_in_its_second_pass() -> None:
    """02:58 to 03:02 lasted four minutes, not an hour and four."""
    assert times("02:58", "03:02") == ("01:58", "02:02")


def test_run_that_began_before_the_hour_ends_in_its_first_pass() -> None:
    """01:58 to 02:02 lasted four minutes."""
    assert times("01:58", "02:02") == ("23:58", "00:02")


def test_order_is_that_of_the_ends_where_runs_have_ends() -> None:
    """Runs of two bays start in any order but end in that of the file."""
    lines = "\n".join(
        f"{VIN},W1,{bay},2026-10-25 {start},2026-10-25 {end},pass"
        for bay, start, end in (
            ("A", "02:40", "02:44"),
            ("B", "02:38", "02:46"),
            ("A", "02:01", "02:05"),
        )
    )
    runs = parsed("water", "vin,station,bay,started_at,ended_at,result\n" + lines, ORDERED).tables[
        "run"
    ]
    assert runs["started_at"].dt.to_string("%H:%M").to_list() == ["00:40", "00:38", "01:01"]
