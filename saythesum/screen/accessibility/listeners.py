"""Which events assistive software has asked for, from the accessibility bus of Linux.

Source: AT-SPI's interfaces org.a11y.Bus and org.a11y.atspi.Registry, method GetRegisteredEvents.
"""

import itertools
import re
import subprocess
from collections.abc import Sequence
from threading import Event, Thread

_LONGEST_S = 0.5
_SOON_S, _LATER_S = 0.25, 5.0
_LOOKS_SOON = 12
"""A screen reader may ask for its events a while after it has come; another may come when one is there already."""
_BUS = ("--session", "--dest=org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus.GetAddress")
_EVENTS = (
    "--dest=org.a11y.atspi.Registry",
    "/org/a11y/atspi/registry",
    "org.a11y.atspi.Registry.GetRegisteredEvents",
)
_STRING = re.compile(r'string "([^"]*)"')
_ANNOUNCEMENT = "announcement"
"""Live text that has changed."""


class LiveTextListeners:
    """Whether anybody hears live text, as a thread of its own finds out: the bus may take its time, or not answer."""

    def __init__(self) -> None:
        self._found = False
        self._has_left = Event()

    def come(self) -> None:
        """A screen reader has. What was found out of an earlier one is forgotten."""
        self.left()
        self._found, self._has_left = False, Event()
        Thread(target=self._look, args=(self._has_left,), name="listeners", daemon=True).start()

    def left(self) -> None:
        self._has_left.set()

    def __call__(self) -> bool:
        return self._found

    def _look(self, has_left: Event) -> None:
        for look in itertools.count():
            events = registered_events()
            if events is not None and not has_left.is_set():
                self._found = any(_ANNOUNCEMENT in event.lower() for event in events)
            if has_left.wait(_SOON_S if look < _LOOKS_SOON else _LATER_S):
                return


def registered_events() -> Sequence[str] | None:
    """Names and listeners alike. None where the bus, or the tool that asks it, is missing or does not answer."""
    address = bus_address()
    return _asked(f"--bus={address}", *_EVENTS) if address else None


def bus_address() -> str | None:
    return next(iter(_asked(*_BUS) or ()), None)


def _asked(*arguments: str) -> Sequence[str] | None:
    command = ("dbus-send", "--print-reply", f"--reply-timeout={round(_LONGEST_S * 1000)}", *arguments)
    try:
        done = subprocess.run(  # noqa: S603
            command, check=False, capture_output=True, text=True, timeout=_LONGEST_S, stdin=subprocess.DEVNULL
        )
    except (OSError, subprocess.SubprocessError):
        return None
    return _STRING.findall(done.stdout) if done.returncode == 0 else None
