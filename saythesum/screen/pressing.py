"""What a button does, whoever presses it: a pointer, a finger or assistive software."""

from saythesum.keyboard.keys import Focus, Key, Pressed
from saythesum.ports import Touched
from saythesum.scene.number_pad import Pressable


def pressed_by(button: Pressable, at_ms: int) -> Pressed | Touched:
    """The pad's Enter is for the answer, wherever Tab is: the Enter key would press the button that Tab is on."""
    if isinstance(button, Focus):
        return Touched(button, at_ms)
    if button.key is Key.ENTER:
        return Touched(Focus.ANSWER, at_ms)
    return Pressed(button.key, at_ms, digit=button.digit)
