"""From a key to the first changed pixel: the whole program in its window on an X server without a screen."""

import ctypes
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from tests.tools.bench.lines import TIMES, Figure
from tests.tools.x_server import XServer

SIZES = ((1366, 768), (3840, 2160))
_QUIET_S = 0.6
_TOO_LONG_S = 5.0
_DOTS_LOOKED_AT = 3
"""One of so many, across and down: looking takes time, too."""


def key_to_pixels() -> Iterator[Figure]:
    for size in SIZES:
        with tempfile.TemporaryDirectory() as folder:
            server = XServer(Path(folder), size)
            try:
                times_ms = _times_ms(server, Path(folder))
            finally:
                server.kill()
        yield Figure(f"key to pixels, {size[0]}x{size[1]}", times_ms, "ms", 50)


def _times_ms(server: XServer, folder: Path) -> list[float]:
    program = subprocess.Popen(
        [sys.executable, "-m", "saythesum", "practise", "--by", "keys"],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**server.environment, "SAYTHESUM_HOME": str(folder)},
        text=True,
    )
    try:
        assert program.stdout is not None
        next(line for line in program.stdout if " add " in line)
        return until_pixels_ms(server)
    finally:
        program.kill()
        program.communicate()


def until_pixels_ms(server: XServer) -> list[float]:
    """Of a practice that waits for an answer, and has the keyboard."""
    tap, times_ms = Keyboard(server), []
    seen = server.picture()[::_DOTS_LOOKED_AT, ::_DOTS_LOOKED_AT]
    for number in range(TIMES):
        time.sleep(_QUIET_S)
        before = seen.copy()
        began = time.perf_counter()
        tap("BackSpace" if number % 2 else "4")
        while np.array_equal(seen, before):
            if time.perf_counter() - began > _TOO_LONG_S:
                raise AssertionError("a key changed nothing on the screen")
        times_ms.append(1000 * (time.perf_counter() - began))
    return times_ms


class Keyboard:
    """Keys through the server's own test extension: no program is started for each. Source: XTEST 2.2."""

    def __init__(self, server: XServer) -> None:
        self._x, self._test = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXtst.so.6")
        self._x.XOpenDisplay.restype = ctypes.c_void_p
        self._x.XStringToKeysym.restype = ctypes.c_ulong
        self._display = ctypes.c_void_p(self._x.XOpenDisplay(server.environment["DISPLAY"].encode()))

    def __call__(self, name: str) -> None:
        code = self._x.XKeysymToKeycode(self._display, ctypes.c_ulong(self._x.XStringToKeysym(name.encode())))
        for is_down in (1, 0):
            self._test.XTestFakeKeyEvent(self._display, code, is_down, 0)
        self._x.XFlush(self._display)
