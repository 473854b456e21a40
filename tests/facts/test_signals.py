"""All signals of a shift together."""

from __future__ import annotations

from made_up_signals import changed, mix_shift

from eol.facts.signals import Signals


def test_mix_alone_is_not_said_of_a_changed_code() -> None:
    """A code that rose among its units at risk as well is a matter of the process too."""
    mix = mix_shift("A")
    assert Signals(mixes=(mix,)).mix_alone == (mix,)
    assert Signals(changed=(changed("A", 9),), mixes=(mix,)).mix_alone == ()
    assert Signals(mixes=(mix,)).mix_of(("water", "A")) == mix
    assert Signals().mix_of(("water", "A")) is None
