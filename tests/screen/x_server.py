"""An X server without a screen, and a practice in a window on it."""

import json
import mmap
import os
import struct
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeAlias

Told: TypeAlias = dict[str, Any]


class XServer:
    """Its own ground is white."""

    def __init__(self, folder: Path, size: tuple[int, int] = (1366, 768)) -> None:
        read_end, write_end = os.pipe()
        width, height = size
        screen = ("-screen", "0", f"{width}x{height}x24", "-fbdir", str(folder))
        self._process = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write_end), "-nolisten", "tcp", "-wr", *screen],
            pass_fds=[write_end],
            stderr=subprocess.DEVNULL,
        )
        os.close(write_end)
        with os.fdopen(read_end) as told:
            number = told.readline().strip()
        assert number, "Xvfb did not start"
        self.environment = {**os.environ, "DISPLAY": f":{number}", "SDL_VIDEODRIVER": "x11"}
        self._picture = folder / "Xvfb_screen0"

    def keys(self, *names: str) -> None:
        """Real key events. A name of two digits is a key's code."""
        subprocess.run(["xdotool", "key", *names], env=self.environment, check=True)

    def tool(self, *arguments: str) -> str:
        done = subprocess.run(["xdotool", *arguments], env=self.environment, check=True, capture_output=True, text=True)
        return done.stdout

    def pixel(self, x: int, y: int) -> tuple[int, int, int]:
        """Of the screen as it is now. Source of the format: X11/XWDFile.h, 32-bit numbers, most significant first."""
        with self._picture.open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as picture:
            header = struct.unpack(">25I", picture[:100])
            header_size, bytes_per_line, colours = header[0], header[12], header[19]
            at = header_size + 12 * colours + y * bytes_per_line + 4 * x
            blue, green, red = picture[at : at + 3]
            return red, green, blue

    def kill(self) -> None:
        self._process.kill()
        self._process.wait()


@contextmanager
def x_server(folder: Path) -> Iterator[XServer]:
    server = XServer(folder)
    try:
        yield server
    finally:
        server.kill()


class WindowProcess:
    """tests.screen.practice_in_window; `told` waits for its next line."""

    def __init__(self, server: XServer, size: str = "800x600", colours: str = "black on white") -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.screen.practice_in_window", size, colours],
            env=server.environment,
            stdout=subprocess.PIPE,
            text=True,
        )
        self.all_told: list[Told] = []

    def told(self) -> Told:
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        assert line, "the window's process has ended"
        self.all_told.append(json.loads(line))
        return self.all_told[-1]

    def told_of(self, presses: int) -> Told:
        for _ in range(presses):
            self.told()
        return self.all_told[-1]

    def ended(self) -> int:
        return self._process.wait(timeout=20)

    def terminate(self) -> None:
        self._process.terminate()

    def kill(self) -> None:
        self._process.kill()
        self._process.communicate()


@contextmanager
def window_on(server: XServer, size: str = "800x600", colours: str = "black on white") -> Iterator[WindowProcess]:
    window = WindowProcess(server, size, colours)
    try:
        yield window
    finally:
        window.kill()
