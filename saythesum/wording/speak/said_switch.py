"""The words for what a switch can choose, and for the switch itself."""

from collections.abc import Mapping, Sequence

from saythesum.keyboard.keys import Key
from saythesum.keyboard.offers import Offer
from saythesum.settings import Switch
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import begun

PRESS_YOUR_SWITCH = "Press your switch now."
HOLDS_NO_SWITCH = "That one can't be a switch. Press another."
PRESS_SECOND = "If there is a second switch, press it now. If not, press the same one again."
SWITCH_KEPT = "Thank you. That's kept."
PRESS_TO_GO_ON = "Press when you want to go on."
SWITCH_LOST = "The switch has gone. Plug it in again, or go on with the keys."
SWITCH_BACK = "The switch is back."


def how_to_choose(switch: Switch) -> str:
    if switch.has_two:
        return "One switch moves on, the other one chooses."
    if switch.scanning == "by pressing":
        return "Each press moves on. Stop pressing to choose."
    return "Press when the one you want comes."


def press_again(name: str) -> str:
    return f"That's {_switch_in_words(name)}. Press it once more."


def offer_in_words(offer: Offer, typed: Sequence[int], *, is_adults_turn: bool = False) -> str:
    """As it is said: one thing at a time."""
    if offer.digit is not None:
        return f"{begun(offer.digit)}."
    if offer.key is Key.ENTER:
        return f"That's it, {words(_number(typed))}."
    return f"{_name(offer, typed, is_adults_turn=is_adults_turn)}."


def offer_in_print(offer: Offer, typed: Sequence[int], *, is_adults_turn: bool = False) -> str:
    """As it is shown, digits as digits."""
    if offer.digit is not None:
        return str(offer.digit)
    if offer.key is Key.ENTER:
        return f"That's it, {_number(typed)}"
    return _name(offer, typed, is_adults_turn=is_adults_turn)


def _number(typed: Sequence[int]) -> int:
    return int("".join(map(str, typed)) or "0")


def _name(offer: Offer, typed: Sequence[int], *, is_adults_turn: bool) -> str:
    if offer.key is Key.BACKSPACE and not typed:
        return "Take back the last one"
    if offer.key is Key.ADULT and is_adults_turn:
        return "Back to my turn"
    return _NAMES[offer.key]


_NAMES: Mapping[Key, str] = {
    Key.BACKSPACE: "Rub out",
    Key.SPACE: "Say it again",
    Key.HELP: "Help me",
    Key.SKIP: "Skip this one",
    Key.PAUSE: "Wait",
    Key.ADULT: "The adult's turn",
    Key.STOP: "Stop",
    Key.YES: "Yes",
    Key.NO: "No",
    Key.GO_ON: "Go on",
    Key.WHERE_AM_I: "Where am I",
}


def _switch_in_words(name: str) -> str:
    kind, _, rest = name.partition(" ")
    if kind == "mouse":
        return f"the {rest} mouse button"
    return f"button {words(int(rest))}" if kind == "joystick" else name
