"""Switches in a real window: real events of keys and a mouse from an X server, and of a joystick from SDL."""

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tests.tools.x_server import XServer, x_server


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[XServer]:
    with x_server(tmp_path_factory.mktemp("screen")) as server:
        yield server


class Switches:
    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self._process = process

    def does(self, line: str) -> None:
        assert self._process.stdin is not None
        self._process.stdin.write(f"{line}\n")
        self._process.stdin.flush()

    def told(self) -> dict[str, Any]:
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        assert line, "the window's process has ended"
        told: dict[str, Any] = json.loads(line)
        return told

    def pressed(self) -> tuple[str, str, bool, bool]:
        """Key, name, whether it is held, whether it was let go."""
        told = self.told()
        assert told["kind"] == "Pressed", told
        return told["key"], told["name"], told["is_repeat"], told["is_let_go"]


@contextmanager
def switches(server: XServer, *names: str) -> Iterator[Switches]:
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.tools.switch_in_window", *names],
        env=server.environment,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    try:
        switches = Switches(process)
        assert switches.told()["kind"] == "ready"
        yield switches
    finally:
        process.kill()
        process.communicate()


def test_a_mouse_button_anywhere_in_the_window(server: XServer) -> None:
    with switches(server, "mouse left", "mouse right") as window:
        server.tool("mousemove", "683", "384", "click", "1")
        assert window.pressed() == ("switch", "", False, False)
        assert window.pressed() == ("switch", "", False, True)
        server.tool("click", "3")
        assert window.pressed() == ("second-switch", "", False, False)
        assert window.pressed() == ("second-switch", "", False, True)


def test_a_key_that_is_held_is_one_press_with_one_end(server: XServer) -> None:
    """The server repeats it 25 times a second by itself."""
    with switches(server, "Space") as window:
        server.tool("keydown", "space", "sleep", "1", "keyup", "space", "key", "space")
        assert window.pressed() == ("switch", "", False, False)
        press = window.pressed()
        while press == ("switch", "", True, False):
            press = window.pressed()
        assert press == ("switch", "", False, True)
        assert window.pressed() == ("switch", "", False, False)


def test_a_joystick_button_pressed_let_go_unplugged_and_plugged_in_again(server: XServer) -> None:
    with switches(server, "joystick 1") as window:
        assert window.told()["kind"] == "SwitchLost", "it is not there at the start"
        window.does("plug in")
        assert window.told()["kind"] == "SwitchFound"
        window.does("press")
        assert window.pressed() == ("switch", "", False, False)
        window.does("let go")
        assert window.pressed() == ("switch", "", False, True)
        window.does("unplug")
        assert window.told()["kind"] == "SwitchLost"
        window.does("plug in")
        assert window.told()["kind"] == "SwitchFound"
        window.does("press")
        assert window.pressed() == ("switch", "", False, False)


def test_whatever_is_pressed_says_its_name_while_a_switch_is_looked_for(server: XServer) -> None:
    with switches(server) as window:
        window.does("plug in")
        window.does("press")
        assert window.pressed()[:2] == ("switch", "joystick 1")
        server.tool("mousemove", "683", "384", "click", "2", "key", "F8", "key", "k", "key", "5")
        pressed = [window.pressed() for _ in range(7)]
        names = [name for key, name, _, is_let_go in pressed if key == "switch" and not is_let_go]
        assert names == ["mouse middle", "F8", "K"]
        assert pressed[-1][0] == "digit"
