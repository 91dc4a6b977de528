"""States of a practice as a window shows them, made by the real dialogue."""

from collections.abc import Callable, Mapping

from saythesum.core.exercises.adding import Sum
from saythesum.dialogue import messages as say
from saythesum.dialogue.turns.effects import Effect, Say
from saythesum.keyboard.answer_entry import Typing
from saythesum.keyboard.keys import Focus
from saythesum.scene.scene import Scene, scene
from saythesum.scene.start_scene import start_scene
from saythesum.wording.speak.said_start import PRESS_A_KEY, PRINT, WAY
from tests.talk import Talk, plan_of

STARTS, AMOUNTS = (38, 57, 76), (3, 5, 8)


class Shown:
    """A practice, and the last thing it said."""

    def __init__(self, talk: Talk | None = None) -> None:
        self.talk = talk or Talk(plan_of(STARTS, AMOUNTS))
        self.saying: say.Message | str = ""
        self.typing = Typing()
        self.then(self.talk.begin())

    def then(self, effects: list[Effect]) -> "Shown":
        said = [effect.message for effect in effects if isinstance(effect, Say)]
        self.saying = said[-1] if said else self.saying
        return self

    @property
    def scene(self) -> Scene:
        return scene(self.talk.state, self.typing, self.saying)


def _fresh() -> Scene:
    return Shown().scene


def _typed() -> Scene:
    shown = Shown()
    shown.typing = Typing(digits=(4,), focus=Focus.ANSWER)
    return shown.scene


def _guided() -> Scene:
    """Second row, last cell, asked for the jump to the ten."""
    shown = _at_the_last_of_row_two()
    shown.then(shown.talk.type("I don't know"))
    shown.then(shown.talk.type("60"))
    shown.typing = Typing(focus=Focus.HELP)
    return shown.scene


def _at_the_last_of_row_two() -> Shown:
    shown = Shown()
    for number in (41, 43, 46, 60, 62):
        shown.then(shown.talk.type(str(number)))
    return shown


def _verdict() -> Scene:
    shown = _at_the_last_of_row_two()
    asked = shown.talk.plan.exercise_at(shown.talk.plan.activities[0].cells[5])
    shown.talk.type("65")
    shown.saying = say.Right(asked, is_by_steps=False)
    return shown.scene


def _not_yet() -> Scene:
    shown = Shown()
    shown.talk.type("31")
    shown.saying = say.NotYet()
    return shown.scene


def _total() -> Scene:
    shown = _at_the_last_of_row_two()
    for line in ("I don't know", "60", "3", "5"):
        shown.then(shown.talk.type(line))
    return shown.scene


def _adult() -> Scene:
    shown = Shown()
    shown.talk.adult_takes()
    shown.saying = "The adult's turn. F9 gives it back."
    return shown.scene


def _paused() -> Scene:
    shown = Shown()
    shown.then(shown.talk.type("please wait"))
    shown.typing = Typing(focus=Focus.NOT_WHAT_I_SAID)
    return shown.scene


def _keys_aloud() -> Scene:
    shown = Shown()
    shown.saying = say.KeysAloud()
    shown.typing = Typing(focus=Focus.STOP)
    return shown.scene


def _over() -> Scene:
    shown = Shown()
    shown.talk.type("31")
    return shown.then(shown.talk.type("stop there")).scene


def _large_numbers() -> Scene:
    starts = tuple(range(999, 979, -1))
    shown = Shown(Talk(plan_of(starts, tuple(range(9, 0, -1)))))
    shown.saying = say.RowRead(tuple((Sum(999, amount), 999 + amount) for amount in range(9, 0, -1)))
    shown.typing = Typing(digits=(1, 0, 0, 8), focus=Focus.GRID)
    return shown.scene


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
    "total": _total,
    "adult": _adult,
    "paused": _paused,
    "keys-aloud": _keys_aloud,
    "over": _over,
    "large-numbers": _large_numbers,
    "press-a-key": lambda: start_scene(PRESS_A_KEY),
    "starting": _starting,
    "print-tried": _print_tried,
}


def scenes() -> dict[str, Scene]:
    return {name: make() for name, make in MAKERS.items()}
