"""Proof 5: the first help says a true thing about the number, which is false of the right answer.

Truth is worked out from the values of the messages with arithmetic of the test's own, not read off their sentences.
"""

import pytest

from saythesum.core.mistakes import MISTAKES, fitting
from saythesum.core.rows import Support
from saythesum.core.standing import Standing
from saythesum.core.sums import Kind, Part, Sum
from saythesum.dialogue import messages as say
from saythesum.wording.said import said
from tests.proofs.all_help import AMOUNTS, STARTS, HelpTurn, first_help
from tests.proofs.said_numbers import numbers_said

MOST_WORDS = 20
NAMES = tuple(mistake.name for mistake in MISTAKES)


def holds(message: say.Message, value: int) -> bool:
    """Whether what the message says is true of `value`."""
    match message:
        case say.Stands(asked=asked, stand=stand):
            return _stands(asked, stand.standing, stand.by, value)
        case say.AddingGoesUp(start=start):
            return value < start
        case say.TenAndAll(asked=asked):
            return value == (asked.start // 10 + 1) * 10 + asked.amount
        case say.TenAndGap(asked=asked):
            ten = (asked.start // 10 + 1) * 10
            return value == ten + (ten - asked.start)
        case say.ReachedTen(asked=asked):
            return value == (asked.start // 10 + 1) * 10 == asked.start + asked.gap
        case _:
            raise AssertionError(f"{message} says nothing about a number")


def _stands(asked: Sum, standing: Standing, by: int, value: int) -> bool:
    ten = (asked.start // 10 + 1) * 10
    return {
        Standing.LESS_THAN_START: value < asked.start,
        Standing.AT_START: value == asked.start,
        Standing.BEFORE_TEN: value == ten - by,
        Standing.AT_TEN: value == ten,
        Standing.PAST_TEN: value == ten + by,
        Standing.MORE_THAN_START: value == asked.start + by,
        Standing.FAR_PAST_START: value > asked.start + 10,
        Standing.TOO_FAR: value > asked.start + asked.amount,
    }[standing]


def check(turn: HelpTurn) -> None:
    assert turn.given is not None
    verdict, telling, *question = turn.messages
    assert verdict == say.NotYet()
    assert len(question) == 1
    assert holds(telling, turn.given), turn
    assert not holds(telling, turn.asked.total), turn
    text = " ".join(said(message, "short") for message in turn.messages)
    numbers = numbers_said(said(telling, "short"))
    assert turn.given in numbers, text
    assert "the next ten" in text or numbers & {turn.asked.start, turn.asked.next_ten} or "where we start" in text, text
    assert len(text.split()) <= MOST_WORDS, text
    assert not any(name.replace("-", " ") in text.lower() or name in text for name in NAMES), text
    assert "forgot" not in text


def test_the_first_help_is_true_short_and_about_the_number_for_every_sum_and_every_mistake() -> None:
    checked = 0
    for start in STARTS:
        for amount in AMOUNTS:
            for turn in first_help(Sum(start, amount)):
                check(turn)
                checked += 1
    assert checked > len(STARTS) * len(AMOUNTS) * 10


def test_where_patterns_with_different_help_fit_there_is_one_fresh_look() -> None:
    for start in STARTS:
        for amount in AMOUNTS:
            for turn in first_help(Sum(start, amount)):
                assert turn.given is not None
                families = {mistake.help for mistake in fitting(turn.asked, turn.given)}
                if len(families) > 1:
                    assert (turn.ask.part, turn.ask.support) == (Part.WHOLE, Support.ENCOURAGED)


def test_the_next_question_never_asks_for_what_was_just_said() -> None:
    for start in STARTS:
        for amount in AMOUNTS:
            asked = Sum(start, amount)
            for turn in first_help(asked):
                if turn.ask.part is Part.NEXT_TEN:
                    assert asked.kind is Kind.CROSSING
                    assert asked.next_ten not in numbers_said(said(turn.messages[1], "short")), turn


@pytest.mark.parametrize(
    ("asked", "given", "text"),
    [
        (Sum(47, 5), 42, "Forty-two is less than forty-seven."),
        (Sum(38, 5), 45, "Forty and five is forty-five."),
    ],
)
def test_two_of_them_in_words(asked: Sum, given: int, text: str) -> None:
    turn = next(turn for turn in first_help(asked) if turn.given == given)
    assert said(turn.messages[1], "short") == text
