"""A real window on a real X server, with real key events."""

import random
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from saythesum.screen.colours import COLOUR_SETS
from saythesum.settings import Colours
from tests.tools.cut_server import bytes_to_open, outcome
from tests.tools.x_server import XServer, window_on, x_server

PAD_FOUR = "83"
"""Its code on a PC keyboard: the X server's number is the kernel's (75, linux/input-event-codes.h) and 8."""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[XServer]:
    with x_server(tmp_path_factory.mktemp("screen")) as server:
        yield server


def test_the_pad_without_num_lock_types_and_does_not_move(server: XServer) -> None:
    with window_on(server) as window:
        window.told()
        server.keys(PAD_FOUR, PAD_FOUR, "KP_Enter")
        told = window.told_of(3)
        assert told["given"] == [44]
        assert told["at"] == [0, 0]


def test_rubbing_out_in_the_middle_of_an_answer(server: XServer) -> None:
    with window_on(server) as window:
        window.told()
        server.keys("4", "7", "BackSpace", "4", "Return")
        assert window.told_of(5)["given"] == [44]


def test_keys_that_mean_nothing_do_nothing(server: XServer) -> None:
    dice = random.Random(8)
    names = ["Shift_L", "Shift_R", "Control_L", "Control_R", "Caps_Lock", "Insert", *"abcdefghijklmnopqrstuvwxyz"]
    pressed = [dice.choice(names) for _ in range(20)]
    pressed += ["Caps_Lock"] * (pressed.count("Caps_Lock") % 2)  # as it was found
    with window_on(server) as window:
        window.told()
        server.keys(*pressed)
        server.keys("4")
        told = window.told()
        assert (told["key"], told["digits"], told["given"], told["at"]) == ("digit", [4], [], [0, 0])


def test_a_held_key_is_typed_once(server: XServer) -> None:
    """The server repeats it 25 times a second by itself."""
    with window_on(server) as window:
        window.told()
        server.tool("keydown", "7", "sleep", "1", "keyup", "7", "key", "Return")
        assert window.told_of(2)["given"] == [7]


@pytest.mark.parametrize("name", ["yellow on navy", "black on cream"])
def test_the_first_frame_is_in_the_pupils_colours(tmp_path: Path, name: Colours) -> None:
    """The server's own ground is white: the first other pixel is the pupil's ground already, no flash of black."""
    middle_of_nothing = (290, 90)  # in a corner of the window, which SDL puts into the middle of the screen
    with x_server(tmp_path) as server:
        assert server.pixel(*middle_of_nothing) == (255, 255, 255)
        with window_on(server, colours=name) as window:
            deadline = time.perf_counter() + 20
            while (first := server.pixel(*middle_of_nothing)) == (255, 255, 255):
                assert time.perf_counter() < deadline
            assert first == COLOUR_SETS[name].ground
            window.told()
            assert server.pixel(*middle_of_nothing) == COLOUR_SETS[name].ground


def test_the_look_by_key(server: XServer) -> None:
    with window_on(server) as window:
        window.told()
        server.keys("F2", "F3", "F3", "ctrl+plus", "ctrl+minus", "ctrl+KP_Add")
        assert window.told_of(6)["look"] == ["grid", 6, "yellow on black"]


def test_a_window_of_two_hundred_pixels(server: XServer) -> None:
    with window_on(server, size="200x150") as window:
        window.told()
        server.keys("4", "1", "Return")
        assert window.told_of(3)["given"] == [41]


def test_closing_and_killing_politely_end_in_order(server: XServer) -> None:
    with window_on(server) as window:
        window.told()
        window.terminate()
        assert window.told()["key"] == "close"
        assert window.ended() == 0


def test_a_screen_that_goes_away_is_one_sentence(tmp_path: Path) -> None:
    with x_server(tmp_path) as server, window_on(server) as window:
        window.told()
        server.keys("4")
        window.told()
        server.kill()
        assert window.told()["trouble"].startswith("The screen has gone away: go on by voice")
        window.told()
        assert window.ended() == 0


def test_a_screen_that_goes_away_while_the_window_opens_is_one_sentence(server: XServer) -> None:
    """Cut off in the middle of what SDL says to the server; `python -m tests.tools.cut_server` does it everywhere."""
    whole = bytes_to_open(server.environment)
    for tenths in (1, 4, 6, 8, 9):
        assert outcome(server.environment, whole * tenths // 10).startswith("exit code 0: The screen has gone away: ")
