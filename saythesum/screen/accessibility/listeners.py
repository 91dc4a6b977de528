"""Which events assistive software has asked for, from the accessibility bus of Linux.

Source: AT-SPI's interfaces org.a11y.Bus and org.a11y.atspi.Registry, method GetRegisteredEvents.
"""

import re
import subprocess

_LONGEST_S = 0.5
_LOOKS = 3
"""So many texts are asked about after a screen reader has come: it may not be listening yet when it takes the first."""
_BUS = ("--session", "--dest=org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus.GetAddress")
_EVENTS = (
    "--dest=org.a11y.atspi.Registry",
    "/org/a11y/atspi/registry",
    "org.a11y.atspi.Registry.GetRegisteredEvents",
)
_STRING = re.compile(r'string "([^"]*)"')
_ANNOUNCEMENT = "Announcement"
"""Live text that has changed."""


class LiveTextListeners:
    """Whether anybody hears live text. What was found out is kept until the next screen reader comes."""

    def __init__(self) -> None:
        self._looks_left = _LOOKS
        self._found = False

    def forget(self) -> None:
        self._looks_left, self._found = _LOOKS, False

    def __call__(self) -> bool:
        if not self._found and self._looks_left:
            self._looks_left -= 1
            self._found = any(_ANNOUNCEMENT.lower() in event.lower() for event in registered_events())
        return self._found


def registered_events() -> list[str]:
    """Names and listeners alike; none where the bus, or the tool that asks it, is missing or does not answer."""
    address = bus_address()
    return _asked(f"--bus={address}", *_EVENTS) if address else []


def bus_address() -> str | None:
    return next(iter(_asked(*_BUS)), None)


def _asked(*arguments: str) -> list[str]:
    command = ("dbus-send", "--print-reply", f"--reply-timeout={round(_LONGEST_S * 1000)}", *arguments)
    try:
        done = subprocess.run(  # noqa: S603
            command, check=False, capture_output=True, text=True, timeout=_LONGEST_S, stdin=subprocess.DEVNULL
        )
    except (OSError, subprocess.SubprocessError):
        return []
    return _STRING.findall(done.stdout)
