"""The one error tree. Each message says what, where and what to do next; each class carries its exit code.

EolError
├── UsageError         the caller was wrong                      exit 2
├── PlantFileError     plant.toml is missing or wrong            exit 2
├── FeedFileError      a file as a whole cannot be used          exit 3
├── StoreError         the store is locked, damaged or full      exit 3
├── ReportError        a page cannot be drawn or written         exit 3
├── MailError          a mail cannot leave                       exit 3
└── EngineError        a foreign engine is missing or refuses    exit 2
"""

from __future__ import annotations

from typing import ClassVar


class EolError(Exception):
    """Something that stops a command, told in three parts.

    Args:
        what: what went wrong, in one sentence.
        where: the file, row, column or key it happened at; empty when there is none.
        hint: what to do next; empty falls back on the hint of the class.
    """

    exit_code: ClassVar[int] = 3
    default_hint: ClassVar[str] = ""

    def __init__(self, what: str, *, where: str = "", hint: str = "") -> None:
        self.what = what
        self.where = where
        self.hint = hint or self.default_hint
        super().__init__(str(self))

    def __str__(self) -> str:
        parts = [f"{self.where}: {self.what}" if self.where else self.what]
        if self.hint:
            parts.append(self.hint)
        return "\n  ".join(parts)


class UsageError(EolError):
    """The command was called with something it cannot use."""

    exit_code = 2


class PlantFileError(EolError):
    """The plant folder or its plant.toml is missing or wrong."""

    exit_code = 2
    default_hint = "Mend plant.toml and run the command again; nothing was changed."


class FeedFileError(EolError):
    """A file as a whole cannot be read or belongs to no feed."""

    default_hint = "Nothing of this file was loaded; mend or replace it and load it again."


class StoreError(EolError):
    """The store cannot be opened, read or written."""

    default_hint = "The store is unharmed; run the command again when the cause is gone."


class ReportError(EolError):
    """A page cannot be drawn or written."""


class MailError(EolError):
    """A mail cannot leave."""


class EngineError(EolError):
    """A foreign engine is missing or refuses."""

    exit_code = 2
