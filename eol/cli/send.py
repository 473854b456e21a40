"""`eol send`: mails the report of a shift."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from eol.cli.output import json_option, near, print_json, say

if TYPE_CHECKING:
    from eol.mail.send import SendResult

_WORDS = {
    "sent": "sent",
    "later": "waits, the relay puts it off",
    "away": "waits",
    "refused": "refused",
    "failed": "failed",
    "large": "too large, sent without its page",
    "settings": "waits, settings must be mended",
}


@click.command(epilog="Example: eol send --shift 2026-09-08/day --dry-run")
@click.option(
    "--shift", metavar="DATE/SHIFT", help="The shift; the last one that ended where not given."
)
@click.option(
    "--dry-run", is_flag=True, help="Only write the mail as a file into the folder reports."
)
@json_option
@click.pass_obj
def command(plant: Path, shift: str | None, dry_run: bool, as_json: bool) -> int:
    """Mail the report of a shift to those named in [mail], once, and what waits from before.

    It is mailed again only where a late file moved a figure that it stated. User and password come
    from EOL_MAIL_USER and EOL_MAIL_PASSWORD, or from mail.env in the plant folder. Exit code 1:
    somebody has not got it yet; 3: the settings must be mended before anything leaves.
    """
    from eol.errors import MailError
    from eol.mail.send import send_report
    from eol.plant.folder import open_folder

    result = send_report(open_folder(plant), shift=shift, dry_run=dry_run)
    if as_json:
        print_json(result)
    else:
        _tell(result)
    if any(one.state == "settings" for one in result.deliveries):
        return MailError.exit_code
    return int(result.needs_a_look)


def _tell(result: SendResult) -> None:
    if result.mail:
        click.echo(near(result.mail))
        return
    if result.message_id is None:
        say("The report of this shift had left before, and none of its figures has moved.")
    for one in result.deliveries:
        click.echo(
            f"{one.recipient}: {_WORDS[one.state]}" + (f": {one.words}" if one.words else "")
        )
