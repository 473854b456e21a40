"""Single values that are wrong, told by key, value and what is right."""

from collections.abc import Callable

import pytest

from eol.plant.faults import Fault, key_path

FaultsOf = Callable[[str], list[str]]
PLANT = '[plant]\nname="Q"\ntimezone="Europe/Berlin"\nstarts_on=2026-01-01\n'


def test_a_key_path_is_written_as_in_the_file() -> None:
    """Numbers of rows stand in brackets, keys with blanks in quotes."""
    assert key_path(("feed", "water", "rename", "A B")) == 'feed.water.rename."A B"'
    assert key_path(("shift", 0, "starts")) == "shift[0].starts"


def test_a_long_value_is_cut() -> None:
    """A fault stays readable whatever was written."""
    assert str(Fault(("plant", "name"), "is long", "x" * 500)).endswith("xxx…: is long")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (
            PLANT + 'timezon="UTC"',
            'plant.timezon = "UTC": unknown key; the nearest right one is timezone',
        ),
        ("[[stations]]\nname='W'", "the nearest right one is station"),
        (
            "[test.water]\nlenght=1",
            "test.water.lenght = 1: unknown key; the nearest right one is length",
        ),
        ("[[test.water.condition]]\nname='p'\nuper=1", "the nearest right one is upper"),
        ("[feed.water]\nfile='a'", "the nearest right one is files"),
        ("[alarm]\ntimezone='UTC'", "unknown key here; it belongs into [plant]"),
        ("[retention]\nzzz=1", "retention.zzz = 1: unknown key; known here are reading"),
    ],
)
def test_an_unknown_key_names_the_nearest(faults_of: FaultsOf, text: str, fault: str) -> None:
    """A key that is not known is told with the one that was meant."""
    assert fault in faults_of(text)[0]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("[inbox]\nsettle_seconds='30'", 'inbox.settle_seconds = "30": must be a whole number'),
        ("[inbox]\nsettle_seconds=-1", "inbox.settle_seconds = -1: must be 0 or more"),
        ("[inbox]\ntaken='mov'", 'must be one of "move", "leave"; the nearest right one is "move"'),
        ("[mail]\nport=99999", "mail.port = 99999: must be 65535 or less"),
        ("[mail]\nstarttls='no'", 'mail.starttls = "no": must be true or false, without quotes'),
        ("[mail]\nto=['a b@x']", 'mail.to[0] = "a b@x": must be one mail address'),
        ("[test.water]\nsteps='front'", 'test.water.steps = "front": must be a list in square'),
        ("[test.water]\nlength=nan", "test.water.length = nan: must be a finite number"),
        ("[test.water]\ndefect_when='rating << 6'", "has a stray <"),
        ("[[test.water.plan]]\napplies_when='roof'", "test.water.plan[0].applies_when = "),
        ("[[test.water.plan]]\nvalid_from='2026-01-01'", "must be a date without quotes"),
        ("[[test.water.condition]]\nlower=1", "test.water.condition[0].name: is missing"),
        ("[[report]]\npaper='A4'", "comes once; write its name in single brackets, […]"),
        ("[station]\nname='W'", "write its name in double brackets, [[…]]"),
        ("[[disturbs]]\naction='a'\ntests=[]", "disturbs[0].tests = []: must have at least 1"),
        ("[feed.water]\ndelimiter=';;'", 'feed.water.delimiter = ";;": must be one character'),
        ("[feed.water]\nencoding='utf-9000'", "is no encoding; write one such as utf-8 or cp1252"),
        ("[feed.water]\ntime_format='ISO'", 'must be a format such as "%d.%m.%Y %H:%M:%S"'),
        ("[feed.water]\nmade_at='WT_*.csv'", "must be a file name with one {made_at:…}"),
        ("[feed.water]\ntimezone='Berlin'", "the nearest right one is Europe/Berlin"),
        ("[feed.water.join]\nstarted_at=['DATE']", "must have at least 2"),
        ("[[shift]]\nname='d'\nstarts='6h'\nends='14:00'", 'must be a time of day such as "06:00"'),
        (
            "[[shift]]\nname='d'\nstarts=6\nends='14:00'",
            "shift[0].starts = 6: must be a time of day",
        ),
        ("[report]\nusual_shifts=5", "report.usual_shifts = 5: must be 12 or more"),
    ],
)
def test_a_wrong_value_says_what_is_right(faults_of: FaultsOf, text: str, fault: str) -> None:
    """Key, value and what is right, in the words of the file."""
    assert fault in faults_of(text)[0]


@pytest.mark.parametrize("key", ["password", "passwd", "user", "username", "smtp_password"])
def test_a_secret_inside_a_wrong_table_is_never_printed(faults_of: FaultsOf, key: str) -> None:
    """A table that is wrong as a whole is shown without the secrets in it."""
    (fault,) = faults_of(f"[[mail]]\n{key} = 'hunter2'")
    assert "(hidden)" in fault
    assert "hunter2" not in fault


@pytest.mark.parametrize("key", ["password", "passwd", "user", "username", "smtp_password"])
def test_a_secret_is_refused_and_never_printed(faults_of: FaultsOf, key: str) -> None:
    """User and password come from the environment; a message is read by others."""
    (fault,) = faults_of(f"[mail]\n{key} = 'hunter2'")
    assert "EOL_MAIL_USER and EOL_MAIL_PASSWORD" in fault
    assert "hunter2" not in fault


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("date_by='middle'", 'plant.date_by = "middle": must be one of "start", "end"'),
        ("proof_at=['shipped']", "'shipped' is no kind of event; the nearest right one is ship"),
        ("demerits={ E = 1 }", "'E' is no severity class; known are A, B, C, D"),
        ("demerits={ A = -1 }", "the weight of A must be 0 or more"),
        ("settle_hours=true", "plant.settle_hours = true: must be a number"),
    ],
)
def test_a_wrong_value_of_the_plant(faults_of: FaultsOf, text: str, fault: str) -> None:
    """The plant's own keys are held to what they can mean."""
    assert fault in faults_of(PLANT + text)[0]


def test_a_missing_section_is_told(faults_of: FaultsOf) -> None:
    """An empty [plant] misses its three keys, each told."""
    assert faults_of("[plant]") == [
        "plant.name: is missing",
        "plant.timezone: is missing",
        "plant.starts_on: is missing",
    ]
