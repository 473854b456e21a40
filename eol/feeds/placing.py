"""Columns of a foreign file in, the columns of a feed that they perhaps are out.

A column is placed by its name and by what its cells look like; each is placed once, the likest first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from eol.feeds.columns import COLUMNS, Column, Type
from eol.feeds.foreign_columns import Looks, Sent
from eol.feeds.foreign_words import CONCEPTS, KEY_KINDS, meaning, words
from eol.feeds.guess_times import ISO_DATE
from eol.plant.settings import Settings

_FITTING: dict[Type, tuple[Looks, ...]] = {
    Type.VIN: (Looks.VIN,),
    Type.TIME: (Looks.TIME,),
    Type.MOMENT: (Looks.TIME, Looks.DATE),
    Type.DATE: (Looks.DATE, Looks.TIME),
    Type.NUMBER: (Looks.NUMBER,),
    Type.INTEGER: (Looks.NUMBER,),
}
_FIT_TEXT = (Looks.TEXT, Looks.NUMBER)
_NEEDED: dict[str, tuple[frozenset[str], ...]] = {
    "test": (frozenset(("vin", "started_at", "result")),),
    "findings": (frozenset(("vin", "started_at", "code")), frozenset(("run_ref", "code"))),
    "readings": (
        frozenset(("vin", "started_at", "name", "value")),
        frozenset(("run_ref", "name", "value")),
    ),
    "units": tuple(frozenset(("vin", name)) for name in ("build_seq", "model", "line_off_at")),
    "repairs": (frozenset(("vin", "action")), frozenset(("vin", "class"))),
    "events": (frozenset(("vin", "at", "kind")),),
    "unit_keys": (frozenset(("vin", "value")),),
    "attributes": (frozenset(("vin", "name", "text_value")),),
    "defect_codes": (frozenset(("code", "title")), frozenset(("code", "severity"))),
    "zones": (frozenset(("zone", "title")), frozenset(("zone", "cell"))),
    "lots": (frozenset(("part", "lot")),),
    "shifts": (frozenset(("production_date", "shift")),),
}
"""By kind of feed the columns without which a file is none of it, in one of several ways."""

_FIRST_TIME = {
    "test": "started_at",
    "findings": "started_at",
    "readings": "started_at",
    "events": "at",
}
_FEWEST_WIDE = 2
"""Columns of numbers that make a file one of readings, a column each."""


@dataclass(frozen=True, slots=True)
class Placing:
    """A file as one of a kind of feed.

    Attributes:
        kind: the kind of feed; test: the test it is of, None for a fixed feed.
        sources: by column of the feed the file's column.
        score: how well names and looks fit, to be held against other kinds.
        key_kind: the kind of unit key that names the units, None where the VIN does.
    """

    kind: str
    test: str | None
    sources: Mapping[str, Sent]
    score: int
    key_kind: str | None = None
    columns: tuple[Column, ...] = field(default=(), repr=False)


def best_placing(sent: Sequence[Sent], settings: Settings, *, file_name: str) -> Placing | None:
    """Return the kind of feed that a file fits best; None where it fits none."""
    placings = [
        placing
        for kind in _NEEDED
        for placing in _placings(kind, sent, settings, file_name)
        if _is_whole(placing, sent)
    ]
    return max(placings, key=lambda placing: placing.score, default=None)


def _placings(
    kind: str, sent: Sequence[Sent], settings: Settings, file_name: str
) -> Iterator[Placing]:
    """The file as one of each test of the kind, or as one of the fixed feed."""
    if kind not in ("test", "findings", "readings"):
        hinted = 3 if kind.rstrip("s") in file_name.lower() else 0
        yield _placing(kind, None, COLUMNS[kind], sent, hinted)
        return
    for test in settings.tests:
        conditions = {condition.name for condition in settings.tests[test].condition}
        numbers = (Column(name, Type.NUMBER) for name in sorted(conditions))
        columns = (*COLUMNS[kind], *(numbers if kind == "test" else ()))
        yield _placing(kind, test, columns, sent, _hint(test, settings, sent, file_name))


def _hint(test: str, settings: Settings, sent: Sequence[Sent], file_name: str) -> int:
    """How much the file's name, and the stations and conditions named in it, speak for a test."""
    told = words(file_name)
    title = words(settings.tests[test].title)
    named = test in file_name.lower() or any(
        word in told for word in (*title[:1], _initials(title))
    )
    known = {station.name for station in settings.stations if station.test == test}
    known |= {condition.name for condition in settings.tests[test].condition}
    seen = any(known & set(column.cells) for column in sent)
    return 3 * named + 3 * seen


