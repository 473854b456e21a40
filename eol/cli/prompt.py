"""The prompt of `eol sql`: one statement after the other, with history and completion of names."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from eol.cli.output import say
from eol.errors import EolError

if TYPE_CHECKING:
    import polars as pl
    from prompt_toolkit import PromptSession
    from prompt_toolkit.key_binding import KeyBindings

    from eol.ask.session import Session

KEYWORDS = (
    *(
        "SELECT",
        "FROM",
        "WHERE",
        "GROUP BY",
        "ORDER BY",
        "LIMIT",
        "JOIN",
        "LEFT JOIN",
        "ON",
        "USING",
    ),
    *(
        "AS",
        "AND",
        "OR",
        "NOT",
        "IN",
        "BETWEEN",
        "IS NULL",
        "HAVING",
        "QUALIFY",
        "WITH",
        "UNION ALL",
    ),
    *("DISTINCT", "CASE", "WHEN", "THEN", "ELSE", "END", "DESC", "FILTER", "OVER", "PARTITION BY"),
    *("DESCRIBE", "SUMMARIZE", "EXPLAIN", "SHOW TABLES"),
)

LEAVE = ("quit", "exit", "\\q")
_HELP = "; and Enter end a statement, Tab completes names, Ctrl-C stops one, quit or Ctrl-D leaves."


def ask_on(
    session: Session,
    values: dict[str, object],
    give: Callable[[pl.DataFrame], None],
    *,
    prompts: PromptSession[str] | None = None,
) -> None:
    """Ask statements at a prompt until the person leaves; a wrong one is told, and the next is asked.

    Args:
        session: the session that they run in.
        values: values for `$name`.
        give: prints an answer.
        prompts: where the lines come from; a terminal where None.
    """
    prompts = prompts or _terminal(session)
    say(_HELP)
    while True:
        try:
            text = prompts.prompt("eol> ").strip()
        except KeyboardInterrupt:
            continue
        except EOFError:
            return
        if text.rstrip(";").strip().lower() in LEAVE:
            return
        if text.strip(";"):
            _ask(session, text, values, give)


def _ask(
    session: Session, text: str, values: dict[str, object], give: Callable[[pl.DataFrame], None]
) -> None:
    try:
        give(session.ask(text, values))
    except EolError as error:
        say(f"eol: {error}")
    except KeyboardInterrupt:
        say("eol: stopped.")
    except RuntimeError as error:
        # DuckDB sees Ctrl-C before Python does.
        if "interrupt" not in str(error).lower():
            raise
        say("eol: stopped.")


def _terminal(session: Session) -> PromptSession[str]:
    from prompt_toolkit import PromptSession
    from prompt_toolkit.completion import WordCompleter
    from prompt_toolkit.history import FileHistory

    words = WordCompleter(list(completions(session.columns())), ignore_case=True)
    path = history_file()
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
    history = FileHistory(str(path)) if os.access(path.parent, os.W_OK) else None
    return PromptSession(
        history=history,
        completer=words,
        complete_while_typing=False,
        multiline=True,
        key_bindings=keys(),
        prompt_continuation="...> ",
    )


def completions(columns: Iterable[tuple[str, str, str, str]]) -> Iterable[str]:
    """Return the words to complete: tables and views, their columns, and the keywords of SQL."""
    names = dict.fromkeys(
        word
        for _, schema, table, column in columns
        for word in (table if schema == "main" else f"{schema}.{table}", column)
    )
    return [*sorted(names), *KEYWORDS]


def history_file() -> Path:
    """Return where the statements of a person are kept: EOL_HISTORY, else below the home folder."""
    named = os.environ.get("EOL_HISTORY")
    return Path(named) if named else Path.home() / ".local" / "state" / "eol" / "sql_history"


def keys() -> KeyBindings:
    """Return the keys: Enter ends a statement that has its semicolon, a word that leaves, and an empty line."""
    from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent

    bindings = KeyBindings()

    @bindings.add("enter")
    def _(event: KeyPressEvent) -> None:
        text = event.current_buffer.text.strip()
        if not text or text.endswith(";") or text.lower() in LEAVE:
            event.current_buffer.validate_and_handle()
        else:
            event.current_buffer.newline()

    return bindings
