"""The patterns against a second way of working them out: on paper digit by digit, or counting word by word.

What literature says in words is named beside the check. The counts of sums that can or cannot tell mistakes
apart are our own arithmetic: no published table of them is known to us.
"""

import re
from collections.abc import Callable
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_patterns import MISTAKES, tens_and_ones_swapped
from saythesum.core.mistakes.pattern import HelpFrom, Mistake
from saythesum.core.sums import Kind
from tests.core.made_sums import fitting

CODED = {mistake.code: mistake for mistake in MISTAKES}
CROSSING = [
    Sum(10 * tens + ones, amount)
    for tens, ones, amount in product(range(1, 9), range(10), range(1, 10))
    if ones + amount > 10
]


def first(code: str, asked: Sum) -> int:
    return CODED[code].gives(asked)[0]


def test_codes_and_names() -> None:
    assert [(mistake.code, mistake.name) for mistake in MISTAKES] == [
        ("A1", "new-ten-lost"),
        ("A2", "both-digits-written"),
        ("A3", "ten-written-ones-carried"),
        ("A4", "amount-in-the-tens"),
        ("A5", "amount-to-both-digits"),
        ("A6", "all-digits-totalled"),
        ("A7", "one-short"),
        ("A8", "one-over"),
        ("A9", "extra-ten"),
        ("A10", "stopped-at-the-ten"),
        ("A11", "whole-amount-after-bridging"),
        ("A12", "gap-used-twice"),
        ("A13", "subtracted"),
        ("A14", "ones-differenced"),
        ("A15", "number-repeated"),
        ("A16", "answer-reversed"),
        ("A17", "start-reversed"),
    ]


# How each mistake is made, done step by step with digits or counting words; starts of two digits.


def column(asked: Sum) -> tuple[str, str, str]:
    """Written below each other: the tens digit, and the two digits of the ones' sum."""
    return str(asked.start)[0], *f"{int(str(asked.start)[1]) + asked.amount:02}"


def carried_nothing(asked: Sum) -> int:
    """The carry is forgotten. Brown and Burton 1978; Ashlock (both from memory)."""
    tens, _, ones = column(asked)
    return int(tens + ones)


def wrote_both(asked: Sum) -> int:
    """Ashlock (from memory)."""
    return int("".join(column(asked)))


def carried_the_wrong_digit(asked: Sum) -> int:
    """Ashlock (from memory)."""
    tens, ten, ones = column(asked)
    return int(str(int(tens) + int(ones)) + ten)


def added_as_tens(asked: Sum) -> int:
    """Place values mixed: Ashlock, as summarised."""
    number = asked.start
    for _ in range(asked.amount):
        number += 10
    return number


def added_to_both(asked: Sum) -> int:
    """The amount added to each digit, with the carry: Ashlock, as summarised."""
    return asked.start + asked.amount + 10 * asked.amount


def totalled_digits(asked: Sum) -> int:
    """Ashlock, as summarised."""
    return sum(map(int, f"{asked.start}{asked.amount}"))


def counted(asked: Sum, words: list[int]) -> int:
    """The last word said when each unit of the amount gets one word."""
    return words[asked.amount - 1]


def counted_from_the_start_itself(asked: Sum) -> int:
    """The second count must begin at the next word: Secada, Fuson and Hall 1983. Here it does not."""
    return counted(asked, list(range(asked.start, asked.start + 20)))


def left_out_the_ten(asked: Sum) -> int:
    """Common practice."""
    return counted(asked, [word for word in range(asked.start + 1, asked.start + 20) if word % 10])


def carried_twice(asked: Sum) -> int:
    """Common practice."""
    tens, ten, ones = column(asked)
    return int(str(int(tens) + 2 * int(ten)) + ones)


def jump(asked: Sum) -> tuple[int, int]:
    """The next ten and the steps to it, counted one by one."""
    steps = 1
    while (asked.start + steps) % 10:
        steps += 1
    return asked.start + steps, steps


def backwards(number: int) -> int:
    return int(str(number)[::-1])


def differenced(asked: Sum) -> int:
    """Smaller from larger, known from subtraction (from memory)."""
    larger, smaller = max(asked.start % 10, asked.amount), min(asked.start % 10, asked.amount)
    return int(f"{str(asked.start)[0]}{larger - smaller}")


BY_HAND: dict[str, Callable[[Sum], int]] = {
    "A1": carried_nothing,
    "A2": wrote_both,
    "A3": carried_the_wrong_digit,
    "A4": added_as_tens,
    "A5": added_to_both,
    "A6": totalled_digits,
    "A7": counted_from_the_start_itself,
    "A8": left_out_the_ten,
    "A9": carried_twice,
    "A10": lambda asked: jump(asked)[0],
    "A11": lambda asked: jump(asked)[0] + asked.amount,
    "A12": lambda asked: asked.start + 2 * jump(asked)[1],
    "A13": lambda asked: list(range(asked.start, -1, -1))[asked.amount],
    "A14": differenced,
    "A15": lambda asked: asked.start,
    # Places swapped when numbers are written down: Steiner et al. 2021.
    "A16": lambda asked: backwards(asked.total),
    "A17": lambda asked: backwards(asked.start) + asked.amount,
}


