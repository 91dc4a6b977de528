"""Right and wrong numbers are heard, said back and questioned in the same way; the answer is never given away."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from random import Random

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import LARGEST_NUMBER, Number
from saythesum.core.sums import LARGEST_AMOUNT
from saythesum.dialogue.messages import OnceMore, SaidBack
from saythesum.dialogue.turns.effects import Effect, Say, Wake
from saythesum.dialogue.turns.segments import is_bare_ten
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.said import said
from tests.talk import Talk, plan_of

ANSWERS = 1000


@dataclass(frozen=True, slots=True)
class Pair:
    """One sum, heard rightly and wrongly, with the same certainty."""

    asked: Sum
    right: int
    wrong: int
    certainty: float
    is_close: bool


def pairs(answers: int, seed: int = 1) -> Iterator[Pair]:
    dice = Random(seed)
    for _ in range(answers // 2):
        asked = Sum(dice.randrange(10, 100), dice.randrange(1, LARGEST_AMOUNT + 1))
        others = [value for value in alike(asked.total) if value not in asked.count_begins]  # waited for longer
        yield Pair(
            asked, asked.total, dice.choice(others), dice.choice((0.3, 0.5, 0.69, 0.7, 0.9, 1.0)), dice.random() < 0.3
        )


def alike(value: int) -> list[int]:
    """The other numbers whose words are as long."""
    return [other for other in _by_length()[_look(value)] if other != value]


@cache
def _by_length() -> dict[tuple[int, int, bool], tuple[int, ...]]:
    found: dict[tuple[int, int, bool], list[int]] = {}
    for value in range(LARGEST_NUMBER + 1):
        found.setdefault(_look(value), []).append(value)
    return {look: tuple(values) for look, values in found.items()}


def _look(value: int) -> tuple[int, int, bool]:
    """What may make a difference to how long a number is waited for: its words, not whether it is right."""
    text = words(value)
    return len(text.split()), text.count("-"), is_bare_ten(value)


def until_verdict(pair: Pair, given: int, length: Length) -> list[str]:
    """What is said and waited for after this hearing, the number itself left out."""
    talk = Talk(plan_of((pair.asked.start,), (pair.asked.amount,), length=length))
    talk.begin()
    close_to = (given + 10,) if pair.is_close else ()
    effects = talk.hear(Number(given, close_to=close_to, alternatives=close_to), pair.certainty) + talk.wait()
    return [text for effect in effects if (text := _shown(effect, given, length))]


def _shown(effect: Effect, given: int, length: Length) -> str:
    match effect:
        case Say(message=SaidBack(value=value)):
            assert value == given
            return "say the number"
        case Say(message=message):
            return f"say {said(message, length)}"
        case Wake(name=name, after_ms=after_ms):
            return f"{name} {after_ms}"
        case _:
            return ""


@dataclass(frozen=True, slots=True)
class Figures:
    answers: int
    different: int
    """Pairs whose words or waits were not the same."""
    once_more_right: int
    once_more_wrong: int


def measured(length: Length = "short", answers: int = ANSWERS) -> Figures:
    different = right_again = wrong_again = 0
    once_more = f"say {said(OnceMore(), length)}"
    for pair in pairs(answers):
        right, wrong = until_verdict(pair, pair.right, length), until_verdict(pair, pair.wrong, length)
        different += right != wrong
        right_again += once_more in right
        wrong_again += once_more in wrong
    return Figures(answers, different, right_again, wrong_again)
