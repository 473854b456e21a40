"""Another process that loads files: ready when it says so, begins when told, says when it is done.

Called as `python load_worker.py FOLDER FILE…`, so that a test can kill it in the middle.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

READY, DONE = "ready", "done"


class Worker:
    """A loading process, started and waiting to be told to begin."""

    def __init__(self, folder: PlantFolder, paths: Sequence[Path]) -> None:
        command = [sys.executable, __file__, str(folder.root), *map(str, paths)]
        there = os.pathsep.join(path for path in sys.path if path)
        self.process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env=os.environ | {"PYTHONPATH": there},
        )
        assert self._line() == READY

    def begin(self) -> None:
        """Let it load."""
        assert self.process.stdin is not None
        self.process.stdin.write("\n")
        self.process.stdin.flush()

    def finish(self) -> None:
        """Wait until it is done."""
        assert self._line() == DONE
        self.close()

    def kill(self) -> None:
        """Kill it as a power cut would."""
        self.process.kill()
        self.close()

    def close(self) -> None:
        """Wait for its end and close its pipes."""
        with self.process:
            self.process.wait()

    def _line(self) -> str:
        assert self.process.stdout is not None
        return self.process.stdout.readline().strip()


def main(root: str, *paths: str) -> None:
    """Load files into a plant when told to."""
    sys.stdout.write(f"{READY}\n")
    sys.stdout.flush()
    sys.stdin.readline()
    ingest(PlantFolder(Path(root)), [Path(path) for path in paths])
    sys.stdout.write(f"{DONE}\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
