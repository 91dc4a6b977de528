"""A practice by keys in a real window, in a process of its own: prints a JSON line for whatever happens.

`python -m tests.tools.practice_in_window WIDTHxHEIGHT COLOURS`; it ends when the window is closed.
"""

import json
import sys
import time
from contextlib import suppress

from saythesum.errors import ScreenError
from saythesum.keyboard.keys import ChangeLook, Key, Pressed
from saythesum.ports import Screen, Touched
from saythesum.scene.scene import scene
from saythesum.screen.look import ALL_COLOURS, Look
from saythesum.screen.window import Window
from tests.dialogue.at_the_keys import AtTheKeys


def tell(**what: object) -> None:
    print(json.dumps(what), flush=True)


def practise(window: Window) -> None:
    screen: Screen = window
    pupil = AtTheKeys()
    screen.show(scene(pupil.talk.state, pupil.typing))
    tell(ready=True)
    while True:
        for press in screen.presses(200):
            if isinstance(press, Touched):
                tell(touched=press.focus.value)
                continue
            assert isinstance(press, Pressed), "it has no switch"
            take(press, pupil, screen)
            tell(
                key=press.key.value,
                is_repeat=press.is_repeat,
                digits=pupil.typing.digits,
                given=pupil.given,
                at=pupil.at,
                look=[window.look.view, window.look.step, window.look.colours],
            )
            if press.key is Key.CLOSE:
                return
        screen.show(scene(pupil.talk.state, pupil.typing))


def take(press: Pressed, pupil: AtTheKeys, screen: Screen) -> None:
    pupil.press(press)
    for action in pupil.others:
        if isinstance(action, ChangeLook):
            screen.change(action.change)
    pupil.others.clear()


def main() -> None:
    width, height = map(int, sys.argv[1].split("x"))
    colours = next(known for known in ALL_COLOURS if known == sys.argv[2])
    start = time.perf_counter()

    def opened() -> Window:
        return Window(Look(colours=colours), lambda: int((time.perf_counter() - start) * 1000), (width, height))

    try:
        window = opened()
        practise(window)
        window.close()
    except ScreenError as error:
        tell(trouble=str(error))
        with suppress(ScreenError):
            opened()
            tell(trouble="on a screen that has gone a window was opened")
    tell(cpu_s=round(time.process_time(), 2))


if __name__ == "__main__":
    main()
