"""What a window looks like is kept, in the real program on a real X server."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np

from saythesum.app.setup.settings_file import own_settings
from saythesum.screen.colours import COLOUR_SETS
from saythesum.settings import Window
from tests.tools.x_server import XServer, x_server

DEADLINE_S = 30


@contextmanager
def practising(server: XServer, home: Path) -> Iterator[subprocess.Popen[str]]:
    program = subprocess.Popen(
        [sys.executable, "-m", "saythesum", "practise", "--by", "keys"],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**server.environment, "SAYTHESUM_HOME": str(home)},
        text=True,
    )
    try:
        yield program
    finally:
        program.kill()
        program.communicate()


def wait_for_the_question(program: subprocess.Popen[str]) -> None:
    assert program.stdout is not None
    assert any(" add " in line for line in program.stdout)


LAST_DRAWN = (1290, 725)
"""In the last corner of a window that fills nine tenths of 1366x768: nothing but ground."""


def wait_until(is_so: Callable[[], bool]) -> None:
    deadline = time.perf_counter() + DEADLINE_S
    while not is_so():
        assert time.perf_counter() < deadline


def test_the_look_at_the_end_is_the_look_at_the_next_start(tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.toml").write_text("# for Row Club\n[window]\nsize = 4\n", encoding="utf-8")
    navy = COLOUR_SETS["yellow on navy"].ground
    with x_server(tmp_path) as server:
        with practising(server, home) as program:
            wait_for_the_question(program)
            server.keys("F2", "ctrl+minus", *["F3"] * 5)
            wait_until(lambda: server.pixel(*LAST_DRAWN) == navy)
            before = server.picture().copy()
            os.kill(program.pid, signal.SIGTERM)
            assert program.wait(DEADLINE_S) == 0
        assert own_settings(home / "settings.toml").window == Window(view="grid", size=3, colours="yellow on navy")
        assert "# for Row Club" in (home / "settings.toml").read_text(encoding="utf-8")
        with practising(server, home):
            wait_until(lambda: np.array_equal(server.picture(), before))
