"""Sayings heard with own words, and how they are counted."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from random import Random

from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.ports import Hearing
from tests.tools.listening.figures import wilson
from tests.tools.listening.own_words.sayings import Saying

DAY = date(2031, 1, 6)


@dataclass(frozen=True, slots=True)
class Counted:
    count: int = 0
    right: int = 0
    taken: int = 0
    wrongly: int = 0

    def __add__(self, other: "Counted") -> "Counted":
        return Counted(
            self.count + other.count, self.right + other.right, self.taken + other.taken, self.wrongly + other.wrongly
        )

    def __str__(self) -> str:
        return "  ".join(_share(part, self.count) for part in (self.right, self.taken, self.wrongly))


HEADING = "right              taken              wrongly"


def _share(part: int, count: int) -> str:
    low, high = wilson(part, count)
    return f"{100 * part / max(1, count):5.1f} ({100 * low:.1f}-{100 * high:.1f})".ljust(17)


def counted(sayings: Iterable[Saying], own: Comparison | None = None, *, has_second: bool = True) -> Counted:
    each = (_counted(saying, own, has_second) if own else _counted_plain(saying, has_second) for saying in sayings)
    return sum(each, Counted())


@cache
def _counted_plain(saying: Saying, has_second: bool) -> Counted:
    return _counted(saying, None, has_second)


def _counted(saying: Saying, own: Comparison | None, has_second: bool) -> Counted:
    answer = saying.second if has_second else saying.plain
    answer = replace(answer, hearing=heard_with(own, answer.hearing, saying))
    is_taken = answer.is_taken
    return Counted(1, answer.is_right, is_taken, is_taken and answer.is_taken_wrongly)


def heard_with(own: Comparison | None, hearing: Hearing, saying: Saying) -> Hearing:
    whole = replace(hearing, frames=saying.frames)
    return own.of(whole) if own else whole


def drawn(sayings: list[Saying], takes: int, seed: int) -> tuple[OwnWords, list[Saying]]:
    """So many takes of each number as own words, and all the sayings that are not among them.

    They are told apart by what was said alone: odd ones are kept too, as if the pupil had been asked.
    """
    dice = Random(seed)
    numbers = sorted({saying.said for saying in sayings if saying.said is not None})
    chosen = [saying for number in numbers for saying in dice.sample(_of(sayings, number), takes)]
    return own_words(chosen), [saying for saying in sayings if saying not in chosen]


def _of(sayings: list[Saying], number: int) -> list[Saying]:
    return [saying for saying in sayings if saying.said == number]


def own_words(sayings: Iterable[Saying]) -> OwnWords:
    """Each of what was said in it."""
    own = none_yet(1.0)
    for saying in sayings:
        assert saying.said is not None and saying.frames is not None
        came = own.with_take(saying.said, saying.frames, on=DAY)
        own = came if isinstance(came, OwnWords) else replace(own, takes=(*own.takes, came.take))
    return own
