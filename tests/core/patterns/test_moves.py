"""The moves of talks: of every pattern, in order, with numbers that can be said; and the reader that checks them."""

from random import Random

import pytest

from saythesum.core.grids.grid import Grid
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.moves import talk_about
from saythesum.core.patterns.questions import Fill, OwnStart
from saythesum.core.sums import Part
from saythesum.wording.speak.said import said
from tests.core.patterns.plain_arithmetic import made_grid
from tests.core.patterns.talk_read_back import UntrueError, check_talk
from tests.tools.talk_true import messages_of, one_of_each_kind

LARGEST_SAID = 1099
OARS = Grid("Rows of oars", (38, 57), (3, 5))


@pytest.mark.parametrize("seed", range(40))
def test_a_talk_begins_with_listening_and_each_move_comes_once_in_order(seed: int) -> None:
    dice = Random(f"moves {seed}")
    grid = made_grid(dice)
    for pattern in patterns_of(grid):
        moves = talk_about(grid, pattern).moves
        parts = [move.part for move in moves]
        assert parts[0] is Part.LISTEN and Part.WHY in parts
        assert parts == sorted(set(parts), key=list(Part).index)
        for move in moves:
            assert (move.question is None) == (move.part in (Part.LISTEN, Part.WHY))
            assert move.question is None or 0 <= move.question.right <= LARGEST_SAID
            assert move.question is None or move.question.is_right(move.question.right)


def test_the_pupils_own_start_is_any_that_fits() -> None:
    grid = Grid("Rows of oars", (38, 57, 41), (5,))
    crossing = next(one for one in patterns_of(grid) if one.name == "crossing")
    own = talk_about(grid, crossing).moves[-1].question
    assert isinstance(own, OwnStart)
    assert own.is_right(46) and own.is_right(99)
    assert not own.is_right(45) and not own.is_right(6)


def test_a_row_that_is_not_there_is_none_of_the_grids() -> None:
    for seed in range(60):
        grid = made_grid(Random(f"new {seed}"))
        for pattern in patterns_of(grid):
            if pattern.name in ("columns-apart", "near-ten") and (move := talk_about(grid, pattern).at(Part.PREDICT)):
                assert isinstance(move.question, Fill)
                assert move.question.known.start not in grid.starts


@pytest.mark.parametrize("seed", range(40))
def test_every_sentence_is_true_by_plain_arithmetic(seed: int) -> None:
    """`python -m tests.tools.talk_true` does so for 20,000 grids."""
    dice = Random(f"true {seed}")
    grid = made_grid(dice)
    read = 0
    for pattern in one_of_each_kind(grid, dice):
        for message in messages_of(grid, pattern, dice):
            read += check_talk(said(message, ("brief", "short", "full")[seed % 3]), grid)
    assert read or not patterns_of(grid)


@pytest.mark.parametrize(
    "untrue",
    [
        "The start is the same, and add five makes three more than add three.",
        "From forty-one to forty-three is three.",
        "Add three: forty-one, sixty-one.",
        "In row thirty-eight, from forty-one to forty-three, how much less?",
        "In row thirty-nine, from forty-two to forty-four, how much more?",
        "With add five, ones digits from five up cross a ten.",
        "Yes, in every row.",
        "Fifty-seven is nineteen less than thirty-eight.",
        "Well done.",
    ],
)
def test_the_reader_finds_what_is_untrue_and_what_it_does_not_know(untrue: str) -> None:
    with pytest.raises(UntrueError):
        check_talk(untrue, OARS)


def test_the_numbers_of_the_book() -> None:
    """Adding nine and eight: "a ten more, and one back". Source: the usual round-and-adjust of England's Year 2
    teaching (compensation), common practice."""
    grid = Grid("Rows of oars", (38, 57), (9, 8))
    reasons = {
        one.lines[0]: said(message, "short")
        for one in patterns_of(grid)
        if one.name == "near-ten"
        for message in messages_of(grid, one, Random(1))
        if type(message).__name__ == "Because"
    }
    assert reasons == {
        0: "Nine is one less than ten: a ten more, and one back.",
        1: "Eight is two less than ten: a ten more, and two back.",
    }
