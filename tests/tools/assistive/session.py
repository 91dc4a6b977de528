"""A private X server with a session bus and an accessibility bus of its own."""

import os
import signal
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from tests.tools.x_server import XServer, x_server

LONGEST_S = 60
BUS = "DBUS_SESSION_BUS_ADDRESS"
_STATUS = ("--session", "--print-reply", "--dest=org.a11y.Bus", "/org/a11y/bus")
_SET = ("org.freedesktop.DBus.Properties.Set", "string:org.a11y.Status", "string:IsEnabled")


@dataclass
class Session:
    server: XServer
    environment: dict[str, str]
    bus: subprocess.Popen[str] = field(init=False)

    def enable(self, *, is_on: bool = True) -> None:
        """As a screen reader does when it starts; programs publish nothing until then."""
        value = f"variant:boolean:{'true' if is_on else 'false'}"
        subprocess.run(["dbus-send", *_STATUS, *_SET, value], env=self.environment, check=True, capture_output=True)

    def lose_bus(self) -> None:
        """With all that it has started: the accessibility bus, its registry."""
        with suppress(ProcessLookupError):
            os.killpg(self.bus.pid, signal.SIGTERM)
        self.bus.wait()

    def start_bus(self) -> None:
        """Also a second time, where the first one was."""
        address = self.environment.get(BUS, "").partition(",guid=")[0]
        where = ("--address", address) if address else ()
        self.bus = subprocess.Popen(
            ["dbus-daemon", "--session", "--nofork", "--print-address", *where],
            env={name: value for name, value in self.environment.items() if name != BUS},
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            start_new_session=True,
        )
        assert self.bus.stdout is not None
        self.environment[BUS] = self.bus.stdout.readline().strip()

    def wait_for_window(self) -> None:
        """Until anything is drawn on the empty screen."""
        deadline = time.perf_counter() + LONGEST_S
        while (self.server.picture() == self.server.picture()[0, 0]).all():
            assert time.perf_counter() < deadline, "no window has come"
            time.sleep(0.05)

    def focus_window(self) -> None:
        """There is no window manager to do it."""
        self.server.tool("windowfocus", self.window())

    def resize_window(self, width: int, height: int) -> None:
        self.server.tool("windowsize", "--sync", self.window(), str(width), str(height))

    def window_at(self) -> tuple[int, int]:
        """Its top left corner on the screen."""
        told = self.server.tool("getwindowgeometry", "--shell", self.window()).splitlines()
        left, top = (next(line for line in told if line.startswith(f"{side}=")) for side in "XY")
        return int(left[2:]), int(top[2:])

    def window(self) -> str:
        """The number of the one that lies in the middle of the screen."""
        told = self.server.tool("mousemove", "600", "400", "getmouselocation", "--shell")
        return next(line.removeprefix("WINDOW=") for line in told.splitlines() if line.startswith("WINDOW="))


@contextmanager
def assistive_session(
    folder: Path, screen: Callable[[Path], AbstractContextManager[XServer]] = x_server
) -> Iterator[Session]:
    home, run = folder / "home", folder / "run"
    home.mkdir(exist_ok=True)
    run.mkdir(mode=0o700, exist_ok=True)
    with screen(folder) as server:
        ours = {"HOME": str(home), "XDG_RUNTIME_DIR": str(run), "XDG_CONFIG_HOME": str(home / ".config")}
        ours |= {"XDG_DATA_HOME": str(home / ".local"), "GSETTINGS_BACKEND": "memory", "LC_ALL": "C.UTF-8"}
        ours |= {"SDL_AUDIODRIVER": "dummy"}
        without = ("WAYLAND_DISPLAY", "AT_SPI_BUS_ADDRESS", BUS)
        environment = {name: value for name, value in server.environment.items() if name not in without} | ours
        session = Session(server, environment)
        session.start_bus()
        try:
            yield session
        finally:
            session.lose_bus()
