"""The number line fills with what the pupil said, to scale, and gives nothing away before help."""

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.scene.number_line import Jump, LineShown
from saythesum.scene.scene import Scene
from tests.scene.watched import answer_in, practice


def line_in(scene: Scene) -> LineShown:
    assert scene.line
    return scene.line


def test_it_fills_with_what_the_pupil_said() -> None:
    watched = practice(57, amounts=(8,))
    assert line_in(watched.shown()).jumps == (Jump(8, None, None),)
    lines = [line_in(watched.typed(line)) for line in ("I don't know", "60", "3", "5", "65")]
    assert [line.jumps for line in lines] == [
        (Jump(None, None, None), Jump(None, None, None)),
        (Jump(None, 60, 60), Jump(None, None, None)),
        (Jump(3, 60, 60), Jump(None, None, None)),
        (Jump(3, 60, 60), Jump(5, None, 65)),
        (Jump(3, 60, 60), Jump(5, 65, 65)),
    ]
    assert [line.name for line in lines] == [
        "Number line from fifty-seven. First jump: not known yet. Second jump: not known yet.",
        "Number line from fifty-seven. First jump: to sixty. Second jump: not known yet.",
        "Number line from fifty-seven. First jump: three, to sixty. Second jump: not known yet.",
        "Number line from fifty-seven. First jump: three, to sixty. Second jump: five.",
        "Number line from fifty-seven. First jump: three, to sixty. Second jump: five, to sixty-five.",
    ]


def test_a_sum_that_lands_on_the_ten_keeps_it_hidden() -> None:
    watched = practice(57, amounts=(3, 8))
    at_the_gap = watched.typed("I don't know")
    assert answer_in(at_the_gap).part == "To the next ten"
    assert line_in(at_the_gap).jumps == (Jump(None, None, None),)
    assert line_in(watched.typed("3")).jumps == (Jump(3, None, 60),)


@pytest.mark.parametrize("start", range(0, 1000, 37))
def test_its_ends_are_the_same_for_every_amount_and_hold_every_answer(start: int) -> None:
    lines = [line_in(practice(start, amounts=(amount,)).shown()) for amount in range(1, 10)]
    assert len({(line.first, line.last) for line in lines}) == 1
    assert lines[0].first <= start
    assert all(Sum(start, amount).total <= lines[0].last for amount in range(1, 10))
    assert lines[0].first % 10 == lines[0].last % 10 == 0
