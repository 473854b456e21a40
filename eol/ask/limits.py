"""How long a statement may run and how much memory it may take; a watch that stops it when it goes past.

DuckDB keeps to its own memory limit but for single values, and none for the answer that it hands over. So the
watch looks at the process, and where the system can it bounds what the process may take while a statement runs.
"""

from __future__ import annotations

import os
import re
import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import duckdb

try:
    import resource
except ImportError:  # Windows: the watch and DuckDB's own limit remain
    resource = None  # type: ignore[assignment]

from eol.errors import UsageError

_SIZE = re.compile(r"(\d+(?:\.\d+)?)\s*([KMGT]?)i?B?", re.IGNORECASE)
_FACTORS = {"": 1, "K": 10**3, "M": 10**6, "G": 10**9, "T": 10**12}
_LOOK_EVERY = 0.05
_STATM = Path("/proc/self/statm")
_PAGE = 4096
# What DuckDB does not count as its own: one value under way, the answer as it is handed over.
_BESIDE = 2.0
_ROOM = 500_000_000

Stuck = Callable[[str], None]
"""Called where a statement goes on although it was stopped; a command ends its process then."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What one statement may take: seconds, and memory such as `4GB`, its answer included."""

    seconds: float = 300
    memory: str = "4GB"
    grace: float = 5

    @property
    def bytes(self) -> int:
        """The memory in bytes.

        Raises:
            UsageError: the text is no size.
        """
        found = _SIZE.fullmatch(self.memory.strip())
        if found is None or not float(found[1]):
            raise UsageError(
                f"'{self.memory}' is no size of memory",
                where="memory",
                hint="Such as 4GB or 500MB.",
            )
        return int(float(found[1]) * _FACTORS[found[2].upper()])


class Watch:
    """Stops a statement that goes past its limits; a context manager around the statement.

    `reason` says afterwards which limit it was, and is empty where none was.
    """

    def __init__(
        self, connection: duckdb.DuckDBPyConnection, limits: Limits, stuck: Stuck | None
    ) -> None:
        self.reason = ""
        self._connection = connection
        self._limits = limits
        self._stuck = stuck
        self._done = threading.Event()
        self._most_resident = resident_bytes() + int(_BESIDE * limits.bytes)
        self._bound = bounded(int(_BESIDE * limits.bytes) + _ROOM)
        self._signals = _Signals()
        self._thread = threading.Thread(target=self._look, daemon=True)

    def __enter__(self) -> Watch:
        """Begin to watch."""
        self._signals.__enter__()
        self._thread.start()
        self._bound.__enter__()
        return self

    def __exit__(self, *_: object) -> None:
        """End the watch."""
        self._bound.__exit__(None, None, None)
        self._done.set()
        self._thread.join()
        self._signals.__exit__(None, None, None)

    def _look(self) -> None:
        started = time.monotonic()
        while not self._done.wait(_LOOK_EVERY):
            if self._signals.interrupted():
                self._connection.interrupt()
            self.reason = self._exceeded(time.monotonic() - started)
            if self.reason:
                self._stop()
                return

    def _exceeded(self, seconds: float) -> str:
        if seconds > self._limits.seconds:
            return f"the statement ran for {self._limits.seconds:g} s and was stopped"
        if resident_bytes() > self._most_resident:
            return f"the statement needs more than {self._limits.memory} of memory and was stopped"
        return ""

    def _stop(self) -> None:
        """Interrupt; what goes on after the grace never looks up, such as one text of many gigabytes."""
        self._connection.interrupt()
        if not self._done.wait(self._limits.grace) and self._stuck is not None:
            self._stuck(self.reason)


class _Signals:
    """Tells another thread of a Ctrl-C: DuckDB may go on where the signal did not reach its own thread."""

    def __init__(self) -> None:
        self._ends: tuple[int, int] | None = None
        self._before = -1

    def __enter__(self) -> None:
        """Begin to listen; only the main thread can, and only where a pipe need not block."""
        if os.name == "posix" and threading.current_thread() is threading.main_thread():
            self._ends = os.pipe()
            for end in self._ends:
                os.set_blocking(end, False)
            self._before = signal.set_wakeup_fd(self._ends[1], warn_on_full_buffer=False)

    def __exit__(self, *_: object) -> None:
        """Listen no more."""
        if self._ends is not None:
            signal.set_wakeup_fd(self._before)
            for end in self._ends:
                os.close(end)

    def interrupted(self) -> bool:
        """Tell whether Ctrl-C has come since the last look."""
        if self._ends is None:
            return False
        try:
            return signal.SIGINT in os.read(self._ends[0], 64)
        except BlockingIOError:
            return False


def resident_bytes() -> int:
    """Return the memory of this process, 0 where the system does not tell."""
    return _statm()[1]


class _Bounds:
    """How many statements run bounded; the first sets the bound, the last takes it away."""

    lock = threading.Lock()
    running = 0


@contextmanager
def bounded(more: int) -> Iterator[None]:
    """Let the process take no more than some bytes beyond what it has, where the system can say so."""
    with _Bounds.lock:
        _Bounds.running += 1
        if _Bounds.running == 1:
            _set_bound(_statm()[0] + more)
    try:
        yield
    finally:
        with _Bounds.lock:
            _Bounds.running -= 1
            if _Bounds.running == 0:
                _set_bound(None)


def _set_bound(most: int | None) -> None:
    """Set the soft limit alone, so that it can be taken away; not above the hard one, which others set."""
    if resource is None or not _STATM.exists():
        return
    _, hard = resource.getrlimit(resource.RLIMIT_AS)
    wanted = hard if most is None else most
    if hard == resource.RLIM_INFINITY or 0 <= wanted <= hard:
        resource.setrlimit(resource.RLIMIT_AS, (wanted, hard))


def _statm() -> tuple[int, int]:
    """Addresses in use and memory in use, in bytes; noughts where the system does not tell."""
    try:
        address, resident = _STATM.read_text(encoding="ascii").split()[:2]
    except OSError:
        return 0, 0
    return int(address) * _PAGE, int(resident) * _PAGE
