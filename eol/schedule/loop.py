"""Goes on doing what is due, for machines without a schedule of their own."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import UTC, datetime

from eol.errors import EolError
from eol.plant.folder import PlantFolder
from eol.schedule.run import Done, Tell, run_due


def run_every(
    folder: PlantFolder,
    seconds: float,
    *,
    tell: Tell,
    rest: Callable[[float], None] = time.sleep,
    rounds: int | None = None,
) -> None:
    """Do what is due, rest, and begin again, until the process is ended.

    A fault, also one of plant.toml, is told; the next round reads everything anew.

    Args:
        folder: the plant folder.
        seconds: from the beginning of one round to that of the next; never less than the round takes.
        tell: told of each thing as it is done.
        rest: sleeps for so many seconds.
        rounds: end after so many; never where None.
    """
    while rounds is None or rounds > 0:
        began = time.monotonic()
        try:
            run_due(folder, tell=tell)
        except EolError as error:
            text = " ".join(str(error).split())
            tell(Done(datetime.now(UTC), "run", "failed", text, error.exit_code))
        rounds = None if rounds is None else rounds - 1
        if rounds != 0:
            rest(max(0.0, seconds - (time.monotonic() - began)))
