"""A missing number in words. It is "what number", never the name of a sign."""

from collections.abc import Callable
from typing import Any, assert_never

from saythesum.core.exercises.missing import remarks
from saythesum.core.exercises.missing.amount import MissingAmount
from saythesum.core.exercises.missing.start import MissingStart
from saythesum.core.sums import Bridge, Kind, Part
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.lengths import begun, by_length, capital

WHAT = "what number"


class MissingAmountWords(ExerciseWords[MissingAmount]):
    def whole(self, asked: MissingAmount, number: Callable[[int], str] = words) -> str:
        operator = asked.operator
        return f"{number(asked.start)} {operator.says} {WHAT} {operator.gives} {number(asked.result)}"

    def in_row(self, asked: MissingAmount, number: Callable[[int], str] = words) -> str:
        return self.whole(asked, number)

    def question(self, asked: MissingAmount) -> str:
        return capital(f"{self.whole(asked)}?")

    def answered(self, asked: MissingAmount) -> str:
        return _with_all_numbers(asked)

    def worked(self, asked: MissingAmount, length: Length) -> str:
        bridge = asked.bridge
        if bridge.kind is not Kind.CROSSING:
            return self.answered(asked)
        gap, rest = begun(bridge.gap), words(bridge.rest)
        ways = (
            f"{gap} {_to(bridge)}{words(bridge.next_ten)}, {rest} more to {words(asked.result)}: {words(asked.amount)}."
        )
        return by_length(length, f"{gap}, then {rest}: {words(asked.amount)}.", ways, ways)

    def right(self, asked: MissingAmount, length: Length, *, is_by_steps: bool) -> str:
        if is_by_steps and asked.bridge.kind is Kind.CROSSING:
            jumps = f"{begun(asked.bridge.gap)}, then {words(asked.bridge.rest)}."
            return by_length(length, "", jumps, jumps)
        return super().right(asked, length, is_by_steps=is_by_steps)

    def part_name(self, part: Part) -> str:
        names = {Part.GAP: "To the ten", Part.REST: "From the ten", Part.TOTAL: capital(WHAT)}
        return names.get(part) or super().part_name(part)


class MissingStartWords(ExerciseWords[MissingStart]):
    def __init__(self, of_inverse: ExerciseWords[Any]) -> None:
        self._of_inverse = of_inverse

    def whole(self, asked: MissingStart, number: Callable[[int], str] = words) -> str:
        operator = asked.operator
        return f"{WHAT} {operator.says} {number(asked.amount)} {operator.gives} {number(asked.result)}"

    def in_row(self, asked: MissingStart, number: Callable[[int], str] = words) -> str:
        return self.whole(asked, number)

    def question(self, asked: MissingStart) -> str:
        return capital(f"{self.whole(asked)}?")

    def answered(self, asked: MissingStart) -> str:
        return _with_all_numbers(asked)

    def worked(self, asked: MissingStart, length: Length) -> str:
        return self._of_inverse.worked(asked.inverse, length)

    def right(self, asked: MissingStart, length: Length, *, is_by_steps: bool) -> str:
        if is_by_steps and asked.inverse.kind is Kind.CROSSING:
            return self._of_inverse.right(asked.inverse, length, is_by_steps=True)
        return super().right(asked, length, is_by_steps=is_by_steps)

    def part_name(self, part: Part) -> str:
        return capital(WHAT) if part is Part.TOTAL else self._of_inverse.part_name(part)


def _with_all_numbers(asked: MissingAmount | MissingStart) -> str:
    return f"{begun(asked.start)} {asked.operator.says} {words(asked.amount)} is {words(asked.result)}."


def _to(bridge: Bridge) -> str:
    return "to " if bridge.total > bridge.start else "back to "


def missing_question(message: remarks.MissingQuestion, length: Length) -> str:
    match message:
        case remarks.AskToTen(bridge=bridge):
            return f"How many {_to(bridge)}{words(bridge.next_ten)}?"
        case remarks.AskFromTen(bridge=bridge):
            way = f"rom {words(bridge.next_ten)} {_to(bridge)}{words(bridge.total)}?"
            return by_length(length, f"F{way}", *[f"How many f{way}"] * 2)
        case remarks.AskOnes(operator=operator, ones=ones, leads_to=leads_to):
            of_ones = f"{words(ones)} {operator.says} {WHAT} {operator.gives} {words(leads_to)}?"
            return by_length(length, capital(of_ones), *[f"Ones first: {of_ones}"] * 2)
        case remarks.AskBoth(bridge=bridge):
            return f"{begun(bridge.gap)} and {words(bridge.rest)}?"
        case _:
            assert_never(message)


def of_missing(message: remarks.OfMissing, length: Length) -> str:
    match message:
        case remarks.PutIn(operator=operator, makes=makes):
            brief = f"That {operator.gives} {words(makes)}."
            put_in = (
                f"{_comes_to(operator.says, message.start, message.amount, makes)} We need {words(message.needed)}."
            )
            return by_length(length, brief, put_in, put_in)
        case remarks.TooManyOrFew(value=value, is_too_many=is_too_many):
            few = "many" if is_too_many else "few"
            return by_length(length, f"Too {few}.", *[f"{begun(value)} is too {few}."] * 2)
        case remarks.IsTheTotal(value=value, operator=operator):
            is_said = f"{begun(value)} is what it {operator.gives}."
            return by_length(length, f"It {operator.gives} that.", is_said, is_said)
        case remarks.ReachesTen(bridge=bridge, operator=operator):
            brief = f"That {operator.gives} {words(bridge.next_ten)}."
            return by_length(length, brief, *[_comes_to(operator.says, bridge.start, bridge.gap, bridge.next_ten)] * 2)
        case _:
            assert_never(message)


def jump_done(message: remarks.DoJump, length: Length) -> str:
    bridge = message.bridge
    jump = (
        (bridge.start, bridge.gap, bridge.next_ten)
        if message.part is Part.GAP
        else (bridge.next_ten, bridge.rest, bridge.total)
    )
    done = _comes_to(message.operator.says, *jump)
    return done if length == "brief" else f"I'll do this bit. {done}"


def _comes_to(says: str, start: int, amount: int, makes: int) -> str:
    return f"{begun(start)} {says} {words(amount)} is {words(makes)}."
