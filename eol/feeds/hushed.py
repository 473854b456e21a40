"""Keeps what polars' own threads print when they panic off stderr; Python gets it as an exception."""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

import polars as pl

_STDERR = 2
_ONE_AT_A_TIME = Lock()


@contextmanager
def hushed() -> Iterator[None]:
    """Hold back what is written to the process's stderr while the block runs.

    It is written out afterwards, so nothing of another thread is lost; of a block that ends in
    polars' PanicException it is dropped, for it is the trace of that exception.
    """
    with _ONE_AT_A_TIME, tempfile.TemporaryFile() as held:
        if sys.stderr is not None:
            sys.stderr.flush()
        real = os.dup(_STDERR)
        os.dup2(held.fileno(), _STDERR)
        try:
            yield
        except pl.exceptions.PanicException:
            held.truncate(0)
            raise
        finally:
            os.dup2(real, _STDERR)
            os.close(real)
            held.seek(0)
            os.write(_STDERR, held.read())
