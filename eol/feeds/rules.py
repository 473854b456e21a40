"""What a whole row must hold beyond its cells, one list of rules a feed.

A rule is an expression that is true where it is broken, and a sentence for a person. Both see the
typed columns; the sentence also sees the cells as sent, under sent.NAME.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import polars as pl

from eol.feeds.feed import Feed
from eol.feeds.vin import FORM
from eol.words import Kind, Result

RUN_FIELDS = ("vin", "started_at", "ended_at", "result")
UNIT_FIELDS = ("model", "line", "kind", "build_seq", "line_off_at")
_CELL = r"^(front|mid|rear)-(left|centre|right)-(low|mid|high)$"
_OUTLINE = r"^\s*-?[\d.]+\s*,\s*-?[\d.]+(?:[\s;]+-?[\d.]+\s*,\s*-?[\d.]+){2,}\s*$"


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: `broken` is true where a row breaks it, `reason` says how."""

    broken: pl.Expr
    reason: pl.Expr


def rules_of(feed: Feed) -> tuple[Rule, ...]:
    """Return the rules of a feed's rows."""
    return (*_RULES.get(feed.kind, ()), *_naming_rules(feed))


def _naming_rules(feed: Feed) -> tuple[Rule, ...]:
    """A row names its unit, by VIN or key; a finding or reading may name its run instead."""
    names = ["vin", feed.key_kind] if feed.key_kind else ["vin"]
    no_unit = pl.all_horizontal(pl.col(name).is_null() for name in names)
    either = " or ".join(names)
    if feed.kind in ("findings", "readings"):
        broken = pl.col("run_ref").is_null() & (no_unit | pl.col("started_at").is_null())
        reason = f"the row names no run; fill run_ref, or {either} and started_at"
        return (Rule(broken, pl.lit(reason)),)
    if feed.key_kind is None:
        return ()
    return (Rule(no_unit, pl.lit(f"the row names no unit; fill {either}")),)


def _cell(name: str) -> pl.Expr:
    return pl.col(f"sent.{name}")


def _not_before(start: str, end: str) -> Rule:
    reason = pl.format(f"{end}: '{{}}' lies before {start} '{{}}'", _cell(end), _cell(start))
    return Rule(pl.col(end) < pl.col(start), reason)


def _matches(name: str, pattern: str, hint: str) -> Rule:
    reason = pl.format(f"{name}: '{{}}' {hint}", _cell(name))
    return Rule(~pl.col(name).str.contains(pattern), reason)


def _nothing_of(names: Iterable[str], reason: str) -> Rule:
    return Rule(pl.all_horizontal(pl.col(name).is_null() for name in names), pl.lit(reason))


_FIELD = pl.col("field")
_CORRECTION_RULES = (
    Rule(
        pl.col("run_id").is_null() == pl.col("vin").is_null(),
        pl.lit("the row must name just one thing to mend: run_id or vin"),
    ),
    Rule(
        pl.col("run_id").is_not_null() & ~_FIELD.is_in(RUN_FIELDS),
        pl.format(
            "field: '{}' of a run cannot be mended; " + ", ".join(RUN_FIELDS) + " can", _FIELD
        ),
    ),
    Rule(
        pl.col("vin").is_not_null() & ~_FIELD.is_in(UNIT_FIELDS),
        pl.format(
            "field: '{}' of a unit cannot be mended; " + ", ".join(UNIT_FIELDS) + " can", _FIELD
        ),
    ),
    Rule(
        (_FIELD == "result") & ~pl.col("value").str.to_lowercase().is_in(list(Result)),
        pl.format("value: '{}' is not one of " + ", ".join(Result), _cell("value")),
    ),
    Rule(
        (_FIELD == "kind") & ~pl.col("value").str.to_lowercase().is_in(list(Kind)),
        pl.format("value: '{}' is not one of " + ", ".join(Kind), _cell("value")),
    ),
    Rule(
        (_FIELD == "vin") & ~pl.col("value").str.to_uppercase().str.contains(FORM),
        pl.format("value: '{}' is no VIN", _cell("value")),
    ),
    Rule(
        (_FIELD == "build_seq") & pl.col("value").cast(pl.Int64, strict=False).is_null(),
        pl.format("value: '{}' is no whole number", _cell("value")),
    ),
)

_RULES: dict[str, tuple[Rule, ...]] = {
    "test": (_not_before("started_at", "ended_at"),),
    "readings": (
        Rule(pl.col("sample") < 1, pl.format("sample: '{}' is below 1", _cell("sample"))),
    ),
    "attributes": (
        _nothing_of(("text_value", "number_value"), "the row has no value; fill text_value"),
    ),
    "unit_keys": (_not_before("valid_from", "valid_to"),),
    "repairs": (
        _not_before("started_at", "ended_at"),
        _nothing_of(
            ("started_at", "ended_at", "entered_at"),
            "the repair has no time; fill started_at, ended_at or entered_at",
        ),
    ),
    "defect_codes": (
        _not_before("valid_from", "valid_to"),
        Rule(
            pl.col("code") == pl.col("same_as"),
            pl.format("same_as: '{}' is the code itself", _cell("same_as")),
        ),
    ),
    "zones": (
        _matches("cell", _CELL, "is no cell; write one such as rear-right-low"),
        _matches(
            "outline", _OUTLINE, "is no polygon; write three or more pairs such as 0,0 1,0 1,1"
        ),
    ),
    "countermeasures": (
        _not_before("baseline_from", "baseline_to"),
        _not_before("opened_on", "closed_on"),
        Rule(
            pl.col("expected_ratio") < 0,
            pl.format("expected_ratio: '{}' is below 0", _cell("expected_ratio")),
        ),
    ),
    "lots": (
        _not_before("from_at", "to_at"),
        Rule(
            pl.col("to_build_seq") < pl.col("from_build_seq"),
            pl.format(
                "to_build_seq: '{}' is below from_build_seq '{}'",
                _cell("to_build_seq"),
                _cell("from_build_seq"),
            ),
        ),
        _nothing_of(
            ("from_build_seq", "to_build_seq", "from_at", "to_at"),
            "the lot has no range; fill from_build_seq and to_build_seq, or from_at and to_at",
        ),
    ),
    "corrections": _CORRECTION_RULES,
    "shifts": (_not_before("starts_at", "ends_at"),),
}