@pytest.mark.parametrize("code", BY_HAND)
def test_each_pattern_against_doing_it(code: str) -> None:
    assert len(CROSSING) == 288
    for asked in CROSSING:
        assert first(code, asked) == BY_HAND[code](asked), asked


def test_the_number_repeated_may_be_either() -> None:
    assert CODED["A15"].gives(Sum(36, 7)) == (36, 7)


# Which sums can tell mistakes apart: our own arithmetic, counted here over the ways of doing above.


@pytest.mark.parametrize(("code", "sums"), [("A3", 64), ("A12", 32), ("A16", 28), ("A17", 28)])
def test_a_mistake_that_gives_the_right_answer_is_never_named(code: str, sums: int) -> None:
    unseen = [asked for asked in CROSSING if BY_HAND[code](asked) == asked.total]
    assert len(unseen) == sums
    assert not any(fitting(asked, asked.total) for asked in unseen)


@pytest.mark.parametrize(
    ("codes", "sums"), [(("A13", "A14"), 160), (("A1", "A14"), 64), (("A7", "A10"), 64), (("A8", "A11"), 64)]
)
def test_mistakes_that_give_the_same_number(codes: tuple[str, str], sums: int) -> None:
    one, other = codes
    same = [asked for asked in CROSSING if BY_HAND[one](asked) == BY_HAND[other](asked)]
    assert len(same) == sums
    for asked in same:
        assert {CODED[one], CODED[other]} <= set(fitting(asked, first(one, asked)))


def test_the_sums_that_tell_all_seventeen_apart() -> None:
    apart = []
    for asked in CROSSING:
        given = {first(mistake.code, asked) for mistake in MISTAKES}
        if len(given) == 17 and asked.total not in given:
            apart.append((asked.start, asked.amount))
    expected = "17+8 27+8 37+9 38+9 47+9 48+9 57+8 58+9 63+9 67+8 73+9 74+9 83+9 84+9 87+8"
    assert " ".join(f"{start}+{amount}" for start, amount in sorted(apart)) == expected


# What fits, for every sum and number.


def test_only_what_gives_the_number_fits_it() -> None:
    for start, amount in product((0, 7, 38, 57, 60, 96, 104, 198, 695, 999), range(1, 10)):
        asked = Sum(start, amount)
        for given_number in range(1100):
            fits = fitting(asked, given_number)
            expected = tuple(
                mistake
                for mistake in MISTAKES
                if given_number in mistake.gives(asked)
                and given_number != asked.total
                and (mistake.code not in ("A10", "A11", "A12") or asked.kind is Kind.CROSSING)
            )
            assert fits == expected


def test_numbers_below_nought_fit_nothing() -> None:
    assert first("A13", Sum(3, 8)) == -5
    assert fitting(Sum(3, 8), -5) == ()


@pytest.mark.parametrize(
    ("code", "start", "amount", "gives"),
    [
        ("A2", 198, 5, 1913),
        ("A6", 104, 8, 13),
        ("A16", 138, 5, 134),  # 143 with tens and ones swapped
        ("A16", 57, 3, 6),  # 60 typed ones first: 06
        ("A17", 138, 5, 188),
        ("A17", 7, 5, 75),
        ("A14", 104, 9, 105),
    ],
)
def test_starts_of_one_and_three_digits(code: str, start: int, amount: int, gives: int) -> None:
    assert first(code, Sum(start, amount)) == gives


def test_swapping_tens_and_ones_twice_changes_nothing() -> None:
    assert all(tens_and_ones_swapped(tens_and_ones_swapped(number)) == number for number in range(1100))


def test_what_help_begins_with() -> None:
    """After the column "a good teacher says next" of common practice."""
    begins = {m.code: m.help for m in MISTAKES}
    assert [code for code, help_from in begins.items() if help_from is HelpFrom.STEPS] == ["A1", "A9"]
    assert begins["A2"] == begins["A3"] == HelpFrom.TENS_OF_ONES
    assert begins["A4"] == begins["A5"] == HelpFrom.OTHER_AMOUNT
    assert begins["A7"] == begins["A8"] == HelpFrom.COUNT
    assert begins["A13"] == begins["A14"] == HelpFrom.ADDING_GOES_UP
    own = ("A6", "A10", "A11", "A12", "A15", "A16", "A17")
    assert len({begins[code] for code in own}) == len(own)


@given(st.integers(1, 999), st.integers(1, 9), st.sampled_from(MISTAKES))
def test_what_to_say_next_never_holds_the_right_answer(start: int, amount: int, mistake: Mistake) -> None:
    """A start of 0 is left out: there the question itself holds the answer."""
    asked = Sum(start, amount)
    for number in mistake.gives(asked):
        if mistake.fits(asked, number):
            said = mistake.advice(asked, number)
            assert asked.total not in map(int, re.findall(r"\d+", said)), said
            assert "{" not in said
            assert len(said.split()) <= 25


def test_every_mistake_names_a_source_and_a_cause() -> None:
    for mistake in MISTAKES:
        assert mistake.source and mistake.cause.endswith(".")
        assert "you forgot" not in mistake.say_next.lower()
