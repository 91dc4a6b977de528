"""A real window in a process of its own that prints a JSON line for whatever its switches do.

`python -m tests.tools.switch_in_window FIRST [SECOND]`, or without names it looks for a switch. Lines on its standard
input work a joystick that SDL makes up: plug in, press, let go, unplug. It ends with its input.
"""

import ctypes
import json
import os
import select
import sys
import time
from dataclasses import asdict

from saythesum.keyboard.keymap import FINDING_A_SWITCH, keymap_of
from saythesum.keyboard.keys import Pressed
from saythesum.scene.start_scene import start_scene
from saythesum.screen.look import Look
from saythesum.screen.window import Window
from saythesum.settings import Settings, Switch
from saythesum.wording.speak.said_switch import PRESS_YOUR_SWITCH

_GAME_CONTROLLER = 1
_BUTTONS = 2


class MadeUpJoystick:
    """Source: SDL_joystick.h, virtual joysticks (SDL 2.0.14 and later)."""

    def __init__(self) -> None:
        with open("/proc/self/maps", encoding="ascii") as maps:
            path = next(line.split()[-1] for line in maps if "libSDL2-2" in line)
        self._sdl = ctypes.CDLL(path)
        self._sdl.SDL_JoystickOpen.restype = ctypes.c_void_p
        self._index, self._joystick = -1, ctypes.c_void_p()

    def plug_in(self) -> None:
        self._index = self._sdl.SDL_JoystickAttachVirtual(_GAME_CONTROLLER, 0, _BUTTONS, 0)
        assert self._index >= 0, "this SDL makes up no joysticks"
        self._joystick = ctypes.c_void_p(self._sdl.SDL_JoystickOpen(self._index))

    def press(self, *, is_down: bool) -> None:
        self._sdl.SDL_JoystickSetVirtualButton(self._joystick, 0, int(is_down))

    def unplug(self) -> None:
        self._sdl.SDL_JoystickDetachVirtual(self._index)


def tell(**what: object) -> None:
    print(json.dumps(what), flush=True)


def main() -> None:
    names = [*sys.argv[1:], None, None]
    keymap = FINDING_A_SWITCH
    if names[0]:
        keymap = keymap_of(Settings(switch=Switch(names[0], names[1])), is_by_switch=True)
    window = Window(Look(), lambda: round(time.monotonic() * 1000), (800, 600), keymap=keymap)  # noqa: TID251
    window.show(start_scene(PRESS_YOUR_SWITCH))
    joystick = MadeUpJoystick()
    does = {
        "plug in": joystick.plug_in,
        "press": lambda: joystick.press(is_down=True),
        "let go": lambda: joystick.press(is_down=False),
        "unplug": joystick.unplug,
    }
    tell(kind="ready")
    waiting = ""
    while True:
        for news in window.presses(50):
            tell(kind=type(news).__name__, **(asdict(news) if isinstance(news, Pressed) else {}))
        if select.select([0], [], [], 0)[0]:
            came = os.read(0, 1_000).decode()
            if not came:
                break
            waiting += came
            while "\n" in waiting:
                line, waiting = waiting.split("\n", 1)
                does[line]()
    window.close()


if __name__ == "__main__":
    main()
