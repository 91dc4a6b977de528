"""What each key means, by its name: the meanings that all pupils share, and those that settings add."""

from collections.abc import Mapping
from dataclasses import dataclass

from saythesum.core.meanings import MOST_DIGITS
from saythesum.keyboard.keys import SWITCHES, Key
from saythesum.settings import Settings
from saythesum.settings.key_names import OWN
from saythesum.settings.switch_names import switch_name

_LETTERS = "jabcdefghi"
"""The letters for 0 to 9. Source: The Rules of Unified English Braille, 6.1: a digit is written as a number sign and a
letter."""
_NUMBER_SIGN = "#"
"""As a braille display types it. Source: North American Braille Computer Code, dots 3456."""


@dataclass(frozen=True, slots=True)
class Keymap:
    keys: Mapping[str, Key]
    """By the names that settings use. A pad digit is here only if it was given another meaning."""
    has_braille_letters: bool = False
    """The letters a to j count as digits."""
    finds_switch: bool = False
    """Whatever can be a switch is one, and says what it is called."""

    def switch_of(self, name: str) -> tuple[Key, str] | None:
        """The switch that has this name, with the name where a switch is looked for."""
        if self.finds_switch:
            return (Key.SWITCH, name) if switch_name(name) else None
        key = self.keys.get(name)
        return (key, "") if key in SWITCHES else None

    def digit_of(self, letter: str) -> int | None:
        """None unless it is a letter from a to j and letters count as digits."""
        is_one = self.has_braille_letters and len(letter) == 1 and letter.lower() in _LETTERS
        return _LETTERS.index(letter.lower()) if is_one else None

    def digits_of(self, text: str) -> str | None:
        """The digits of a whole answer in such letters, with or without a number sign; None for any other text."""
        digits = [self.digit_of(letter) for letter in text.removeprefix(_NUMBER_SIGN)]
        if None in digits or not 0 < len(digits) <= MOST_DIGITS:
            return None
        return "".join(map(str, digits))


def _key(setting: str) -> Key:
    return Key(setting.replace("_", "-"))


_GIVES_WAY = {"F4": Key.PATTERNS, "F12": Key.SCREEN_READER}
"""Where the settings give them to something else, as older ones may, they are that."""
EVERYBODYS = Keymap({**{name: _key(setting) for name, setting in OWN.items()}, "Space": Key.SPACE, **_GIVES_WAY})


FINDING_A_SWITCH = Keymap(EVERYBODYS.keys, finds_switch=True)


def keymap_of(settings: Settings, *, is_by_switch: bool = False) -> Keymap:
    """A switch takes its key from whatever else that meant; somebody at the keys has another one for it."""
    keys = dict(EVERYBODYS.keys) | {name: _key(setting) for setting, name in settings.keys.given}
    if is_by_switch:
        own = settings.switch
        keys |= {name: key for name, key in ((own.second, Key.SECOND_SWITCH), (own.first, Key.SWITCH)) if name}
    return Keymap(keys, settings.braille.letters_as_digits)
