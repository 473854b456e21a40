"""The fixtures of mail and schedule."""

from mail_fixtures import plant, running_server, server, shift_plant, undrawn

__all__ = ["plant", "running_server", "server", "shift_plant", "undrawn"]
