"""A defect is traced among hundreds of attributes of a hundred thousand units: seconds and memory.

python tests/scale/trace.py [ATTRIBUTES] [UNITS] [DEFECT SHARE]
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path

from eol.facts.trace import trace_code
from eol.facts.trace_words import headline, sentences
from eol.store.connect import open_read_only

sys.path.append(str(Path(__file__).parents[1]))
from made_trace import traced_plant


def main(attributes: int, units: int, share: float) -> None:
    """Make the plant, trace its code once, and print what was found and what it took."""
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "plant.duckdb"
        traced_plant(path, attributes=attributes, units=units, share=share)
        with open_read_only(path) as copy:
            begin, cpu = time.perf_counter(), time.process_time()
            trace = trace_code(copy, "LEAK")
            wall, used = time.perf_counter() - begin, time.process_time() - cpu
    print(headline(trace))
    for sentence in sentences(trace)[:12]:
        print(sentence[:200])
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{attributes} attributes x {units} units: {wall:.1f} s wall, {used:.1f} s cpu, {peak:.0f} MB peak"
    )


if __name__ == "__main__":
    given = sys.argv[1:]
    main(
        int(given[0]) if given else 200,
        int(given[1]) if len(given) > 1 else 100_000,
        float(given[2]) if len(given) > 2 else 0.002,
    )
