"""Sums in digits beside the words: true, and without a number that the words or the sum asked do not have."""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import get_args

import pytest

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.turns.effects import Ear
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.said import said
from saythesum.wording.speak.said_in_digits import in_digits
from tests.talk import Talk, plan_of

SUMS = [Sum(38, 5), Sum(47, 8), Sum(98, 7), Sum(57, 3), Sum(42, 5), Sum(60, 4), Sum(7, 6)]


def messages_about(asked: Sum, length: Length) -> Iterator[tuple[say.Message, int]]:
    """What the tool says after a wrong answer and with help after that; and the answer."""
    for value in range(asked.start - 2, asked.start + 19):
        if value < 0 or value == asked.total:
            continue
        talk = Talk(plan_of((asked.start,), (asked.amount,), length=length), Ear.KEYS)
        talk.begin()
        for line in (str(value), "help me", "help me", str(value), "help me"):
            talk.type(line)
        yield from ((message, value) for message in talk.messages)


NUMBERS = [(value, re.compile(rf"(?<![\w-]){words(value)}(?![\w-])", re.IGNORECASE)) for value in range(130)]


@lru_cache
def numbers_in(text: str) -> frozenset[int]:
    return frozenset(value for value, number in NUMBERS if number.search(text))


@pytest.mark.parametrize("length", get_args(Length))
@pytest.mark.parametrize("asked", SUMS, ids=str)
def test_the_sums_are_true_and_hold_nothing_new(asked: Sum, length: Length) -> None:
    seen = 0
    for message, value in set(messages_about(asked, length)):
        text = in_digits(message, length).replace("\N{NO-BREAK SPACE}", " ")
        known = numbers_in(said(message, length)) | {asked.start, asked.amount, asked.ones, asked.tens, value}
        if isinstance(message, remarks.AskGap) and (message.is_ten_just_said or message.is_ten_just_told):
            known |= {asked.next_ten}
        for left, right in re.findall(r"([^.=]+) = ([^.=]+)\.", text):
            seen += 1
            assert {int(digits) for digits in re.findall(r"\d+", f"{left} {right}")} <= known, message
            if "?" not in left + right:
                one, other = map(int, left.split(" + "))
                assert one + other == int(right), message
    assert seen


def test_a_sum_that_lands_on_a_ten_does_not_show_the_ten() -> None:
    for message in (
        remarks.AskGap(Sum(57, 3)),
        remarks.GapGiven(Sum(57, 3), is_ten_by_pupil=False),
        remarks.DoGap(Sum(57, 3)),
    ):
        assert in_digits(message, "full") == ""
    assert Sum(57, 3).answer_to(Part.WHOLE) == 60
