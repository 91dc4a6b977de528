"""Every place a practice can be in, reached by what a pupil does."""

from collections.abc import Callable
from copy import copy
from functools import cache

from saythesum.core.meanings import Number
from saythesum.dialogue.turns.effects import Ear
from saythesum.settings import Length
from tests.talk import Talk, plan_of


def _unsure(times: int) -> Callable[[Talk], None]:
    def go(talk: Talk) -> None:
        for _ in range(times):
            hear(talk, Number(43), 0.5)

    return go


def hear(talk: Talk, meaning: str | Number, certainty: float = 0.9) -> None:
    """With the ear that has to be opened first, where that is so."""
    open_ear(talk)
    talk.hear(meaning, certainty)
    talk.wait()


def open_ear(talk: Talk) -> None:
    """In a pause the first press goes on, and the next one opens the ear."""
    while talk.listen is None:
        talk.press()


def _typed(*lines: str) -> Callable[[Talk], None]:
    def go(talk: Talk) -> None:
        for line in lines:
            talk.type(line)

    return go


def _heard(*lines: str) -> Callable[[Talk], None]:
    def go(talk: Talk) -> None:
        for line in lines:
            hear(talk, line)

    return go


def _within_help(talk: Talk) -> None:
    talk.type("45")
    hear(talk, "forty-three")


PLACES: dict[str, Callable[[Talk], None]] = {
    "asking": _typed(),
    "asking after a miss": _typed("33"),
    "asking, unsure once": _unsure(1),
    "asking, unsure twice": _unsure(2),
    "confirming": _unsure(3),
    "next ten": _typed("help"),
    "gap": _typed("45"),
    "rest": _typed("40"),
    "total": _typed("45", "2", "3"),
    "gap, first step": _typed("help", "help"),
    "worked line": _typed("help", "help", "help", "help"),
    "saying back": _heard("forty-five"),
    "saying back within help": _within_help,
    "saying back a command": _heard("stop"),
    "paused": _typed("please wait"),
    "next cell": _typed("43"),
    "facts offered": _typed("45", "3", "3", "43"),
    "a fact": _typed("45", "3", "3", "43", "yes"),
}


def talk_at(place: str, ear: Ear, *, length: Length = "short") -> Talk:
    """One that can be gone on with: whoever asks again gets another."""
    talk = copy(_came_to(place, ear, length))
    talk.rows, talk.messages, talk.said, talk._due = [*talk.rows], [*talk.messages], [*talk.said], {**talk._due}
    return talk


@cache
def _came_to(place: str, ear: Ear, length: Length) -> Talk:
    talk = Talk(plan_of((38, 57), (5, 8), length=length), ear)
    talk.begin()
    PLACES[place](talk)
    return talk
