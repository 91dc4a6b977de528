"""Proof 5: help says a true thing about the number, which is false of the right answer, in every length.

For every start of one digit and two, every amount, every pattern, every set of patterns that coincide, and every wrong
answer to a part.
"""

from collections import Counter
from itertools import product
from random import Random
from typing import get_args

import pytest

from saythesum.core.exercises import bridge_remarks as bridge
from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.pattern import HelpFrom
from saythesum.core.records.rows import Form, Support
from saythesum.core.sums import Kind, Part
from saythesum.settings import Length
from saythesum.wording.speak.said import said
from tests.proofs.all_help import AMOUNTS, SMALL_STARTS, STARTS, HelpTurn, all_help, first_help
from tests.proofs.flaws_of_help import flaws, text_of
from tests.proofs.said_numbers import numbers_said
from tests.proofs.true_sentences import Told, read

ALL_SUMS = [Sum(start, amount) for start, amount in product((*SMALL_STARTS, *STARTS), AMOUNTS)]
SUMS = Random(5).sample(ALL_SUMS, 60)
FEWER_SUMS = SUMS[:16]
"""`python -m tests.proofs` looks at all, in all lengths and at every turn, and fails where anything is amiss."""
PAST_HUNDRED = [Sum(100, 6), Sum(104, 9), Sum(197, 3), Sum(197, 5), Sum(398, 7)]
"""Where a number takes four words, no turn can keep within the ceilings."""


@pytest.mark.parametrize("length", get_args(Length))
def test_the_first_help_for_every_sum_and_every_set_of_patterns(length: Length) -> None:
    found: Counter[str] = Counter()
    checked = 0
    sums = SUMS if length == "short" else FEWER_SUMS
    for asked in sums:
        for turn in first_help(asked):
            found += flaws(turn, length)
            checked += 1
    assert not found
    assert checked > len(sums) * 30


@pytest.mark.parametrize("length", get_args(Length))
def test_every_other_turn_of_help(length: Length) -> None:
    found: Counter[str] = Counter()
    for asked in FEWER_SUMS:
        for turn in all_help(asked):
            found += flaws(turn, length)
    assert not found


def test_past_a_hundred_all_is_as_true() -> None:
    found: Counter[str] = Counter()
    for asked in PAST_HUNDRED:
        for turn in (*first_help(asked), *all_help(asked)):
            found += flaws(turn, "short")
    del found["short: too long"]
    assert not found


BONDS = Sum(38, 5)


@pytest.mark.parametrize(
    ("sentence", "part", "given"),
    [
        ("Forty-four is five past forty.", Part.WHOLE, 44),
        ("Thirty-three is less than thirty-two.", Part.WHOLE, 33),
        ("Forty-two is less than fifty.", Part.WHOLE, 44),  # true, but not of the number that was given
        ("Thirty-eight and six is forty-five.", Part.WHOLE, 45),
        ("We're adding six.", Part.WHOLE, 44),
        ("Row thirty-eight, add three.", Part.WHOLE, 41),
        ("The keys: four, five.", Part.WHOLE, 44),
        ("Fifty-three is three tens and five.", Part.WHOLE, 53),
        ("Three gets you to forty.", Part.WHOLE, 43),
        ("That's past forty.", Part.GAP, 1),
        ("Thirty-eight ends in five.", Part.GAP, 5),
        ("How many of the four get you to forty?", Part.WHOLE, 45),
        ("Forty and four?", Part.TOTAL, 44),
        ("We're adding five.", Part.TOTAL, 44),  # at the ten, three are left
        ("All used: so?", Part.GAP, 2),
    ],
)
def test_the_reader_sees_what_is_not_so(sentence: str, part: Part, given: int) -> None:
    try:
        assert not read(sentence, Told(BONDS, part, given)).is_true
    except AssertionError as unread:
        assert "not true" in str(unread)


def test_the_reader_knows_what_would_be_true_of_the_right_answer_too() -> None:
    told = Told(BONDS, Part.WHOLE, 45)
    assert not read("Forty-five is more than three past thirty-eight.", told).tells_from_right
    assert read("Forty-five is more than five past thirty-eight.", told).tells_from_right


