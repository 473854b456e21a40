"""Parameters of which the plain run takes some and the slow run the others."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def every_third(names: Iterable[Any]) -> list[Any]:
    """The first, fourth and so on as they are, the others with the slow mark."""
    slow = pytest.mark.slow
    return [pytest.param(name, marks=[slow] if n % 3 else []) for n, name in enumerate(names)]
