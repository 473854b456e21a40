"""The command as a person calls it: arguments in; exit code, data and talk out."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command left: its exit code, what it printed as data and what it said."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The data, read as JSON."""
        return json.loads(self.out)


Eol = Callable[..., Answer]
"""Calls the command: `eol("--plant", folder, "status")`."""