STEPS = {HelpFrom.STEPS, HelpFrom.REST, HelpFrom.USED_ALL_AGAIN, HelpFrom.USED_GAP_AGAIN}


def test_where_no_pattern_fits_there_is_a_fresh_look_and_where_several_do_a_small_question() -> None:
    asked_small = 0
    for asked in SUMS:
        for turn in first_help(asked):
            for names in turn.could_be:
                deciding = asked.deciding(names)
                helps = {asked.help_from(pattern.help, turn.given or 0).part for pattern in deciding}
                if not deciding:
                    assert turn.ask.form is Form.LOOK_AGAIN, turn
                elif turn.ask.form is Form.TELLING_APART:
                    asked_small += 1
                    assert turn.ask.support is Support.ASKED
                    assert turn.ask.part in asked.small_questions
                elif len(helps) == 1 and {pattern.help for pattern in deciding} <= STEPS and asked.parts:
                    assert turn.ask.support is Support.ASKED, turn
    assert asked_small > 200


def test_the_next_question_never_asks_for_what_was_just_said() -> None:
    for asked in SUMS:
        for turn in first_help(asked):
            if turn.ask.part is Part.NEXT_TEN and asked.start >= 10:  # "more than ten past two" names no next ten
                assert asked.kind is Kind.CROSSING
                assert asked.next_ten not in numbers_said(said(turn.messages[1], "short")), turn


@pytest.mark.parametrize(
    ("asked", "given", "alone", "text"),
    [
        (Sum(47, 5), 42, "", "Seven and five?"),
        (Sum(38, 5), 45, "", "Forty and five is forty-five. How many of the five get you to forty?"),
        # On twenty-seven add eight the seventeen are all told apart; a few of them:
        (Sum(27, 8), 25, "", "Twenty-five is less than twenty-seven. What's the next ten after twenty-seven?"),
        (Sum(27, 8), 107, "", "Twenty-seven and eighty is a hundred and seven. We're adding eight."),
        (Sum(27, 8), 30, "", "Twenty-seven and three is thirty. How many of the eight are left?"),
        (Sum(27, 8), 53, "", "Fifty-three is far past twenty-seven. Fifty-three is five tens and three."),
        (Sum(27, 8), 80, "", "Eighty is far past twenty-seven. Twenty-seven: is that two tens or seven tens?"),
        # The wider ones where nothing else decides:
        (Sum(26, 8), 32, "double-not-adjusted", "Twenty-six and six is thirty-two. We're adding eight."),
        (Sum(27, 8), 39, "compensated-the-wrong-way", "Thirty-nine is more than ten past twenty-seven. Eight is less"),
        (Sum(26, 7), 36, "did-not-compensate", "Twenty-six and ten is thirty-six. We're adding seven. Twenty-six add"),
        (Sum(27, 8), 216, "multiplied", "Two hundred and sixteen is far past twenty-seven. Adding eight is eight"),
        (Sum(27, 8), 5, "ones-only", "Five is less than twenty-seven. How many tens in twenty-seven?"),
        (Sum(27, 6), 31, "fact-slip", "Thirty-one is one past thirty. How many of the six get you to thirty?"),
        (Sum(27, 8), 29, "neighbour-cell", "Twenty-nine is one before thirty. Row twenty-seven, add eight."),
        (Sum(27, 8), 29, "previous-answer", "Twenty-nine is one before thirty. Twenty-seven add eight."),
        (Sum(17, 8), 78, "teen-or-ty-start", "Seventy-eight is far past seventeen. Seventeen is one ten and seven."),
        (Sum(27, 3), 34, "landing-crossed", "Thirty-four is seven more than twenty-seven. How many from"),
        (Sum(27, 8), 355, "key-slip", "Three hundred and fifty-five is far past twenty-seven. The keys: three,"),
    ],
)
def test_some_of_them_in_words(asked: Sum, given: int, alone: str, text: str) -> None:
    """What a teacher would say: our own wording of common practice."""
    turns = [turn for turn in first_help(asked) if turn.given == given]
    texts = [text_of(turn, "short") for turn in turns if not alone or _is_alone(turn, alone)]
    assert any(one.startswith(f"Not yet. {text}") for one in texts), [text_of(turn, "short") for turn in turns]


