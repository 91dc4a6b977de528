"""A missing number: its steps for every start and amount, by plain arithmetic, and the forms of published ones."""

from itertools import product

import pytest

from saythesum.core.exercises.missing.amount import AddedAmount, MissingAmount, TakenAmount
from saythesum.core.exercises.missing.start import AddedToStart, MissingStart, TakenFromStart
from saythesum.core.exercises.registry import exercise
from saythesum.core.sums import Part
from saythesum.errors import CallerError

UP, DOWN = (AddedAmount, AddedToStart), (TakenAmount, TakenFromStart)


@pytest.mark.parametrize(
    ("asked", "shown", "steps"),
    [
        # ours: three to fifty, two more: five
        (
            AddedAmount(47, 5),
            "47 + ? = 52",
            [(Part.NEXT_TEN, 50), (Part.GAP, 3), (Part.REST, 2), (Part.TOTAL, 5)],
        ),
        (
            TakenAmount(52, 5),
            "52 \N{MINUS SIGN} ? = 47",
            [(Part.TEN_BEFORE, 50), (Part.GAP, 2), (Part.REST, 3), (Part.TOTAL, 5)],
        ),
        (
            AddedToStart(47, 5),
            "? + 5 = 52",
            [(Part.TEN_BEFORE, 50), (Part.GAP, 2), (Part.REST, 3), (Part.TOTAL, 47)],
        ),
        (
            TakenFromStart(52, 5),
            "? \N{MINUS SIGN} 5 = 47",
            [(Part.NEXT_TEN, 50), (Part.GAP, 3), (Part.REST, 2), (Part.TOTAL, 52)],
        ),
        # England, National Strategies 2010, Year 1: 3 + [ ] = 10, what to add to a single digit to make 10
        (AddedAmount(3, 7), "3 + ? = 10", []),
        # England, Year 1 programme of study: 7 = [ ] - 9
        (
            TakenFromStart(16, 9),
            "? \N{MINUS SIGN} 9 = 7",
            [(Part.NEXT_TEN, 10), (Part.GAP, 3), (Part.REST, 6), (Part.TOTAL, 16)],
        ),
        # landing on the ten, and crossing nothing: by the ones
        (AddedAmount(47, 3), "47 + ? = 50", [(Part.ONES, 3), (Part.TOTAL, 3)]),
        (AddedAmount(42, 5), "42 + ? = 47", [(Part.ONES, 5), (Part.TOTAL, 5)]),
        (AddedAmount(40, 5), "40 + ? = 45", []),
        (TakenAmount(57, 5), "57 \N{MINUS SIGN} ? = 52", [(Part.ONES, 5), (Part.TOTAL, 5)]),
        (TakenAmount(50, 3), "50 \N{MINUS SIGN} ? = 47", [(Part.ONES, 3), (Part.TOTAL, 3)]),
        (TakenAmount(54, 4), "54 \N{MINUS SIGN} ? = 50", []),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_the_steps(asked: MissingAmount | MissingStart, shown: str, steps: list[tuple[Part, int]]) -> None:
    assert asked.shown == shown
    assert [(part, asked.answer_to(part)) for part in asked.parts] == steps
    assert exercise(*asked.key) == asked


def test_every_step_adds_up() -> None:
    """For all starts to 999 and amounts to 9, and both places of the hole."""
    for start, amount in product(range(1000), range(1, 10)):
        _check_up(AddedAmount(start, amount), start, start + amount)
        if start + amount <= 999:
            _check_undone(AddedToStart(start, amount), start + amount, start)
        if amount <= start:
            _check_down(TakenAmount(start, amount), start, start - amount)
            _check_undone(TakenFromStart(start, amount), start - amount, start)


def _check_up(asked: MissingAmount, start: int, makes: int) -> None:
    assert (asked.total, asked.result) == (makes - start, makes)
    if Part.NEXT_TEN in asked.parts:
        ten, gap, rest, total = (asked.answer_to(part) for part in asked.parts)
        assert ten % 10 == 0 and start < ten < makes and ten - start < 10
        assert (start + gap, ten + rest, gap + rest) == (ten, makes, total)
    else:
        assert not any(number % 10 == 0 for number in range(start + 1, makes)) or start % 10 == 0


def _check_down(asked: MissingAmount, start: int, leaves: int) -> None:
    assert (asked.total, asked.result) == (start - leaves, leaves)
    if Part.TEN_BEFORE in asked.parts:
        ten, gap, rest, total = (asked.answer_to(part) for part in asked.parts)
        assert ten % 10 == 0 and leaves < ten < start and start - ten < 10
        assert (start - gap, ten - rest, gap + rest) == (ten, leaves, total)
    else:
        assert not any(number % 10 == 0 for number in range(leaves + 1, start))


def _check_undone(asked: MissingStart, said: int, missing: int) -> None:
    """The way back begins at the number that is said and ends at the one that is missing."""
    assert (asked.total, asked.result, asked.answer_to(Part.TOTAL)) == (missing, said, missing)
    way = 1 if missing > said else -1
    if Part.GAP in asked.parts and Part.REST in asked.parts:
        ten, gap, rest, total = (asked.answer_to(part) for part in asked.parts)
        assert ten % 10 == 0
        assert (said + way * gap, ten + way * rest) == (ten, total)


@pytest.mark.parametrize("kind", [*UP, *DOWN])
def test_what_is_asked_is_never_in_the_question_unless_a_number_comes_twice(
    kind: type[MissingAmount | MissingStart],
) -> None:
    for start, amount in product((38, 63, 105), range(1, 10)):
        asked = kind(start, amount)
        numbers = {int(word) for word in asked.shown.split() if word.isdigit()}
        assert asked.total not in numbers


def test_no_numbers_that_cannot_be() -> None:
    with pytest.raises(CallerError, match="below nought"):
        TakenAmount(3, 5)
    with pytest.raises(CallerError, match="below nought"):
        TakenFromStart(3, 5)
    with pytest.raises(CallerError, match="from 1 to 9"):
        AddedAmount(47, 0)


def test_the_tool_never_does_the_ones_as_they_are_the_answer() -> None:
    assert not AddedAmount(47, 3).can_do(Part.ONES)
    assert all(AddedAmount(47, 5).can_do(part) for part in AddedAmount(47, 5).parts)
