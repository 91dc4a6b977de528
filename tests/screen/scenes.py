"""States of a practice as a window shows them, made by the real dialogue."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from saythesum.core.meanings import Command, Given
from saythesum.dialogue.turns.effects import Ear
from saythesum.keyboard.answer_entry import Digits, Typing
from saythesum.keyboard.keys import AdultHasTurn, Focus, Key, KeyMessage
from saythesum.keyboard.offers import Offer
from saythesum.keyboard.scanning import Scan
from saythesum.scene.caption import Aside
from saythesum.scene.scan import scan_shown
from saythesum.scene.scene import Scene, scene
from saythesum.scene.start_scene import start_scene
from saythesum.wording.speak.said_start import PRESS_A_KEY, PRINT, WAY
from tests.talk import Talk, plan_of

STARTS, AMOUNTS = (38, 57, 76), (3, 5, 8)


class Shown:
    """A practice, and the last thing it said."""

    def __init__(self, talk: Talk | None = None) -> None:
        self.talk = talk or Talk(plan_of(STARTS, AMOUNTS))
        self.typing = Typing()
        self.aside: KeyMessage | None = None
        self.talk.begin()

    def says(self, *lines: str) -> "Shown":
        for line in lines:
            self.talk.type(line)
        return self

    @property
    def scene(self) -> Scene:
        aside = Aside(self.aside, self.talk.state.channel.turns_said) if self.aside else None
        return scene(self.talk.state, self.typing, aside)


def _fresh() -> Scene:
    return Shown().scene


def _typed() -> Scene:
    shown = Shown()
    shown.typing = Typing(digits=(4,), focus=Focus.ANSWER)
    return shown.scene


def _guided() -> Scene:
    """Second row, last cell, asked for the jump to the ten."""
    shown = _at_the_last_of_row_two().says("I don't know", "60")
    shown.typing = Typing(focus=Focus.HELP)
    return shown.scene


def _at_the_last_of_row_two() -> Shown:
    return Shown().says("41", "43", "46", "60", "62")


def _verdict() -> Scene:
    return _at_the_last_of_row_two().says("65").scene


def _not_yet() -> Scene:
    return Shown().says("31").scene


def _total() -> Scene:
    return _at_the_last_of_row_two().says("I don't know", "60", "3", "5").scene


def _adult() -> Scene:
    shown = Shown()
    shown.talk.adult_takes()
    shown.aside = AdultHasTurn()
    return shown.scene


def _paused() -> Scene:
    shown = Shown().says("please wait")
    shown.typing = Typing(focus=Focus.NOT_WHAT_I_SAID)
    return shown.scene


def _keys_aloud() -> Scene:
    shown = Shown()
    keys = Given(Command.KEYS_ALOUD)
    shown.talk.type(keys)
    shown.typing = Typing(focus=Focus.STOP)
    return shown.scene


def _over() -> Scene:
    return Shown().says("31", "stop there").scene


def _all_done() -> Scene:
    return Shown(Talk(plan_of((38,), (5,)))).says("43").scene


def _long_help() -> Scene:
    """In full wording, with its sums in digits, and Tab on the last button."""
    plan = plan_of((38,), (5, 8), length="full")
    window = replace(plan.settings.window, sums_in_digits=True)
    shown = Shown(Talk(replace(plan, settings=replace(plan.settings, window=window)))).says("45")
    shown.typing = Typing(focus=Focus.STOP)
    return shown.scene


def _large_numbers() -> Scene:
    starts = tuple(range(999, 979, -1))
    shown = Shown(Talk(plan_of(starts, tuple(range(9, 0, -1)))))
    shown.says("1008", "1007", "1006", "1005", "read this row")
    shown.typing = Typing(digits=(1, 0, 0, 8), focus=Focus.GRID)
    return shown.scene


def _by_switch(offer: Offer | None, *lines: str | Given, typed: Digits = ()) -> Scene:
    plan = plan_of(STARTS, AMOUNTS)
    settings = replace(plan.settings, start=replace(plan.settings.start, by="switch"))
    shown = Shown(Talk(replace(plan, settings=settings), ear=Ear.SWITCH))
    for line in lines:
        shown.talk.type(line)
    shown.typing = Typing(digits=typed)
    scan = Scan((offer,), at=0, count=7) if offer else Scan((Offer(Key.HELP),))
    return scene(shown.talk.state, shown.typing, None, scan_shown(scan, typed, is_adults_turn=False))


def _starting() -> Scene:
    return start_scene(WAY.words, WAY.choices[1])


def _print_tried() -> Scene:
    return start_scene(PRINT.words, PRINT.choices[5], is_print_tried=True)


MAKERS: Mapping[str, Callable[[], Scene]] = {
    "asked": _fresh,
    "typed": _typed,
    "guided": _guided,
    "verdict": _verdict,
    "not-yet": _not_yet,
    "long-help": _long_help,
    "total": _total,
    "adult": _adult,
    "paused": _paused,
    "keys-aloud": _keys_aloud,
    "over": _over,
    "all-done": _all_done,
    "large-numbers": _large_numbers,
    "press-a-key": lambda: start_scene(PRESS_A_KEY),
    "switch-digit": lambda: _by_switch(Offer(Key.DIGIT, 7), typed=(4,)),
    "switch-thats-it": lambda: _by_switch(Offer(Key.ENTER), typed=(4, 1)),
    "switch-longest": lambda: _by_switch(Offer(Key.BACKSPACE), "31"),
    "switch-step": lambda: _by_switch(Offer(Key.DIGIT, 2), "31", "I don't know"),
    "switch-waits": lambda: _by_switch(None),
    "switch-yes": lambda: _by_switch(Offer(Key.YES)),
    "switch-paused": lambda: _by_switch(Offer(Key.GO_ON), Given(Command.WAIT)),
    "starting": _starting,
    "print-tried": _print_tried,
}


def scenes() -> dict[str, Scene]:
    return {name: make() for name, make in MAKERS.items()}