def _initials(title: Sequence[str]) -> str:
    return "".join(word[:1] for word in title) if len(title) > 1 else "?"


def _placing(
    kind: str, test: str | None, columns: Sequence[Column], sent: Sequence[Sent], hint: int
) -> Placing:
    key_kind, further = _key(kind, sent)
    if key_kind and kind != "unit_keys":
        columns = (*columns, Column(key_kind))
    sources, score = dict(further), hint + 3 * len(further)
    taken = {name for one in further.values() for name in one.names}
    for likeness, column, one in _pairs(kind, columns, sent):
        if column.name not in sources and not taken & set(one.names[-1:]):
            sources[column.name] = one
            taken |= set(one.names)
            score += likeness
    sources = _of_one_form(sources, columns)
    return Placing(kind, test, sources, score, key_kind, tuple(columns))


def _of_one_form(sources: dict[str, Sent], columns: Sequence[Column]) -> dict[str, Sent]:
    """Leave out times written in another format than the most needed one: a feed has one format."""
    ordered = sorted(columns, key=lambda column: not column.required)
    forms = [sources[c.name].form for c in ordered if c.name in sources]
    first = next((form for form in forms if form and form != ISO_DATE), None)
    kept = (None, "", ISO_DATE, first)
    return {name: one for name, one in sources.items() if one.form in kept}


def _key(kind: str, sent: Sequence[Sent]) -> tuple[str | None, dict[str, Sent]]:
    """The unit key that stands in for a VIN, or that a file of unit keys is of."""
    found = [(key, one) for key in KEY_KINDS for one in sent if one.like(key) >= 2]
    has_vin = any(one.looks is Looks.VIN for one in sent)
    if not found or has_vin != (kind == "unit_keys"):
        return None, {}
    key, one = found[0]
    return key, {"value" if kind == "unit_keys" else key: one}


def _pairs(
    kind: str, columns: Sequence[Column], sent: Sequence[Sent]
) -> list[tuple[int, Column, Sent]]:
    """Columns that may be one, the likest first; of equals the tool's order, then the file's."""
    pairs = [
        (likeness, column, one)
        for column in columns
        for one in sent
        if (likeness := _likeness(kind, column, one))
    ]
    return sorted(pairs, key=lambda pair: -pair[0])


def _likeness(kind: str, column: Column, one: Sent) -> int:
    if not _fits(column, one):
        return 0
    by_looks = (
        (column.type is Type.VIN and one.looks is Looks.VIN)
        or (column.name == _FIRST_TIME.get(kind) and one.looks is Looks.TIME)
        or (column.name == "result" and one.tells_results())
    )
    return max(one.like(column.name), _concept(column, one), int(by_looks))


def _fits(column: Column, one: Sent) -> bool:
    if one.looks is Looks.NOTHING:
        return not column.required
    if column.type is Type.WORD and column.name != "result":
        return all(own_word(column, cell) for cell in one.cells)
    return one.looks in _FITTING.get(column.type, _FIT_TEXT)


def own_word(column: Column, cell: str) -> str | None:
    """Return the word of a column that a cell means; None where it means none."""
    spelt = next((word for word in column.words if word.lower() == cell.lower()), None)
    return spelt or next((w for w in column.words if w == meaning(column.name, cell)), None)


def _concept(column: Column, one: Sent) -> int:
    """Whether a condition and a column measure the same thing by their names."""
    if column.type is not Type.NUMBER:
        return 0
    own, sent = words(column.name.replace("_", " ")), words(one.name)
    return 2 * any(set(own) & set(concept) and set(sent) & set(concept) for concept in CONCEPTS)


def _is_whole(placing: Placing, sent: Sequence[Sent]) -> bool:
    known = set(placing.sources) | ({"vin"} if placing.key_kind else set())
    if any(needed <= known for needed in _NEEDED[placing.kind]):
        return True
    wide = {"vin", "started_at"} <= known or "run_ref" in known
    return placing.kind == "readings" and wide and len(free_numbers(placing, sent)) >= _FEWEST_WIDE


def free_numbers(placing: Placing, sent: Iterable[Sent]) -> tuple[Sent, ...]:
    """Return the columns of numbers that have no place; in a wide file each is a reading."""
    placed = {name for one in placing.sources.values() for name in one.names}
    return tuple(one for one in sent if one.looks is Looks.NUMBER and not set(one.names) & placed)
