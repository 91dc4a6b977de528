"""The other ways to a sum in words."""

from typing import assert_never

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.ways import remarks
from saythesum.core.exercises.ways.other_way import ByTensAndOnes, Compensated, Counted, Doubled
from saythesum.core.sums import Bridge, Part
from saythesum.settings import Length
from saythesum.wording.numbers import listed, words
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.exercises.said_sums import SumWords
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


def way_question(message: remarks.WayQuestion, length: Length) -> str:
    match message:
        case remarks.AskTenOn(start=start):
            return f"{begun(start)} add ten?"
        case remarks.AskTooMany(amount=amount):
            too_many = f"We're adding {words(amount)}: how many too many?"
            return by_length(length, "How many too many?", too_many, too_many)
        case remarks.AskTakeBack(asked=asked):
            return f"{begun(asked.start + 10)} take away {words(10 - asked.amount)}?"
        case remarks.AskDouble(of=of):
            double = f"{words(of)} and {words(of)}?"
            return by_length(length, capital(double), capital(double), f"Start with a double: {double}")
        case remarks.AskBesideDouble(asked=asked):
            return f"One more: {words(asked.ones)} and {words(asked.amount)}?"
        case remarks.AskMore(steps=steps):
            return f"And {words(steps)} more?"
        case _:
            assert_never(message)


def ten_on_makes(message: remarks.TenOnMakes, length: Length) -> str:
    step = words(message.given - message.start)
    return f"{begun(message.start)} and {step} is {words(message.given)}."


def way_step_done(message: remarks.DoWayStep, length: Length) -> str:
    doing = "" if length == "brief" else "I'll do this bit. "
    return doing + _done(message.asked, message.part)


def _done(asked: Bridge, part: Part) -> str:
    match part:
        case Part.TEN_ON:
            return f"{begun(asked.start)} add ten is {words(asked.start + 10)}."
        case Part.TOO_MANY:
            return f"{begun(asked.amount)} is {words(10 - asked.amount)} less than ten."
        case Part.DOUBLE:
            return _double(asked)
        case Part.ONE_MORE:
            return f"One more than {words(asked.start)} is {words(asked.start + 1)}."
        case _:
            return f"{begun(asked.ones)} and {words(asked.amount)} is {words(asked.ones_total)}."


def _double(asked: Bridge) -> str:
    smaller = min(asked.ones, asked.amount)
    return f"{begun(smaller)} and {words(smaller)} is {words(2 * smaller)}."


class _WayWords(SumWords):
    def right(self, asked: Sum, length: Length, *, is_by_steps: bool) -> str:
        return ExerciseWords.right(self, asked, length, is_by_steps=is_by_steps)


class CompensatedWords(_WayWords):
    def worked(self, asked: Sum, length: Length) -> str:
        assert isinstance(asked, Compensated)
        ten_on, total = words(asked.start + 10), words(asked.total)
        back = f"Take {words(asked.too_many)} back: {total}."
        whole = f"{begun(asked.start)} add ten is {ten_on}. {back}"
        return by_length(length, f"{capital(ten_on)}. {back}", whole, whole)


class DoubledWords(_WayWords):
    def worked(self, asked: Sum, length: Length) -> str:
        assert isinstance(asked, Doubled)
        return f"{_double(asked)} One more is {words(asked.ones_total)}. {_put_together(asked)}"


class ByTensAndOnesWords(_WayWords):
    def worked(self, asked: Sum, length: Length) -> str:
        assert isinstance(asked, ByTensAndOnes)
        return f"{_done(asked, Part.ONES)} {_put_together(asked)}"


class CountedWords(_WayWords):
    def worked(self, asked: Sum, length: Length) -> str:
        assert isinstance(asked, Counted)
        return f"Count on: {listed(range(asked.start + 1, asked.total + 1))}."


def _put_together(asked: Bridge) -> str:
    return f"{capital(joined(asked.tens, asked.ones_total))} is {words(asked.total)}."
