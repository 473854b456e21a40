"""The repair queue: do arrivals, time waited and units waiting fit together."""

from __future__ import annotations

from dataclasses import dataclass

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class QueueCheck:
    """Little's law held against a count.

    Args:
        foretold: units waiting by arrivals x time; None without hours looked at.
        seen: units waiting on average, as counted.
        ratio: seen over foretold; None where nothing is foretold. Far from 1, records are missing
            or the queue grows.
    """

    foretold: float | None
    seen: float
    ratio: float | None


def little_check(*, arrivals: int, hours: float, mean_hours: float, waiting: float) -> QueueCheck:
    """Hold the units that wait against arrivals and time waited.

    Args:
        arrivals: units that came into the queue.
        hours: hours looked at; 0 foretells nothing.
        mean_hours: mean hours a unit waits, open ones included.
        waiting: units waiting on average over those hours.

    Returns:
        What Little's law foretells beside what was seen.

    Raises:
        ValueError: a number is negative.

    Source:
        J. D. C. Little, "A proof for the queuing formula L = λW", Operations Research 9 (1961),
        pages 383-387.

    Example:
        >>> little_check(arrivals=40, hours=8, mean_hours=1.5, waiting=7.8).foretold
        7.5
    """
    require(min(arrivals, hours, mean_hours, waiting) >= 0, "numbers of a queue cannot be negative")
    if hours == 0:
        return QueueCheck(None, waiting, None)
    foretold = arrivals / hours * mean_hours
    return QueueCheck(foretold, waiting, waiting / foretold if foretold else None)
