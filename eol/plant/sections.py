"""The sections of plant.toml as frozen models; a field is named as its key.

What one value can tell by itself is checked here, what needs two of them in checks.py.
"""

from __future__ import annotations

from datetime import date, time, tzinfo
from typing import Annotated, ClassVar, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints

from eol.plant.clauses import parse_applies_when, parse_defect_when
from eol.plant.clock import parse_days, time_zone
from eol.plant.values import (
    DEMERITS,
    Address,
    Constant,
    Many,
    Moment,
    NotNegative,
    Positive,
    Text,
    TimeOfDay,
    Zone,
    all_demerits,
    check_encoding,
    check_event_kind,
    check_file_name_time,
    check_time_format,
    readable,
)


class Section(BaseModel):
    """A table of plant.toml: frozen, without unknown keys, types as they are written."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False)


class PlantSettings(Section):
    """[plant]: the plant itself."""

    name: Text
    timezone: Zone
    starts_on: date
    date_by: Literal["start", "end"] = "start"
    vin_check_digit: bool = False
    proof_at: Many[Annotated[str, readable(check_event_kind)]] = ("signed_off", "ship")
    silence_limit: NotNegative = 86_400
    settle_hours: Annotated[float, Field(ge=0)] = 24
    demerits: Annotated[dict[str, float], AfterValidator(all_demerits)] = DEMERITS

    @property
    def zone(self) -> tzinfo:
        """The plant's time zone."""
        return time_zone(self.timezone)


class ShiftSettings(Section):
    """[[shift]]: a shift of the week, from a day on; days are those on which it starts."""

    name: Text
    starts: TimeOfDay
    ends: TimeOfDay
    days: Annotated[str, readable(parse_days)] = "all"
    crew: Text | None = None
    valid_from: date | None = None

    @property
    def over_midnight(self) -> bool:
        """True where it ends on the next day; one that ends at midnight does not cross it."""
        return time(0) < self.ends <= self.starts


class PlanSettings(Section):
    """[[test.NAME.plan]]: whether a test is required, from a day on (rule 4)."""

    valid_from: date | None = None
    required: Literal["every", "when_run"] = "every"
    applies_when: Annotated[str, readable(parse_applies_when)] = ""


class ConditionSettings(Section):
    """[[test.NAME.condition]]: a reading that says how hard the test was, its limits (rule 4)."""

    name: Text
    valid_from: date | None = None
    lower: float | None = None
    upper: float | None = None
    measure_unit: Text | None = None
    required: bool = True


class TestSettings(Section):
    """[test.NAME]: a test the plant declares."""

    __test__: ClassVar[bool] = False

    title: str = ""
    length: Annotated[float, Field(ge=0)] = 0
    steps: Many[Text] = ()
    max_quantity: Positive = 20
    defect_when: Annotated[str, readable(parse_defect_when)] = ""
    plan: Many[PlanSettings] = ()
    condition: Many[ConditionSettings] = ()


class StationSettings(Section):
    """[[station]]: a station of a test, its bays and their other names."""

    name: Text
    test: Text
    bays: Many[Text] = ()
    bay_alias: dict[str, Text] = {}


class ClockOffsetSettings(Section):
    """[[clock_offset]]: a bench clock known to be wrong for a while."""

    station: Text
    valid_from: Moment
    valid_to: Moment | None = None
    seconds: float


class ReferenceSettings(Section):
    """[[reference]]: what a reference vehicle must show (rule 13)."""

    vin: Text
    test: Text
    code: Text
    zone: Text | None = None


class DisturbsSettings(Section):
    """[[disturbs]]: a kind of repair after which a pass proves nothing (rule 14)."""

    action: Text | None = None
    code: Text | None = None
    owner_area: Text | None = None
    tests: Annotated[tuple[Text, ...], Field(strict=False, min_length=1)]


