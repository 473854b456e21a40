"""How often the page's list is wrong on quiet plants, and how soon a planted rise is named.

python tests/scale/signals.py [PLANTS] [SHIFTS] [SEED]
"""

from __future__ import annotations

import os
import sys
import time
from collections import Counter
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[1]))

import drawn_plants

WITHIN = 6


def main(plants: int, shifts: int, seed: int) -> None:
    """Print both, with how they were drawn."""
    print(drawn_plants.__doc__)
    begin = time.perf_counter()
    quiet = drawn_plants.watch_quiet(plants, looked_at=shifts, seed=seed)
    kinds = ", ".join(f"{n} by {kind}" for kind, n in sorted(quiet.kinds.items()))
    print(
        f"{plants} quiet plants, {shifts} shifts each, seed {seed}: a new false signal in "
        f"{quiet.false} of {quiet.shifts} shifts ({quiet.false / quiet.shifts:.1%}; {kinds})"
    )
    found = drawn_plants.find_planted(plants, within=WITHIN, seed=seed + 1)
    hits = sum(at > 0 for at in found)
    by_shift = Counter(found)
    told = ", ".join(str(by_shift[at]) for at in range(1, WITHIN + 1))
    print(
        f"{plants} plants with one code of two a shift at threefold, seed {seed + 1}: named within "
        f"{WITHIN} shifts in {hits} ({hits / plants:.0%}; by shift {told})"
    )
    print(f"{time.perf_counter() - begin:.0f} s")


if __name__ == "__main__":
    main(*(int(word) for word in (*sys.argv[1:], *("200", "12", "5")[len(sys.argv) - 1 :])))
