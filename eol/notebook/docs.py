"""The dictionary in a notebook: it shows as a table, of everything or of one table or view."""

from __future__ import annotations

from html import escape

import polars as pl

from eol.ask.dictionary import Dictionary, RelationWords


class Docs:
    """What the copy holds, in words; call it with a name to see one table or view column by column.

    Example:
        `plant.docs` lists all, `plant.docs("ftt_by_shift")` tells one, `plant.docs.frame` is to search in.
    """

    def __init__(self, words: Dictionary, shown: RelationWords | None = None) -> None:
        self.words = words
        self._shown = shown

    def __call__(self, name: str) -> Docs:
        """Return the words of one table or view.

        Raises:
            UsageError: there is none of that name; the nearest is named.
        """
        return Docs(self.words, self.words.relation(name))

    @property
    def frame(self) -> pl.DataFrame:
        """One row a column: name of its table or view, kind, column, type, unit, rules, comment."""
        frame = self.words.frame
        return frame if self._shown is None else frame.filter(pl.col("name") == self._shown.name)

    def __repr__(self) -> str:
        """Show it as text."""
        return "\n".join(" | ".join(row) for row in (self._title(), *self._rows()))

    def _repr_html_(self) -> str:
        """Show it as a table, escaped."""
        head = "".join(f"<th>{escape(word)}</th>" for word in self._title())
        body = "".join(
            "<tr>" + "".join(f"<td>{escape(word)}</td>" for word in row) + "</tr>"
            for row in self._rows()
        )
        about = f"<p>{escape(self._shown.comment)}</p>" if self._shown else ""
        return f"{about}<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"

    def _title(self) -> tuple[str, ...]:
        return ("column", "type", "unit", "comment") if self._shown else ("name", "kind", "comment")

    def _rows(self) -> list[tuple[str, ...]]:
        if self._shown:
            return [(c.name, c.type, c.unit, c.comment) for c in self._shown.columns]
        return [(r.name, r.kind, r.comment) for r in self.words.relations]