class FeedSettings(Section):
    """[feed.NAME]: how files that are not in the tool's own columns are read."""

    files: Text | None = None
    made_at: Annotated[str, readable(check_file_name_time)] | None = None
    timezone: Zone | None = None
    ordered: bool = False
    named_by: Text = "vin"
    delimiter: Annotated[str, StringConstraints(min_length=1, max_length=1)] | None = None
    encoding: Annotated[str, readable(check_encoding)] = "utf-8"
    decimal: Literal[".", ","] = "."
    time_format: Annotated[str, readable(check_time_format)] | None = None
    rename: dict[str, Text] = {}
    constants: dict[str, Constant] = {}
    measure_units: dict[str, Text] = {}
    values: dict[str, dict[str, Constant]] = {}
    join: dict[str, Annotated[tuple[Text, ...], Field(strict=False, min_length=2)]] = {}


class InboxSettings(Section):
    """[inbox]: when a file is taken, and what becomes of it."""

    settle_seconds: NotNegative = 30
    max_bytes: Positive = 2_000_000_000
    folders: Many[Text] = ()
    taken: Literal["move", "leave"] = "move"


class ReportSettings(Section):
    """[report]: paper, form of dates and numbers, targets, and shifts that make the usual range."""

    paper: Literal["A4", "A3", "letter"] = "A4"
    dates: Literal["day-month", "month-day", "year-month-day"] = "day-month"
    decimal: Literal[".", ","] = "."
    target: dict[str, float] = {}
    usual_shifts: Annotated[int, Field(ge=12)] = 60


class ScheduleSettings(Section):
    """[schedule]: when a report is due, how far back one is caught up, and where backups go."""

    grace: NotNegative = 1_800
    catch_up_days: Positive = 7
    backup: Text | None = None
    backup_days: Positive = 1


class MailSettings(Section):
    """[mail]: the relay; user and password come from EOL_MAIL_USER and EOL_MAIL_PASSWORD alone."""

    host: Text | None = None
    port: Annotated[int, Field(ge=1, le=65_535)] = 587
    sender: Address | None = None
    to: Many[Address] = ()
    ca_file: Text | None = None
    starttls: bool = True
    retry_after: NotNegative = 1_800
    give_up_days: Positive = 5
    corrected_after: NotNegative = 3_600


class AlarmSettings(Section):
    """[alarm]: a mail between reports: an escape, a safety-related finding, one code again and again."""

    on: bool = False
    to: Many[Address] = ()
    count: Positive = 3
    within_units: Positive = 20


class RetentionSettings(Section):
    """[retention]: days for which rows are kept that decide nothing any more; 0 is for ever."""

    reading: NotNegative = 0
    rejected_row: NotNegative = 0


class PersonsSettings(Section):
    """[persons]: whether figures about persons may be asked for (rule 18)."""

    figures: bool = False


class Settings(Section):
    """The whole of plant.toml; tables that come more than once are named in the plural."""

    plant: PlantSettings
    shifts: Annotated[tuple[ShiftSettings, ...], Field(alias="shift", strict=False, min_length=1)]
    tests: Annotated[dict[str, TestSettings], Field(alias="test", min_length=1)]
    stations: Annotated[Many[StationSettings], Field(alias="station")] = ()
    clock_offsets: Annotated[Many[ClockOffsetSettings], Field(alias="clock_offset")] = ()
    references: Annotated[Many[ReferenceSettings], Field(alias="reference")] = ()
    disturbs: Many[DisturbsSettings] = ()
    feeds: Annotated[dict[str, FeedSettings], Field(alias="feed")] = {}
    inbox: InboxSettings = InboxSettings()
    report: ReportSettings = ReportSettings()
    schedule: ScheduleSettings = ScheduleSettings()
    mail: MailSettings = MailSettings()
    alarm: AlarmSettings = AlarmSettings()
    retention: RetentionSettings = RetentionSettings()
    persons: PersonsSettings = PersonsSettings()
