"""What all tests share: property tests are never timed, for a shared machine has no steady speed."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("plain", deadline=None, derandomize=True)
settings.load_profile("plain")
