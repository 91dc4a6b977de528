"""Amounts of tens, and of tens and ones, in words."""

from typing import Any, assert_never

from saythesum.core.exercises.farther import remarks
from saythesum.core.exercises.farther.farther import Farther
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


class FartherWords(ExerciseWords[Farther]):
    def __init__(self, of_ones: ExerciseWords[Any]) -> None:
        self._of_ones = of_ones

    def worked(self, asked: Farther, length: Length) -> str:
        if not asked.then:
            return self.answered(asked)
        tens = capital(f"{asked.operator.says} {words(asked.tens)}: {words(asked.after_tens)}.")
        return f"{tens} {self._of_ones.worked(asked.then, length)}"

    def part_name(self, part: Part) -> str:
        return self._of_ones.part_name(part)


def farther_question(message: remarks.FartherQuestion, length: Length) -> str:
    match message:
        case remarks.AskTens(operator=operator, start=start, tens=tens):
            asked = f"{words(start)} {operator.says} {words(tens)}?"
            return by_length(length, capital(asked), *[f"Tens first: {asked}"] * 2)
        case remarks.AskJoined(tens=tens, ones=ones):
            return capital(f"{joined(tens, ones)}?")
        case _:
            assert_never(message)


def tens_gone(message: remarks.TensGone, length: Length) -> str:
    if not message.ones:
        return f"{begun(message.after_tens)}."
    return f"{begun(message.after_tens)}. {_to_come(message.operator.says, message.ones)}"


def _to_come(says: str, ones: int) -> str:
    return f"{begun(ones)} more to {says}."


def _tens_done(done: remarks.TensDone) -> str:
    return f"{begun(done.start)} {done.operator.says} {words(done.tens)} is {words(done.makes)}."


def of_farther(message: remarks.OfFarther, length: Length) -> str:
    match message:
        case remarks.OnesToCome(done=done, ones=ones):
            to_come = f"{_tens_done(done)} {_to_come(done.operator.says, ones)}"
            return by_length(length, "That's the tens.", to_come, to_come)
        case remarks.BesideTens(operator=operator, value=value, start=start, tens=tens, is_more=is_more):
            than = f"{'more' if is_more else 'less'} than {words(start)} {operator.says} {words(tens)}."
            return by_length(length, f"Too {'many' if is_more else 'few'}.", *[f"{begun(value)} is {than}"] * 2)
        case remarks.BesideStart(value=value, start=start) if value == start:
            return by_length(length, "That's the start.", *[f"{begun(value)} is where we start."] * 2)
        case remarks.BesideStart(value=value, start=start):
            than = f"{'more' if value > start else 'less'} than {words(start)}."
            return by_length(length, capital(than), *[f"{begun(value)} is {than}"] * 2)
        case remarks.OtherTens(operator=operator, start=start, tens=tens, makes=makes, asked=asked):
            brief = f"That's {operator.doing} {words(tens)}."
            other = f"{begun(start)} {operator.says} {words(tens)} is {words(makes)}."
            return by_length(length, brief, *[f"{other} We're {operator.doing} {words(asked)}."] * 2)
        case _:
            assert_never(message)


def tens_done(message: remarks.DoTens, length: Length) -> str:
    done = _tens_done(message.done)
    return done if length == "brief" else f"I'll do this bit. {done}"
