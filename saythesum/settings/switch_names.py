"""Names of what can be a switch: a key pressed alone, a button of a mouse or of a joystick."""

from dataclasses import dataclass

from saythesum.errors import CallerError
from saythesum.settings.key_names import FREE, OWN

LETTERS = tuple("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
"""By the key's place on a keyboard with the letters Q W E R T Y."""
MOUSE_BUTTONS = ("mouse left", "mouse middle", "mouse right")
MOST_JOYSTICK_BUTTONS = 32
_KEPT_FOR_ADULTS = ("F9", "Escape")
"""An adult takes the turn by the one, and leaves by the other."""
_NAMES = {
    name.lower(): name
    for name in (
        *(name for name in (*OWN, *FREE) if name not in _KEPT_FOR_ADULTS),
        *LETTERS,
        *MOUSE_BUTTONS,
        *(f"joystick {number}" for number in range(1, MOST_JOYSTICK_BUTTONS + 1)),
    )
}
_RIGHT = 'what is pressed, such as "Space", "F8", "mouse left" or "joystick 1"'


def switch_name(text: str) -> str | None:
    """As it is written everywhere; None where it cannot be a switch."""
    return _NAMES.get(" ".join(text.lower().split()))


@dataclass(frozen=True, slots=True)
class SwitchName:
    """The limits of a setting that is a switch, or none."""

    def taken(self, value: object) -> str | None:
        if value is None:
            return None
        name = switch_name(value) if isinstance(value, str) else None
        if name is None:
            raise CallerError(f"{_RIGHT}; never a digit, F9 or Escape, which an adult needs beside it")
        return name
