"""One line for a page that says where to look first after the cause of a defect."""

from __future__ import annotations

from eol.facts.reader import Reader
from eol.facts.trace import trace_code


def where_to_start(
    reader: Reader,
    code: str,
    *,
    test: str | None = None,
    zone: str | None = None,
    since: str | None = None,
    until: str | None = None,
) -> str | None:
    """Say where to start, as `sealer robot R07, sealer bead up to 4.73 mm: 46 of 444 against 0 of 756`.

    Args:
        reader: the published copy of the store.
        code: the code.
        test: its test, where several have it.
        zone: only defects there; any where None.
        since: first shift of testing, as DATE/SHIFT; 90 days before the last where None.
        until: last shift of testing, as DATE/SHIFT; the data clock where None.

    Returns:
        The line, without a word about persons (rule 18); None where nothing may be named.

    Raises:
        UsageError: as for `trace_code`.
    """
    return trace_code(reader, code, test=test, zone=zone, since=since, until=until).start
