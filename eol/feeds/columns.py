"""The columns that each feed may have: name, type, whether a row needs it, the words it may hold.

One table for mapping, checks and explanations alike; the names are those of the store's tables.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from eol.words import EventKind, Kind, Purpose, RepairClass, Result, Severity


class Type(StrEnum):
    """What a cell of a column must hold."""

    TEXT = "text"
    WORD = "one of a few words"
    VIN = "VIN"
    INTEGER = "whole number"
    NUMBER = "number"
    TRUTH = "true or false"
    TIME = "time"
    MOMENT = "time, or date for its midnight"
    DATE = "date"
    PERSON = "person"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a feed.

    Attributes:
        required: the file must have it and no row may leave it empty.
        words: the words a cell of type WORD may hold.
        past: a time in it may not lie after the load.
        recorded: a time in it may not lie before the plant's `starts_on`.
    """

    name: str
    type: Type = Type.TEXT
    required: bool = False
    words: tuple[str, ...] = ()
    past: bool = False
    recorded: bool = False


def needed(column: Column) -> Column:
    """Return the same column, required."""
    return replace(column, required=True)


_VIN = Column("vin", Type.VIN)
_STATION = Column("station")
_STARTED = Column("started_at", Type.TIME, past=True, recorded=True)
_ENDED = Column("ended_at", Type.TIME, past=True)
_RUN_REF = Column("run_ref")
_TEST = Column("test")
_CODE = Column("code")
_ZONE = Column("zone")
_OWNER_AREA = Column("owner_area")
_SEVERITY = Column("severity", Type.WORD, words=tuple(Severity))
_NOTE = Column("note")
_VALID_FROM = Column("valid_from", Type.MOMENT)
_VALID_TO = Column("valid_to", Type.MOMENT)
_FINDING = (
    Column("step"),
    _SEVERITY,
    Column("quantity", Type.INTEGER),
    Column("rating", Type.NUMBER),
    _NOTE,
)

COLUMNS: dict[str, tuple[Column, ...]] = {
    "test": (
        needed(_VIN),
        needed(_STATION),
        Column("bay"),
        _RUN_REF,
        needed(_STARTED),
        _ENDED,
        Column("result", Type.WORD, required=True, words=tuple(Result)),
        Column("purpose", Type.WORD, words=tuple(Purpose)),
        Column("program"),
        Column("operator", Type.PERSON),
        Column("last_step"),
        Column("revision", Type.INTEGER),
        _CODE,
        _ZONE,
        *_FINDING,
    ),
    "findings": (
        _VIN,
        needed(_STATION),
        _STARTED,
        _RUN_REF,
        needed(_CODE),
        _ZONE,
        *_FINDING,
    ),
    "readings": (
        _VIN,
        needed(_STATION),
        _STARTED,
        _RUN_REF,
        Column("name"),
        Column("sample", Type.INTEGER),
        Column("value", Type.NUMBER),
        Column("lower", Type.NUMBER),
        Column("upper", Type.NUMBER),
        Column("measure_unit"),
    ),
    "units": (
        needed(_VIN),
        Column("build_seq", Type.INTEGER),
        Column("model"),
        Column("line"),
        Column("kind", Type.WORD, words=tuple(Kind)),
        Column("line_off_at", Type.TIME, past=True),
    ),
    "attributes": (
        needed(_VIN),
        Column("name", required=True),
        Column("at", Type.MOMENT, past=True),
        _STATION,
        Column("source"),
        Column("text_value"),
        Column("number_value", Type.NUMBER),
        Column("measure_unit"),
    ),
    "unit_keys": (
        Column("kind", required=True),
        Column("value", required=True),
        needed(_VIN),
        _VALID_FROM,
        _VALID_TO,
    ),
    "repairs": (
        Column("repair_id"),
        needed(_VIN),
        _TEST,
        _CODE,
        _ZONE,
        Column("started_at", Type.TIME, past=True),
        Column("ended_at", Type.TIME, past=True, recorded=True),
        Column("action"),
        Column("class", Type.WORD, words=tuple(RepairClass)),
        _OWNER_AREA,
        Column("place"),
        Column("part"),
        Column("lot"),
        Column("entered_at", Type.TIME, past=True),
    ),
    "events": (
        Column("event_id"),
        needed(_VIN),
        Column("at", Type.TIME, required=True, past=True, recorded=True),
        Column("kind", Type.WORD, required=True, words=tuple(EventKind)),
        Column("place"),
        Column("reference"),
        _NOTE,
        Column("entered_by", Type.PERSON),
    ),
    "defect_codes": (
        needed(_CODE),
        _TEST,
        Column("title"),
        _SEVERITY,
        _OWNER_AREA,
        Column("safety_related", Type.TRUTH),
        Column("handling"),
        Column("applies_when"),
        Column("same_as"),
        _VALID_FROM,
        _VALID_TO,
    ),
    "zones": (
        needed(_ZONE),
        _TEST,
        Column("title"),
        Column("cell"),
        Column("outline"),
        Column("hv_near", Type.TRUTH),
    ),
    "countermeasures": (
        Column("action_id"),
        _TEST,
        needed(_CODE),
        _ZONE,
        _OWNER_AREA,
        Column("owner"),
        Column("text"),
        Column("opened_on", Type.DATE),
        Column("due_on", Type.DATE),
        Column("from_build_seq", Type.INTEGER),
        Column("cut_in_at", Type.MOMENT),
        Column("baseline_from", Type.DATE),
        Column("baseline_to", Type.DATE),
        Column("expected_ratio", Type.NUMBER),
        Column("closed_on", Type.DATE),
    ),
    "lots": (
        Column("part", required=True),
        Column("lot", required=True),
        Column("from_build_seq", Type.INTEGER),
        Column("to_build_seq", Type.INTEGER),
        Column("from_at", Type.MOMENT),
        Column("to_at", Type.MOMENT),
    ),
    "corrections": (
        Column("correction_id"),
        Column("run_id", Type.INTEGER),
        _VIN,
        Column("field", required=True),
        Column("value", required=True),
        Column("reason"),
        Column("made_by", Type.PERSON),
        Column("made_at", Type.TIME, past=True),
    ),
    "shifts": (
        Column("production_date", Type.DATE, required=True),
        Column("shift", required=True),
        Column("crew"),
        Column("starts_at", Type.TIME),
        Column("ends_at", Type.TIME),
        Column("cancelled", Type.TRUTH),
    ),
}
"""The columns of each kind of feed, in the order in which they are checked."""

FIXED_FEEDS = tuple(kind for kind in COLUMNS if kind not in ("test", "findings", "readings"))
"""The feeds that are named as their kind; the others carry a test's name."""
