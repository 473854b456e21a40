"""Signal or noise: what changed by code, by zone and by bay, mix or process, and honest ranks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from eol.facts.bay_signals import BaySignal, bay_signals
from eol.facts.changed import Changed, changed_codes
from eol.facts.code_series import Code, CodeHistory, zone_series
from eol.facts.ftt import Window
from eol.facts.mix import ALL_FAILS, MixShift, fail_mixes, mix_shifts, model_counts
from eol.facts.ranks import RankedCode, ranked_codes
from eol.facts.reader import Row

ZONE_LEVEL = 0.01
"""Zones repeat what codes say: they speak up later."""

Ask = Callable[[str], list[Row]]
"""Gives the rows of a file of `queries/page` over the shifts of the page."""


@dataclass(frozen=True, slots=True)
class Signals:
    """What stands out in a shift beyond chance; all tuples are empty in a quiet one.

    `changed` are the codes, `zones` the zones (as their code, without a test) and `bays` the bays;
    `mixes` takes rises apart; `window` are the codes of the last 20 shifts with their ranks.
    """

    changed: tuple[Changed, ...] = ()
    zones: tuple[Changed, ...] = ()
    bays: tuple[BaySignal, ...] = ()
    mixes: tuple[MixShift, ...] = ()
    window: tuple[RankedCode, ...] = ()

    def mix_of(self, code: Code) -> MixShift | None:
        """Return how the rise of a code, or of all fails of a test, is made up, where it rose."""
        return next((mix for mix in self.mixes if (mix.test, mix.code) == code), None)

    @property
    def mix_alone(self) -> tuple[MixShift, ...]:
        """The codes whose rise is mix, not process: their units at risk have no more than usual."""
        changed = {(one.test, one.code) for one in self.changed}
        return tuple(
            mix
            for mix in self.mixes
            if mix.code != ALL_FAILS and mix.mostly_mix and (mix.test, mix.code) not in changed
        )


def shift_signals(
    ask: Ask,
    codes: CodeHistory,
    *,
    ftt: Sequence[Row],
    windows: Sequence[Window],
    window: Sequence[Row],
    below: Sequence[str] = (),
) -> Signals:
    """Look for signals in a shift.

    Args:
        ask: gives the rows of the files `zone_history`, `bay_history`, `bay_codes`, `repair_minutes`.
        codes: the history of the codes.
        ftt: rows of `page/ftt_history`.
        windows: the shifts of the page, oldest first, the present one last.
        window: the shift's rows of `pareto_window`.
        below: the tests whose FTT is below its limit.
    """
    units, defects = ask("bay_history"), ask("bay_codes")
    models = model_counts(units, defects)
    changed = changed_codes(codes.series())
    zones = zone_series(windows, ftt=ftt, zones=ask("zone_history"))
    return Signals(
        changed=changed,
        zones=changed_codes(zones, level=ZONE_LEVEL),
        bays=bay_signals(units, defects, windows),
        mixes=(*mix_shifts(codes, changed, models), *fail_mixes(codes, below, models)),
        window=ranked_codes(window, ask("repair_minutes")),
    )
