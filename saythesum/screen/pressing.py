"""What comes of a thing that a pointer, a finger or assistive software presses or focuses, in presses of keys."""

from saythesum.keyboard.keys import Focus, Key, Pressed
from saythesum.ports import Touched
from saythesum.scene.grid import moves_to
from saythesum.scene.number_pad import CellChosen, Pressable
from saythesum.scene.scene import Scene


def pressed_by(thing: Pressable, scene: Scene | None, at_ms: int) -> list[Pressed | Touched]:
    """The pad's Enter is for the answer, wherever Tab is: the Enter key would press the button that Tab is on."""
    match thing:
        case Focus():
            return [Touched(thing, at_ms)]
        case CellChosen(row=row, column=column):
            return [Pressed(key, at_ms) for key in moves_to(scene.grid, row, column)] if scene else []
        case _ if thing.key is Key.ENTER:
            return [Touched(Focus.ANSWER, at_ms)]
        case _:
            return [Pressed(thing.key, at_ms, digit=thing.digit)]


def focused_by(thing: Pressable, scene: Scene | None, at_ms: int) -> list[Pressed | Touched]:
    """A cell is chosen; to a button or the answer lead as many presses of Tab. A key of the pad has no focus."""
    if isinstance(thing, CellChosen):
        return pressed_by(thing, scene, at_ms)
    if not isinstance(thing, Focus) or scene is None or not scene.buttons:
        return []
    here = next((button.focus for button in scene.buttons if button.is_focused), Focus.ANSWER)
    there = {Focus.ANSWER, *(button.focus for button in scene.buttons)}
    if thing not in there:
        return []  # it went away while it was pressed
    order = [focus for focus in Focus if focus in there]
    count = (order.index(thing) - order.index(here)) % len(order)
    return [Pressed(Key.TAB, at_ms) for _ in range(count)]
