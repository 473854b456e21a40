"""What the statistics share: an interval, the quantile of rule 16, refusal of wrong numbers."""

from __future__ import annotations

from dataclasses import dataclass

Z95 = 1.959963984540054  # rule 16: the one quantile that views, facts and figures use


@dataclass(frozen=True, slots=True)
class Interval:
    """A figure with its interval; None stands for a figure or an end that the data cannot give.

    Args:
        n: what the figure rests on (units, or defects where the function says so).
        value: the figure itself.
        low: the lower end.
        high: the upper end; None beside a given `low` means that nothing bounds it from above.
    """

    n: float
    value: float | None
    low: float | None
    high: float | None

    def holds(self, value: float) -> bool:
        """Tell whether a value lies in the interval; an end that is None is open."""
        return (self.low is None or self.low <= value) and (self.high is None or value <= self.high)


def require(condition: bool, sentence: str) -> None:
    """Refuse a caller's mistake with a sentence.

    Raises:
        ValueError: the condition does not hold.
    """
    if not condition:
        raise ValueError(sentence)


def quantile(confidence: float) -> float:
    """Give the two-sided normal quantile of a confidence between 0 and 1 (0.95: rule 16's z)."""
    require(0 < confidence < 1, f"confidence must lie between 0 and 1, not {confidence}")
    if confidence == 0.95:
        return Z95
    from scipy.special import ndtri

    return float(ndtri((1 + confidence) / 2))
