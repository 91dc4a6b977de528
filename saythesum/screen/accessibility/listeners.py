"""Who listens on the accessibility bus of Linux, to which events, and whether they are ready for them.

A screen reader that meets a new program asks it something first. What the program says before the answer is read is
lost, all but that its window is active: Orca 43 on a busy machine said the window's name and fell silent, once in
twenty starts. So each listener is called first; one that answers has met the program.
Source: AT-SPI's interfaces org.a11y.Bus and org.a11y.atspi.Registry, method GetRegisteredEvents; D-Bus's Peer.Ping.
"""

import itertools
import re
import subprocess
from collections.abc import Callable, Iterable, Sequence
from threading import Event, Thread

_LONGEST_S = 0.5
_SOON_S, _LATER_S = 0.25, 5.0
_LOOKS_SOON = 12
"""A screen reader may ask for its events a while after it has come; another may come when one is there already."""
_LONGEST_READY_S = 10.0
"""Of one that does not answer; then it gets what it takes."""
_CALLS = 2
"""By the second answer whatever was asked before the first one has been answered, too."""
_BUS = ("--session", "--dest=org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus.GetAddress")
_EVENTS = (
    "--dest=org.a11y.atspi.Registry",
    "/org/a11y/atspi/registry",
    "org.a11y.atspi.Registry.GetRegisteredEvents",
)
_PING = "org.freedesktop.DBus.Peer.Ping"
_STRING = re.compile(r'string "([^"]*)"')
_ANNOUNCEMENT = "announcement"
"""Live text that has changed."""
_DESCRIPTION = "accessibledescription"
"""The change of a description."""


class Listeners:
    """Found out by a thread of its own: the bus may take its time, or not answer."""

    def __init__(self, ready: Callable[[], None]) -> None:
        """`ready`: called by that thread."""
        self._tell_ready = ready
        self._is_ready = self._hears_changes = self._hears_live_text = False
        self._has_left = Event()

    def come(self) -> None:
        """A screen reader has. What was found out of an earlier one is forgotten."""
        self.left()
        self._has_left = Event()
        Thread(target=self._look, args=(self._has_left,), name="listeners", daemon=True).start()

    def left(self) -> None:
        self._has_left.set()
        self._is_ready = self._hears_changes = self._hears_live_text = False

    @property
    def are_ready(self) -> bool:
        """All that were there when the last one came."""
        return self._is_ready

    def hear_changes(self) -> bool:
        """Any of them is told when a text comes; otherwise somebody is about to come, and finds it standing."""
        return self._hears_changes

    def hear_live_text(self) -> bool:
        """Any of them."""
        return self._hears_live_text

    def _look(self, has_left: Event) -> None:
        for look in itertools.count():
            events = registered_events()
            if look == 0:
                _wait_until_ready({event for event in events or () if event.startswith(":")})
            if has_left.is_set():
                return
            if events is not None:
                self._hears_live_text = any(_ANNOUNCEMENT in event.lower() for event in events)
                self._hears_changes = self._hears_live_text or any(_DESCRIPTION in event.lower() for event in events)
            if look == 0:
                self._is_ready = True
                self._tell_ready()
            if has_left.wait(_SOON_S if look < _LOOKS_SOON else _LATER_S):
                return


def _wait_until_ready(names: Iterable[str]) -> None:
    """`names`: of connections to the bus."""
    address = bus_address()
    for name in names:
        for _ in range(_CALLS):
            _asked(f"--bus={address}", f"--dest={name}", "/", _PING, longest_s=_LONGEST_READY_S)


def registered_events() -> Sequence[str] | None:
    """Names and listeners alike. None where the bus, or the tool that asks it, is missing or does not answer."""
    address = bus_address()
    return _asked(f"--bus={address}", *_EVENTS) if address else None


def bus_address() -> str | None:
    return next(iter(_asked(*_BUS) or ()), None)


def _asked(*arguments: str, longest_s: float = _LONGEST_S) -> Sequence[str] | None:
    command = ("dbus-send", "--print-reply", f"--reply-timeout={round(longest_s * 1000)}", *arguments)
    try:
        done = subprocess.run(  # noqa: S603
            command, check=False, capture_output=True, text=True, timeout=longest_s, stdin=subprocess.DEVNULL
        )
    except (OSError, subprocess.SubprocessError):
        return None
    return _STRING.findall(done.stdout) if done.returncode == 0 else None
