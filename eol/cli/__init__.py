"""The `eol` command: finds the plant folder and loads each command when it is called.

The one edge where errors become words on stderr and exit codes.
"""

from __future__ import annotations

import os
import sys
from importlib import import_module
from pathlib import Path

import click

from eol.errors import EolError

# Command, module of eol.cli, and the line that `eol --help` shows; so that help imports none of them.
COMMANDS: dict[str, tuple[str, str]] = {
    "demo": ("demo", "Make the demo plant, load it and write a page."),
    "init": ("init", "Make a plant folder with a commented plant.toml."),
    "ingest": ("ingest", "Load files, or what lies ready in the inbox."),
    "status": ("status", "Tell whether the figures can be believed."),
    "report": ("report", "Write the page of a shift."),
    "sql": ("sql", "Ask the published copy in SQL."),
    "unit": ("unit", "Tell everything known of a unit, in order."),
    "trace": ("trace", "Tell where a defect comes from."),
    "contain": ("contain", "List the units that may have a fault."),
    "action": ("action", "Tell whether actions worked, or enter one."),
    "verify": ("verify", "Compute all stamps anew and tell what differs."),
    "send": ("send", "Mail the report of a shift."),
    "run": ("run", "Do all that is due: inbox, reports, mails, alarms, backup."),
    "schedule": ("schedule", "Print what makes a machine call eol run."),
    "publish": ("publish", "Renew the copy that is read, or write Parquet."),
    "fleet": ("fleet", "Ask a lake of many plants."),
    "backup": ("backup", "Make a checked copy of the plant."),
}

_INTERRUPTED = 130
_FAILED = 3


class LazyGroup(click.Group):
    """A group whose commands are imported when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order of a first day."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import a command's module and return its `command`."""
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"eol.cli.{COMMANDS[cmd_name][0]}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in COMMANDS.items()])


@click.group(
    cls=LazyGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Example: eol --plant /srv/quillbrook report --shift 2026-09-08/day",
)
@click.option(
    "--plant",
    "plant",
    metavar="DIR",
    default=None,
    help="The plant folder; else EOL_PLANT, else this folder.",
)
@click.version_option(package_name="eol-pareto", prog_name="eol")
@click.pass_context
def cli(ctx: click.Context, plant: str | None) -> None:
    """End-of-line test results: first-time-through, defect Pareto and defects per hundred units by shift."""
    ctx.obj = Path(plant or os.environ.get("EOL_PLANT") or ".")


def main(arguments: list[str] | None = None) -> None:
    """Run a command and leave with its exit code; nothing but this turns errors into exit codes."""
    sys.exit(run(arguments))


def run(arguments: list[str] | None = None) -> int:
    """Run a command and return its exit code: 0 done, 1 done but look, 2 wrong, 3 failed, 130 interrupted."""
    try:
        code = cli.main(args=arguments, prog_name="eol", standalone_mode=False)
    except EolError as error:
        click.echo(f"eol: {error}", err=True)
        return error.exit_code
    except click.FileError as error:
        error.show()
        return _FAILED
    except click.ClickException as error:
        error.show()
        return 2
    except (click.Abort, KeyboardInterrupt):
        click.echo("eol: interrupted; what was finished is kept.", err=True)
        return _INTERRUPTED
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except Exception as error:
        _tell_fault(error)
        return _FAILED
    return code if isinstance(code, int) else 0


def _tell_fault(error: Exception) -> None:
    """Tell a fault of the program itself without a traceback; EOL_DEBUG=1 shows it."""
    if os.environ.get("EOL_DEBUG"):
        raise error
    click.echo(
        f"eol: the program failed: {type(error).__name__}: {error}\n"
        "  This is a fault of the tool; the store holds what was finished before."
        " Run it again with EOL_DEBUG=1 and send what it prints.",
        err=True,
    )
