"""What is asked of a suspect list: the fault, the units known to have it, and what the others share."""

from __future__ import annotations

import hashlib
import json
import re
import shlex
from dataclasses import asdict, dataclass

import polars as pl

from eol.errors import UsageError
from eol.facts.reader import Reader, rows

_CONDITION = re.compile(r"\s*(?P<name>[^<>=!]+?)\s*(?P<sign><=|>=|!=|=|<|>)\s*(?P<value>.+?)\s*")
_COMPARE = {"<=": "le", ">=": "ge", "<": "lt", ">": "gt"}
_OWN = ("model", "line")
_OPTIONS = {"vins": "vin", "since": "from", "until": "to"}


@dataclass(frozen=True, slots=True)
class ContainQuestion:
    """A question after how far a fault reaches.

    Attributes:
        code: the code of the fault; None for any, with a bay.
        zone: where on the unit; None for any.
        test: the test, where several have the code.
        vins: units confirmed to have it; where none, those on which the code was found.
        where: conditions that a suspect unit meets, such as `sealer_bead <= 4.8`.
        lot: the lot that a suspect unit has.
        bay: the place that passed the suspect units, `STATION` or `STATION/BAY`.
        change_before: build sequence of a known change before them: the first suspect unit.
        change_after: build sequence of a known change after them: the last suspect unit.
        sensitivity: share of faulty units that the test finds; reference checks tell it where None.
        since: first shift looked at, as DATE/SHIFT; 90 days back where None.
        until: last shift looked at.
    """

    code: str | None
    zone: str | None = None
    test: str | None = None
    vins: tuple[str, ...] = ()
    where: tuple[str, ...] = ()
    lot: str | None = None
    bay: str | None = None
    change_before: int | None = None
    change_after: int | None = None
    sensitivity: float | None = None
    since: str | None = None
    until: str | None = None

    @property
    def as_json(self) -> str:
        """The question as JSON, the same for the same question."""
        told = {name: value for name, value in asdict(self).items() if value not in (None, ())}
        return json.dumps(told, ensure_ascii=False, sort_keys=True)

    @property
    def as_command(self) -> str:
        """The command that asks it."""
        words = ["eol contain", *([self.code] if self.code else [])]
        for name, value in asdict(self).items():
            option = f"--{_OPTIONS.get(name, name).replace('_', '-')}"
            told = value if isinstance(value, tuple) else (() if value is None else (value,))
            words += [f"{option} {shlex.quote(str(one))}" for one in told if name != "code"]
        return " ".join(words)

    @property
    def containment_id(self) -> str:
        """60 bits of md5 over the question: the same question gives versions of one list."""
        return hashlib.md5(self.as_json.encode(), usedforsecurity=False).hexdigest()[:15]


def check_question(question: ContainQuestion) -> None:
    """Refuse a question that cannot be answered.

    Raises:
        UsageError: neither code nor bay, a sensitivity outside 0..1, or changes in the wrong order.
    """
    if question.code is None and question.bay is None:
        raise UsageError(
            "neither a code nor a bay is named", hint="Name a CODE, or --bay STATION/BAY."
        )
    if question.sensitivity is not None and not 0 <= question.sensitivity <= 1:
        raise UsageError("a sensitivity lies between 0 and 1", where="--sensitivity")
    before, after = question.change_before, question.change_after
    if before is not None and after is not None and before > after:
        raise UsageError("the change before lies behind the change after", where="--change-before")


def meeting(reader: Reader, question: ContainQuestion, units: pl.DataFrame) -> pl.DataFrame:
    """Keep the units that meet all conditions and have the lot; `why` tells those without a record of it.

    Args:
        reader: the published copy.
        question: the question.
        units: rows of `queries/contain/010_unit.sql`.

    Raises:
        UsageError: a condition cannot be read, or nobody knows the attribute or the lot.
    """
    for condition in question.where:
        units = _meeting(reader, condition, units)
    return units if question.lot is None else _of_lot(reader, question.lot, units)


def _meeting(reader: Reader, condition: str, units: pl.DataFrame) -> pl.DataFrame:
    match = _CONDITION.fullmatch(condition)
    if match is None:
        hint = "Write --where 'sealer_bead <= 4.8' or --where 'sealer_robot=R07|R09'."
        raise UsageError(f"'{condition}' is no condition", hint=hint)
    name, sign, value = match["name"], match["sign"], match["value"]
    if name in _OWN:
        told = units.select("vin", text_value=pl.col(name), number_value=pl.lit(None, pl.Float64))
    else:
        told = reader.run("contain", "attribute", names=[name])
    if told.is_empty():
        known = ", ".join(reader.run("trace", "attribute_name")["name"])
        raise UsageError(f"no unit has an attribute {name}", hint=f"Known: {known}, model, line.")
    return units.join(told.filter(_holds(sign, value)).select("vin"), on="vin", how="semi")


def _holds(sign: str, value: str) -> pl.Expr:
    """Compare numbers by size, texts with one or several values."""
    if sign in _COMPARE:
        try:
            number = float(value)
        except ValueError as error:
            raise UsageError(f"'{value}' is no number to compare by {sign}") from error
        compared: pl.Expr = getattr(pl.col("number_value"), _COMPARE[sign])(number)
        return compared
    one_of = pl.col("text_value").is_in([part.strip() for part in value.split("|")])
    return one_of if sign == "=" else ~one_of


def _of_lot(reader: Reader, lot: str, units: pl.DataFrame) -> pl.DataFrame:
    """Units whose record names the lot; of its range also those whose record names none."""
    names = reader.run("contain", "attribute_with_value", value=lot)["name"].to_list()
    ranges = [row for row in rows(reader.run("trace", "lot")) if row["lot"] == lot]
    if not names and not ranges:
        raise UsageError(f"no unit and no range of the table lot has the lot {lot}")
    if not names:
        return units.filter(_in_ranges(ranges))
    told = reader.run("contain", "attribute", names=names[:1])
    has = units.join(told.filter(pl.col("text_value") == lot), on="vin", how="semi")
    silent = units.join(told, on="vin", how="anti").filter(_in_ranges(ranges))
    return pl.concat([has, silent]).sort("build_seq", "line_off_at", "vin", nulls_last=True)


def _in_ranges(ranges: list[dict[str, object]]) -> pl.Expr:
    inside = pl.lit(value=False)
    for row in ranges:
        by_seq = row["from_build_seq"] is not None or row["to_build_seq"] is not None
        field, first, last = (
            ("build_seq", "from_build_seq", "to_build_seq")
            if by_seq
            else ("line_off_at", "from_at", "to_at")
        )
        low = pl.lit(value=True) if row[first] is None else pl.col(field) >= pl.lit(row[first])
        high = pl.lit(value=True) if row[last] is None else pl.col(field) <= pl.lit(row[last])
        inside = inside | (low & high)
    return inside
