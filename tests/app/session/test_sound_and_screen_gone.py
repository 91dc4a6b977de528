"""PulseAudio and the X server are gone in the same moment: the program ends, or goes on by what is left."""

import os
import signal
import subprocess
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.app.command import COMMAND, TOP
from tests.tools.rig.server import Rig
from tests.tools.rig.spoken import LOG_NAME, Program
from tests.tools.x_server import XServer, x_server

pytestmark = pytest.mark.rig

GOODBYE = "We'll go on from here next time."
LONG_S = 60
"""How long a test waits before it says that the program hangs."""


@pytest.fixture
def home(tmp_path: Path) -> Path:
    (tmp_path / "oars.toml").write_text('title = "Rows of oars"\nadd = [5]\nstart = [38]\n')
    return tmp_path


@contextmanager
def in_a_window(rig: Rig, home: Path, ear: str, *, at_a_terminal: bool) -> Iterator[tuple[Program, XServer]]:
    """A practice that has said its first sentence.

    By then SDL has settled the focus of its new window. Where the server goes within that fifth of a second, SDL 2.28
    falls over its missing answer, and the program with it; every row is on disk.
    """
    (home / "screen").mkdir()
    ours, its = os.openpty()
    with x_server(home / "screen") as server, (home / "shown.txt").open("wb") as shown:
        environment = {**rig.environment, **{name: server.environment[name] for name in ("DISPLAY", "SDL_VIDEODRIVER")}}
        environment |= {"SAYTHESUM_HOME": str(home), "PYTHONPATH": str(TOP)}
        words = ("practise", "--by", "voice", "--ear", ear, "--grid", "oars.toml", "--log", LOG_NAME)
        process = subprocess.Popen(
            [*COMMAND, *words],
            stdin=its if at_a_terminal else subprocess.DEVNULL,
            stdout=shown,
            stderr=shown,
            env=environment,
            cwd=home,
        )
        try:
            program = Program(rig, home, process, ours)
            program.wait_for_kind("said", LONG_S)
            yield program, server
        finally:
            process.kill()
            process.wait()
            os.close(ours)
            os.close(its)


@pytest.mark.parametrize(("lose", "ear"), [(Rig.lose, "open"), (Rig.hang, "press")], ids=["killed", "hung"])
def test_where_nothing_is_left_it_says_goodbye_and_ends(
    lose: Callable[[Rig], None], ear: str, rig: Rig, home: Path
) -> None:
    with in_a_window(rig, home, ear, at_a_terminal=False) as (program, server):
        try:
            lose(rig)
            server.kill()
            assert program.ends(within_s=LONG_S) == 0
        finally:
            rig.lose()
            rig.come_back()
        assert GOODBYE in program.shown
        assert "Traceback" not in program.shown


def test_at_a_terminal_it_goes_on_and_a_stop_ends_it(rig: Rig, home: Path) -> None:
    with in_a_window(rig, home, "press", at_a_terminal=True) as (program, server):
        try:
            rig.lose()
            server.kill()
            program.wait_until_shown("The screen has gone away", LONG_S)
            program.press(b"43\r")
            assert program.wait_for_kind("answer", LONG_S)["given"] == 43
            assert program.ends(within_s=LONG_S) == 0
        finally:
            rig.come_back()


def test_a_second_stop_always_ends_it(rig: Rig, home: Path) -> None:
    """Also while the first one waits for sound that never comes."""
    with in_a_window(rig, home, "open", at_a_terminal=True) as (program, server):
        try:
            rig.hang()
            server.kill()
            program.process.send_signal(signal.SIGTERM)
            program.process.send_signal(signal.SIGTERM)
            program.ends(within_s=LONG_S)
        finally:
            rig.lose()
            rig.come_back()
        assert "Traceback" not in program.shown
