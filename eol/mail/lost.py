"""Reports that somebody waits for while their mail is no longer in the outbox, as after a restored backup."""

from __future__ import annotations

from datetime import datetime
from itertools import groupby

from eol.facts.reader import Reader, Row, rows
from eol.mail import outbox
from eol.mail.asked import Asked
from eol.mail.record import writing
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings

_MOST_REVISIONS = 50


def lost_reports(reader: Reader, folder: PlantFolder) -> list[Row]:
    """Return the rows of `report_sent` that wait for a mail that is not in the outbox."""
    there = {mail.message_id for mail in outbox.kept(folder.outbox)}
    return [row for row in rows(reader.run("mail", "waiting")) if row["message_id"] not in there]


def make_again(folder: PlantFolder, settings: Settings, *, now: datetime) -> int:
    """Make lost mails anew under their old ids, for those alone who have not got them.

    The caller holds `mail_lock`.

    Returns:
        How many mails were made; those of a plant that has changed its name or sender since cannot be.

    Raises:
        StoreError: the store cannot be used.
        ReportError: a page or a picture cannot be drawn.
    """
    from eol.mail.leave import keep_for, make_report, message_id

    with writing(folder) as store:
        lost = lost_reports(store, folder)
    made = 0
    for (day, shift, letter), group in groupby(
        lost, key=lambda row: (row["production_date"], row["shift"], row["message_id"])
    ):
        ids = (message_id(settings, day, shift or "between", n) for n in range(_MOST_REVISIONS))
        revision = next((n for n, one in enumerate(ids) if one == letter), None)
        if revision is not None:
            recipients = tuple(row["recipient"] for row in group)
            report = make_report(folder, settings, Asked(day, shift, None, revision), now=now)
            keep_for(folder, report, recipients, now)
            made += 1
    return made
