"""What was lost on the way to a figure: void runs, doubles, refused and waiting rows, escapes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from eol.facts.accounts import FEW
from eol.facts.asked import Question
from eol.facts.remark import Remark, place_words
from eol.words import counted

_VOID_RUNS_THAT_TELL = 5


@dataclass(frozen=True, slots=True)
class Lost:
    """A count of rows, runs or units: `new` since the shift began, and in `all`."""

    new: int
    all: int


@dataclass(frozen=True, slots=True)
class VoidPlace:
    """Runs of one place that do not count, for one reason (rules 4 to 6), of all it ran."""

    test: str
    station: str
    bay: str | None
    reason: str
    void_runs: int
    runs: int


@dataclass(frozen=True, slots=True)
class Losses:
    """The counts of a shift and of the plant.

    Attributes:
        void_runs: runs that do not count, aborted ones included; new by the time of the run.
        doubles: runs of a re-export moved by an hour (rule 2); new by the load of the file.
        rejected: rows refused; new by the load of the file.
        rows_loaded: rows of the files loaded since the shift began.
        waiting: rows that wait for the name of their unit (rule 17).
        waiting_parts: findings and readings that wait for their run.
        escapes: open escapes of the plant (rule 14); new by the event.
        void_places: where runs of the shift do not count, most first.
    """

    void_runs: Lost
    doubles: Lost
    rejected: Lost
    rows_loaded: int
    waiting: Lost
    waiting_parts: Lost
    escapes: Lost
    void_places: tuple[VoidPlace, ...]


def loss_facts(question: Question) -> Losses:
    """Return what was lost, of the shift by place and of the plant in all."""
    (row,) = question.rows("losses")

    def lost(name: str) -> Lost:
        return Lost(row[f"{name}_new"], row[f"{name}_all"])

    return Losses(
        void_runs=lost("void"),
        doubles=lost("double"),
        rejected=lost("rejected"),
        rows_loaded=row["rows_new"],
        waiting=lost("waiting"),
        waiting_parts=lost("parts"),
        escapes=lost("escape"),
        void_places=tuple(VoidPlace(**one) for one in question.rows("void_runs")),
    )


def loss_remarks(losses: Losses) -> Iterator[Remark]:
    """Tell what was lost: what is new asks for a look, the rest is told."""
    yield from _void(losses)
    proof = "(past a proof event without proof of a required test)"
    yield from _told(losses.escapes, "escape", proof)
    yield from _told(losses.doubles, "doubled run", "(a re-export moved by an hour, not counted)")
    yield from _refused(losses)
    for waits, thing, what in (
        (losses.waiting, "row", "for the name of a unit"),
        (losses.waiting_parts, "finding or reading", "for a run"),
    ):
        if waits.all:
            things = "rows" if thing == "row" else "findings and readings"
            wait = "waits" if waits.all == 1 else "wait"
            text = f"{counted(waits.all, thing, things)} {wait} {what}, {waits.new} of them new"
            yield Remark("note", waits.all, text)


def _void(losses: Losses) -> Iterator[Remark]:
    """A place whose runs do not count could not see, or did not measure (rule 4)."""
    for place in losses.void_places:
        told = place.void_runs >= _VOID_RUNS_THAT_TELL and place.void_runs > FEW * place.runs
        if told and place.reason not in {"aborted", "suspect_double"}:
            name = place_words(place.station, place.bay)
            text = f"{name}: {place.void_runs} of {place.runs} runs do not count ({place.reason})"
            yield Remark("look", place.void_runs, text)
    if losses.void_runs.all:
        void = losses.void_runs
        text = f"{void.all} runs do not count, {void.new} of them since the shift began"
        yield Remark("note", void.new, text)


def _told(lost: Lost, thing: str, what: str) -> Iterator[Remark]:
    if lost.new:
        text = f"{counted(lost.new, thing)} {what} since the shift began"
        yield Remark("look", lost.new, f"{text}, {lost.all} in all")
    elif lost.all:
        text = f"{counted(lost.all, thing)} {what}, none since the shift began"
        yield Remark("note", lost.all, text)


def _refused(losses: Losses) -> Iterator[Remark]:
    """Refused rows; where they are more than a few of what was loaded, figures lack runs."""
    refused = losses.rejected
    if refused.new > FEW * losses.rows_loaded:
        text = f"{refused.new} of {losses.rows_loaded} rows loaded since it began were refused"
        yield Remark("doubt", refused.new, f"{text}; rejected_row tells why")
        return
    yield from _told(refused, "refused row", "(rejected_row tells why)")
