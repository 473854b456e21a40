"""Can the figures of a shift be believed? One line first, then what it rests on, sentence by sentence.

The shift is told by the data clock; only silence is told by the wall clock, which is an argument.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from eol.errors import UsageError
from eol.facts.accounts import UnitAccount, account_remarks, unit_accounts
from eol.facts.asked import AskedShift, Question, ask_of
from eol.facts.clocks import (
    Clock,
    LateFile,
    TwoPlaces,
    clock_facts,
    clock_remarks,
    two_places,
    two_places_remarks,
)
from eol.facts.losses import Losses, loss_facts, loss_remarks
from eol.facts.moved import MovedFigure, moved_figures, moved_remarks
from eol.facts.reader import Reader, rows
from eol.facts.remark import Remark, moment
from eol.facts.settling import Settling, settling_facts, settling_remarks
from eol.facts.silence import Silence, silence_facts, silence_remarks
from eol.facts.which_shift import last_shift
from eol.words import counted


@dataclass(frozen=True, slots=True)
class Facts:
    """What the answer rests on; every count is of the store as it is now.

    Attributes:
        asked: the shift and the data clock.
        tested_in_full: units of the line cohort with a counted run of every test required of them.
        accounts: the units, test by test.
        settling: whether the shift has settled (rule 11).
        silence: silent stations.
        losses: void runs, refused and waiting rows, doubles, escapes.
        clocks: the clock of each station that ran in the shift.
        late_files: files that came hours late.
        units_in_two_places: units at two stations at once in 7 days.
        two_places: the pairs of stations where.
        moved: figures sent or settled that are others now.
    """

    asked: AskedShift
    tested_in_full: int
    accounts: tuple[UnitAccount, ...]
    settling: Settling
    silence: Silence
    losses: Losses
    clocks: tuple[Clock, ...]
    late_files: tuple[LateFile, ...]
    units_in_two_places: int
    two_places: tuple[TwoPlaces, ...]
    moved: tuple[MovedFigure, ...]


@dataclass(frozen=True, slots=True)
class Belief:
    """Whether the figures of a shift can be believed.

    Attributes:
        believed: False while any remark is a doubt.
        headline: one line that says so, with its numbers or its doubts.
        needs_a_look: True where a remark is a doubt or asks for a look.
        remarks: doubts first, then what needs a look, then what is only told.
        facts: what they are made of.
    """

    believed: bool
    headline: str
    needs_a_look: bool
    remarks: tuple[Remark, ...]
    facts: Facts


def believe(
    reader: Reader,
    *,
    now: datetime,
    production_date: date | None = None,
    shift: str | None = None,
) -> Belief | None:
    """Return whether the figures of a shift can be believed.

    Args:
        reader: the published copy of the store.
        now: the wall clock, aware; decides nothing but which stations are silent.
        production_date: the shift's day; the last shift that ended by the data clock where None.
        shift: its name; must be given with production_date.

    Returns:
        The answer; None where no shift is named and none has ended yet.

    Raises:
        UsageError: the calendar has no such shift.
    """
    named = (production_date, shift) if production_date and shift else last_shift(reader)
    if named is None:
        return None
    question = ask_of(reader, *named)
    if question is None:
        raise UsageError(
            f"there is no shift '{named[0]}/{named[1]}'", hint="Name one of shift_window."
        )
    facts = _facts(question, now)
    remarks = tuple(sorted(_remarks(facts), key=lambda one: _ORDER[one.kind]))
    doubts = [one.text for one in remarks if one.kind == "doubt"]
    return Belief(
        believed=not doubts,
        headline=_headline(facts, doubts),
        needs_a_look=any(one.kind != "note" for one in remarks),
        remarks=remarks,
        facts=facts,
    )


_ORDER = {"doubt": 0, "look": 1, "note": 2}


def _facts(question: Question, now: datetime) -> Facts:
    asked = question.asked
    key = {"production_date": asked.production_date, "shift": asked.shift}
    clocks, late_files = clock_facts(question)
    units, pairs = two_places(question)
    return Facts(
        asked=asked,
        tested_in_full=rows(question.reader.run("page", "tested_in_full", **key))[0]["units"],
        accounts=unit_accounts(question),
        settling=settling_facts(question),
        silence=silence_facts(question, now=now),
        losses=loss_facts(question),
        clocks=clocks,
        late_files=late_files,
        units_in_two_places=units,
        two_places=pairs,
        moved=moved_figures(question),
    )


def _remarks(facts: Facts) -> Iterator[Remark]:
    yield from _shift_remarks(facts)
    yield from account_remarks(facts.accounts, running=facts.asked.running)
    yield from silence_remarks(facts.silence, running=facts.asked.running)
    yield from clock_remarks(facts.clocks, facts.late_files)
    yield from two_places_remarks(facts.units_in_two_places, facts.two_places)
    yield from loss_remarks(facts.losses)
    yield from moved_remarks(facts.moved)
    yield from settling_remarks(facts.settling)


def _shift_remarks(facts: Facts) -> Iterator[Remark]:
    asked = facts.asked
    if asked.running:
        reach = moment(asked.data_clock) if asked.data_clock else "nowhere"
        yield Remark("doubt", 0, f"it ends {moment(asked.ends_at)}, the data reach {reach}")
    if not facts.settling.built and not any(one.presented for one in facts.accounts):
        cancelled = "it was cancelled, and " if asked.cancelled else ""
        yield Remark("doubt", 0, f"{cancelled}no unit left the line or was tested in it")


def _headline(facts: Facts, doubts: list[str]) -> str:
    figures = f"The figures of {facts.asked.name}"
    if doubts:
        return f"{figures} cannot be believed yet: {'; '.join(doubts)}."
    return f"{figures} can be believed: {_tested(facts)}."


def _tested(facts: Facts) -> str:
    """Units tested in full of the cohort; without one the test with fewest units speaks."""
    built = facts.settling.built
    if built:
        return f"{facts.tested_in_full} of {counted(built, 'unit')} tested in full"
    least = min(facts.accounts, key=lambda one: one.tested)
    told = f"{counted(least.tested, 'unit')} tested in {least.title}"
    if least.expected is None:
        return f"{told}; nothing tells how many to expect"
    return f"{told} where {least.expected:.0f} are usual"
