"""`eol report` on a shift of a store of ten years, of three months, and a bare script of as many charts.

python tests/scale/report.py [ROUNDS] [FOLDER]

FOLDER keeps the two stores for the next time. Each round takes another shift, so that its answers are
written too; the same page made again, which writes nothing, is printed beside it.
"""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from history import LAST, begin, stores
from measured import Measure, line, measure, median

HERE = Path(__file__).parent


def main(rounds: int, place: Path) -> None:
    """Print one table of medians; the commands run in turn."""
    found: dict[str, list[Measure]] = {}
    charts = 0
    for number in range(rounds):
        shift = f"{LAST - timedelta(days=4 + number)}/late"
        for store, folder in stores(place).items():
            for what in ("first", "again"):
                done = measure("-m", "eol", "--plant", folder.root, "report", "--shift", shift)
                found.setdefault(f"{store}, {what}", []).append(done)
            page = folder.reports / f"{shift.replace('/', '_')}.html"
            charts = page.read_text(encoding="utf-8").count("<svg ")
        found.setdefault("bare script", []).append(measure(HERE / "bare_charts.py", str(charts)))
    print(f"a page of {charts} charts, {rounds} rounds")
    yardstick = median(found["bare script"])
    for name, measures in found.items():
        print(line(name, median(measures), yardstick))


if __name__ == "__main__":
    begin(main, 3)
