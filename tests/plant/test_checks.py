"""Values that are wrong beside another value."""

from collections.abc import Callable

import pytest

from eol.plant.checks import RUN_COLUMNS, feed_names
from eol.plant.settings import Settings
from eol.sqlfiles import sql_file

FaultsOf = Callable[[str], list[str]]
SettingsOf = Callable[[str], Settings]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (
            "[[test.water.condition]]\nname='p'\nlower=300\nupper=280",
            "test.water.condition[0].lower = 300.0: must not be above upper, which is 280",
        ),
        (
            "[[test.water.condition]]\nname='result'",
            'condition[0].name = "result": is a column of every test',
        ),
        (
            "[[test.water.condition]]\nname='p'\n[[test.water.condition]]\nname='p'\nvalid_from=2026-01-01",
            "test.water.condition[1].valid_from = 2026-01-01: there are two rows of p",
        ),
        (
            "[[test.water.plan]]\nvalid_from=2026-02-01\n[[test.water.plan]]\nvalid_from=2026-02-01",
            "test.water.plan[1].valid_from = 2026-02-01: there are two rows",
        ),
        ("[test.water]\nsteps=['a','b','a']", 'test.water.steps[2] = "a": is there twice'),
        ("[test.units]", "test.units: units is the name of a feed; give the test another name"),
        ("[test.water]\n[test.water_readings]", "water_readings is the name of a feed"),
        ("[test.'Water Test']", "is made of small letters, digits and _"),
        (
            "[[station]]\nname='W1'\ntest='watr'",
            'station[0].test = "watr": no such test is declared; the nearest right one is water',
        ),
        (
            "[[reference]]\nvin='v'\ncode='c'\ntest='rain'",
            "no such test is declared; tests are water",
        ),
        (
            "[[disturbs]]\naction='a'\ntests=['water','wate']",
            'disturbs[0].tests[1] = "wate": no such',
        ),
        (
            "[[disturbs]]\ntests=['water']",
            "disturbs[0]: must have just one of action, code and owner_area",
        ),
        (
            "[[disturbs]]\naction='a'\ncode='c'\ntests=['water']",
            'disturbs[0] = "action, code": must',
        ),
        (
            "[[station]]\nname='W1'\ntest='water'\nbays=['A']\nbay_alias={ 1 = 'B' }",
            'station[0].bay_alias.1 = "B": no such bay; bays are A',
        ),
        (
            "[[station]]\nname='W1'\ntest='water'\nbay_alias={ 1 = 'B' }",
            "no such bay; there are no bays",
        ),
        (
            "[[station]]\nname='W1'\ntest='water'\nbays=['A','B']\nbay_alias={ A = 'B' }",
            "A is itself a bay of W1",
        ),
        (
            "[[station]]\nname='W1'\ntest='water'\nbays=['A','A']",
            'station[0].bays[1] = "A": is there',
        ),
        ("[feed.watr]", "feed.watr: is no feed of this plant; the nearest right one is water"),
        ("[feed.water]\ndecimal=','\ndelimiter=','", "cannot also be the decimal sign"),
        ("[feed.water]\nfiles='a*'\n[feed.units]\nfiles='a*'", "feed.water has the same files"),
        (
            "[report]\ntarget={ dphuu = 6 }",
            "report.target.dphuu: no figure with a target; the nearest right one is dphu",
        ),
        ("[mail]\nhost='relay.example'", "mail.sender: is missing; a relay (host) needs it"),
        ("[alarm]\ncount=30", "alarm.count = 30: must not be above within_units, which is 20"),
    ],
)
def test_what_does_not_go_together_is_told(faults_of: FaultsOf, text: str, fault: str) -> None:
    """Key, value and what is right."""
    assert fault in faults_of(text)[0]


def test_a_station_comes_once_a_test(faults_of: FaultsOf) -> None:
    """Two rows of one station would make its bays twice."""
    station = "[[station]]\nname='W1'\ntest='water'\n"
    assert faults_of(station * 2) == ['station[1].name = "W1": is there twice for the test water']


def offset(since: str, until: str = "") -> str:
    """One [[clock_offset]] of E1."""
    end = f"valid_to={until}\n" if until else ""
    return f"[[clock_offset]]\nstation='E1'\nvalid_from={since}\n{end}seconds=60\n"


def test_an_offset_ends_after_it_starts(faults_of: FaultsOf) -> None:
    """A span that ends before it starts holds nothing."""
    (fault,) = faults_of(offset("2026-09-05", "2026-09-03"))
    assert fault == "clock_offset[0].valid_to = 2026-09-03T00:00:00: must be after valid_from"


def test_one_clock_has_one_offset(faults_of: FaultsOf, settings_of: SettingsOf) -> None:
    """Spans of one station may touch but not overlap, in whatever order and zone they are told."""
    later, earlier = offset("2026-09-05"), offset("2026-09-03T00:00:00+02:00", "2026-09-05")
    assert len(settings_of(later + earlier).clock_offsets) == 2
    (fault,) = faults_of(offset("2026-09-04") + earlier)
    assert fault.startswith("clock_offset[0].valid_from")
    assert "station E1 already has an offset then" in fault


def test_a_clock_still_wrong_has_no_second_offset(faults_of: FaultsOf) -> None:
    """An offset without an end holds for ever."""
    (fault,) = faults_of(offset("2026-09-03") + offset("2026-10-01"))
    assert fault.startswith("clock_offset[1].valid_from")


def test_every_test_has_three_feeds() -> None:
    """A test's feed, its findings and its readings, beside the fixed ones."""
    names = feed_names(["water"])
    assert names[:3] == ("water", "water_findings", "water_readings")
    assert {"units", "shifts", "corrections"} <= set(names)


def test_the_columns_kept_from_conditions_are_the_store_s() -> None:
    """Every column kept from conditions is one of a run or a finding."""
    text = sql_file("schema", "run").text + sql_file("schema", "finding").text
    assert [column for column in RUN_COLUMNS if column not in text] == []
