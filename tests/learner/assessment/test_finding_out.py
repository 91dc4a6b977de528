"""What a practice that finds out asks next, and when it is over."""

from itertools import combinations

from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Kind
from saythesum.learner.assessment.finding_out import (
    FEWEST,
    GRID,
    MOST,
    NEARLY,
    cells_to_choose_from,
    in_question,
    is_over,
    next_to_ask,
)
from saythesum.learner.assessment.information import expected_information
from saythesum.learner.diagnosis import diagnosed
from saythesum.learner.evidence import Evidence
from tests.core.made_sums import a_sum, sum_at
from tests.learner.believers import evidence, most_telling

ALL = tuple(sum_at(GRID, cell) for cell in cells_to_choose_from(0))
RIGHT = tuple(evidence(asked, asked.total) for asked in (Sum(17, 8), Sum(64, 9), Sum(34, 6), Sum(19, 7)))
ONE_SHORT = tuple(evidence(a_sum(one.asked), one.asked.total - 1, number=at) for at, one in enumerate(RIGHT))


def test_the_sums_are_those_of_two_digits_that_cross_or_land() -> None:
    """Counted by hand: for a start that ends in n, the n largest amounts; 0 + 1 + … + 9 = 45 for each of nine tens."""
    assert len(ALL) == len(set(ALL)) == 9 * sum(range(10)) == 405
    assert all(10 <= asked.start <= 99 and asked.kind is not Kind.WITHIN for asked in ALL)
    assert set(cells_to_choose_from(1)) == set(cells_to_choose_from(2))
    assert cells_to_choose_from(1) != cells_to_choose_from(2)


def test_what_is_asked_tells_nearly_as_much_as_the_best_and_is_from_a_ten_less_asked() -> None:
    for heard in ((), RIGHT[:1], RIGHT, ONE_SHORT[:1], ONE_SHORT):
        before = [one.asked for one in heard]
        left = [asked for asked in ALL if asked not in before]
        diagnosis = diagnosed(heard)
        asked = next_to_ask(left, heard, before)
        best = most_telling(left, diagnosis)
        assert expected_information(asked, diagnosis) >= NEARLY * expected_information(best, diagnosis)
    assert len({next_to_ask(ALL, (), [one.asked for one in RIGHT[:many]]).start // 10 for many in range(4)}) > 1


def test_the_order_given_decides_between_equals() -> None:
    firsts = {next_to_ask([sum_at(GRID, cell) for cell in cells_to_choose_from(seed)], (), ()) for seed in range(6)}
    assert len(firsts) > 1


def test_it_is_over_when_one_can_be_named_or_nearly_certainly_none_and_never_before_six() -> None:
    assert not any(is_over(heard, asked) for heard in (RIGHT, ONE_SHORT) for asked in range(FEWEST))
    assert is_over(RIGHT, FEWEST)
    assert is_over(ONE_SHORT, FEWEST)


def test_after_twelve_it_is_over_whatever_was_answered() -> None:
    puzzling: tuple[Evidence, ...] = (RIGHT[0], *ONE_SHORT[1:2], evidence(Sum(34, 6), 96), evidence(Sum(19, 7), 16))
    assert not is_over(puzzling, FEWEST)
    assert not is_over(puzzling, MOST - 1)
    assert is_over(puzzling, MOST)
    assert is_over((), MOST)


def test_at_most_two_mistakes_are_in_question_and_the_sum_tells_them_apart() -> None:
    assert in_question(Sum(57, 8), ()) == ()
    one_wrong = (evidence(Sum(36, 9), 44),)  # one short, or the gap of 4 used twice
    assert set(in_question(Sum(57, 8), one_wrong)) == {"one-short", "gap-used-twice"}
    assert in_question(Sum(57, 8), ONE_SHORT) == ("one-short",)
    for asked in ALL[::20]:
        for one, other in combinations(in_question(asked, one_wrong), 2):
            assert one != other