def _is_alone(turn: HelpTurn, name: str) -> bool:
    return any([pattern.name for pattern in SUMS[0].deciding(names)] == [name] for names in turn.could_be)


def test_every_pattern_decides_alone_somewhere() -> None:
    sets = [SUMS[0].deciding(names) for asked in SUMS for turn in first_help(asked) for names in turn.could_be]
    assert {patterns[0].name for patterns in sets if len(patterns) == 1} == {pattern.name for pattern in CATALOGUE}


def test_an_answer_that_nothing_explains_is_never_forced() -> None:
    unexplained = [turn for asked in SUMS for turn in first_help(asked) if () in turn.could_be]
    assert unexplained
    for turn in unexplained:
        assert (turn.ask.part, turn.ask.support) == (Part.WHOLE, Support.ENCOURAGED)
        assert isinstance(turn.messages[1], bridge.Stands | bridge.WasAdded)


@pytest.mark.parametrize(
    ("asked", "part", "given", "text"),
    [
        (BONDS, Part.NEXT_TEN, 50, "Fifty is more than ten past thirty-eight. What's the next ten after thirty-eight?"),
        (BONDS, Part.GAP, 3, "Thirty-eight and three is forty-one. That's past forty. How many to forty?"),
        (BONDS, Part.GAP, 8, "Thirty-eight ends in eight. Eight and how many make ten?"),
        (BONDS, Part.GAP, 5, "Five is all of it. That goes past forty. How many to forty?"),
        (BONDS, Part.GAP, 12, "Thirty-eight and twelve is fifty. That's past forty. How many to forty?"),
        (Sum(36, 9), Part.GAP, 1, "Thirty-six and one is thirty-seven. That's before forty. How many to forty?"),
        (BONDS, Part.REST, 2, "Two and two is four. We're adding five. How many of the five are left?"),
        (BONDS, Part.REST, 5, "Two and five is seven. We're adding five. How many of the five are left?"),
        (BONDS, Part.REST, 8, "Eight is more than five. How many of the five are left?"),
        (BONDS, Part.TOTAL, 40, "Not yet. Forty is part of it. Three is the other part. Forty and three?"),
        (BONDS, Part.TOTAL, 44, "Not yet. Forty and four is forty-four. We're adding three. Forty and three?"),
        (BONDS, Part.TOTAL, 403, "Not yet. Four hundred and three is far past forty. Forty and three?"),
        (Sum(57, 3), Part.GAP, 7, "Fifty-seven ends in seven. Seven and how many make ten?"),
        (
            Sum(57, 3),
            Part.GAP,
            2,
            "Fifty-seven and two is fifty-nine. That's before the next ten. How many to the next",
        ),
        (
            Sum(57, 3),
            Part.TOTAL,
            57,
            "Not yet. Fifty-seven is where we start. Three reaches the next ten. All used: so",
        ),
        (Sum(32, 5), Part.ONES, 8, "Two and six is eight. We're adding five. Ones first: two and five?"),
        (Sum(32, 5), Part.ONES, 0, "Zero is less than two. Adding goes up. Ones first: two and five?"),
        (Sum(32, 5), Part.ONES, 32, "Thirty-two is more than ten. Ones first: two and five?"),
        (Sum(32, 5), Part.TOTAL, 7, "Not yet. Seven is part of it. Thirty is the other part. Thirty and seven?"),
        (Sum(5, 6), Part.REST, 6, "Six is too many. Five of the six are used. How many of the six are left?"),
    ],
)
def test_what_follows_a_wrong_part_in_words(asked: Sum, part: Part, given: int, text: str) -> None:
    turns = [turn for turn in all_help(asked) if (turn.part, turn.given) == (part, given)]
    assert any(text_of(turn, "short").startswith(text) for turn in turns), [text_of(turn, "short") for turn in turns]
