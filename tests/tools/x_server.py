"""An X server without a screen, and a practice in a window on it."""

import json
import os
import struct
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from saythesum.settings import Colours

Told: TypeAlias = dict[str, Any]


class XServer:
    """Xvfb, unless told otherwise. Its own ground is white."""

    def __init__(self, folder: Path, size: tuple[int, int] = (1366, 768), command: Sequence[str] = ()) -> None:
        read_end, write_end = os.pipe()
        width, height = size
        xvfb = ("Xvfb", "-wr", "-screen", "0", f"{width}x{height}x24", "-fbdir", str(folder))
        self._process = subprocess.Popen(
            [*(command or xvfb), "-displayfd", str(write_end), "-nolisten", "tcp"],
            pass_fds=[write_end],
            stderr=subprocess.DEVNULL,
        )
        os.close(write_end)
        with os.fdopen(read_end) as told:
            number = told.readline().strip()
        assert number, "the X server did not start"
        self.environment = {**os.environ, "DISPLAY": f":{number}", "SDL_VIDEODRIVER": "x11"}
        self._picture = folder / "Xvfb_screen0"

    def keys(self, *names: str) -> None:
        """Real key events. A name of two digits is a key's code."""
        subprocess.run(["xdotool", "key", *names], env=self.environment, check=True)

    def tool(self, *arguments: str) -> str:
        done = subprocess.run(["xdotool", *arguments], env=self.environment, check=True, capture_output=True, text=True)
        return done.stdout

    def pixel(self, x: int, y: int) -> tuple[int, int, int]:
        """Of the screen as it is now."""
        number = int(self.picture()[y, x])
        return number >> 16 & 255, number >> 8 & 255, number & 255

    def picture(self) -> NDArray[np.uint32]:
        """The screen, changing as it changes. Source of the format: X11/XWDFile.h; a dot's number is 0x00RRGGBB."""
        with self._picture.open("rb") as file:
            header = struct.unpack(">25I", file.read(100))
        header_size, rows, bytes_per_line, colours = header[0], header[5], header[12], header[19]
        at = header_size + 12 * colours
        return np.memmap(self._picture, "<u4", mode="r", offset=at, shape=(rows, bytes_per_line // 4))

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

    def __init__(
        self, environment: Mapping[str, str], size: str = "800x600", colours: Colours = "black on white"
    ) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.tools.practice_in_window", size, colours],
            env=environment,
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

    def rest(self, timeout_s: float = 20) -> tuple[int | None, list[Told]]:
        """How it ended, and what it told until then; None where it did not end."""
        try:
            lines, _ = self._process.communicate(timeout=timeout_s)
        except subprocess.TimeoutExpired:
            return None, []
        return self._process.returncode, [json.loads(line) for line in lines.splitlines()]

    def terminate(self) -> None:
        self._process.terminate()

    def kill(self) -> None:
        self._process.kill()
        self._process.communicate()


@contextmanager
def window_on(server: XServer, size: str = "800x600", colours: Colours = "black on white") -> Iterator[WindowProcess]:
    window = WindowProcess(server.environment, size, colours)
    try:
        yield window
    finally:
        window.kill()
