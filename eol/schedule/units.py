"""The text by which a machine calls `eol run`: a systemd service and timer, a cron line, a Windows task.

Each is made for one plant folder and one Python; paths may hold blanks, umlauts and signs that the
other side gives a meaning.
"""

from __future__ import annotations

import hashlib
import shlex
import subprocess
from dataclasses import dataclass
from pathlib import PurePath
from xml.sax.saxutils import escape

from eol.errors import UsageError
from eol.mail.leave import slug

KINDS = ("systemd", "cron", "windows")

_LIMIT = "PT2H"


@dataclass(frozen=True, slots=True)
class Unit:
    """One file to be put in place: where, what is in it, and how it is taken into use."""

    place: str
    text: str
    use: str


def schedule_units(
    kind: str, root: PurePath, *, python: PurePath, user: str, seconds: int = 60
) -> tuple[Unit, ...]:
    """Return what makes a machine do what is due in a plant, again and again.

    Args:
        kind: `systemd`, `cron` or `windows`.
        root: the plant folder, absolute.
        python: the interpreter that the tool is installed in, absolute.
        user: whom it runs as; that user must be able to write to the plant folder.
        seconds: from one call to the next; cron and Windows count whole minutes.

    Raises:
        UsageError: the kind is none of the three, or a path cannot be written there.
    """
    for path in (root, python):
        if not str(path).isprintable():
            raise UsageError(
                "a path with line breaks cannot be put in a schedule", where=repr(path)
            )
    if kind == "systemd":
        return _systemd(root, python, user, seconds)
    if kind == "cron":
        return (_cron(root, python, seconds),)
    if kind == "windows":
        return (_windows(root, python, user, seconds),)
    raise UsageError(f"there is no schedule of kind '{kind}'", hint="Kinds: " + ", ".join(KINDS))


def _call(root: PurePath, python: PurePath) -> list[str]:
    # -P: a folder named eol where it is called from must not stand in for the package.
    return [str(python), "-P", "-m", "eol", "--plant", str(root), "run"]


def _name(root: PurePath) -> str:
    """A name in ASCII, of one plant folder alone."""
    return f"eol-{slug(root.name)}-{hashlib.sha256(str(root).encode()).hexdigest()[:6]}"


def _systemd(root: PurePath, python: PurePath, user: str, seconds: int) -> tuple[Unit, Unit]:
    name = _name(root)
    program, *arguments = _call(root, python)
    # A `$` is a variable in the arguments alone, a `%` a specifier everywhere.
    call = [_of_systemd(program), *(_of_systemd(one).replace("$", "$$") for one in arguments)]
    service = f"""\
[Unit]
Description=End-of-line reports of the plant in {_plain(root.name)}
Wants=network-online.target
After=network-online.target

[Service]
Type=oneshot
User={user}
ExecStart={" ".join(call)}
# 1: done, but something needs a look; the page and the mail say what.
SuccessExitStatus=1
TimeoutStartSec=2h
Nice=5
NoNewPrivileges=yes
PrivateTmp=yes
"""
    timer = f"""\
[Unit]
Description=Calls {name}.service

[Timer]
OnBootSec=60s
OnUnitInactiveSec={seconds}s
AccuracySec=5s

[Install]
WantedBy=timers.target
"""
    enable = f"systemctl daemon-reload && systemctl enable --now {name}.timer"
    return (
        Unit(f"/etc/systemd/system/{name}.service", service, ""),
        Unit(f"/etc/systemd/system/{name}.timer", timer, enable),
    )


def _of_systemd(word: str) -> str:
    """A word of a command line as systemd reads it; its own escapes are those of C."""
    plain = word.replace("\\", "\\\\").replace('"', '\\"').replace("%", "%%")
    return f'"{plain}"' if set(word) - _BARE else plain


_BARE = set("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/._-")


def _plain(text: str) -> str:
    return text.replace("%", "%%")


def _cron(root: PurePath, python: PurePath, seconds: int) -> Unit:
    minutes = max(1, round(seconds / 60))
    when = "*" if minutes == 1 else f"*/{minutes}"
    call = shlex.join(_call(root, python))
    log = shlex.quote(str(root / "run.log"))
    # For cron a bare % ends the command.
    line = f"{call} >>{log} 2>&1".replace("%", "\\%")
    return Unit("crontab", f"{when} * * * * {line}\n", "crontab -e")


def _windows(root: PurePath, python: PurePath, user: str, seconds: int) -> Unit:
    """A task as XML in plain ASCII: its letters survive any code page."""
    program, *arguments = _call(root, python)
    words = {
        "program": program,
        "arguments": subprocess.list2cmdline(arguments),
        "folder": str(root),
        "user": user,
        "title": f"End-of-line reports of the plant in {root.name}",
    }
    fields = {name: _ascii(escape(text)) for name, text in words.items()}
    name = _name(root)
    text = _TASK.format(minutes=max(1, round(seconds / 60)), limit=_LIMIT, **fields)
    use = f"schtasks /Create /TN {name} /XML {name}.xml /RU {user} /RP *"
    return Unit(f"{name}.xml", text, use)


def _ascii(text: str) -> str:
    return text.encode("ascii", "xmlcharrefreplace").decode("ascii")


_TASK = """\
<?xml version="1.0"?>
<Task version="1.2" xmlns="http://schemas.microsoft.com/windows/2004/02/mit/task">
  <RegistrationInfo><Description>{title}</Description></RegistrationInfo>
  <Triggers>
    <TimeTrigger>
      <Repetition><Interval>PT{minutes}M</Interval></Repetition>
      <StartBoundary>2026-01-01T00:00:00</StartBoundary>
    </TimeTrigger>
  </Triggers>
  <Principals>
    <Principal id="Author"><UserId>{user}</UserId><LogonType>Password</LogonType></Principal>
  </Principals>
  <Settings>
    <MultipleInstancesPolicy>IgnoreNew</MultipleInstancesPolicy>
    <DisallowStartIfOnBatteries>false</DisallowStartIfOnBatteries>
    <StopIfGoingOnBatteries>false</StopIfGoingOnBatteries>
    <StartWhenAvailable>true</StartWhenAvailable>
    <ExecutionTimeLimit>{limit}</ExecutionTimeLimit>
  </Settings>
  <Actions Context="Author">
    <Exec>
      <Command>{program}</Command>
      <Arguments>{arguments}</Arguments>
      <WorkingDirectory>{folder}</WorkingDirectory>
    </Exec>
  </Actions>
</Task>
"""
