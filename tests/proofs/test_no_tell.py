"""Proof 1: no tell."""

from random import Random

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Ask, Support
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.settings import Length
from saythesum.wording.speak.said import said
from tests.proofs.all_help import all_help
from tests.proofs.no_tell import measured
from tests.proofs.said_numbers import numbers_said
from tests.proofs.wild_pupil import WildPupil
from tests.talk import Talk, plan_of

MAY_TELL = say.Worked | say.TwoJumps | say.AlongTheLine
PRACTICES = 40


def test_forty_eight_and_forty_six_are_said_back_alike_and_unsure_alike() -> None:
    for certainty, expected in ((0.9, ["Forty-{}."]), (0.5, ["Say it once more, please."])):
        for ones, value in (("eight", 48), ("six", 46)):
            talk = Talk(plan_of((38,), (8,)))
            talk.begin()
            talk.said.clear()
            talk.hear(Number(value), certainty)
            talk.wait()
            assert talk.said == [line.format(ones) for line in expected]


@pytest.mark.parametrize("length", ["brief", "short", "full"])
def test_answers_get_the_same_words_after_the_same_wait_right_or_wrong(length: Length) -> None:
    """`python -m tests.proofs` looks at a thousand."""
    figures = measured(length, answers=160)
    assert figures.answers == 160
    assert figures.different == 0, figures
    assert figures.once_more_right == figures.once_more_wrong > 0, figures


def test_no_help_tells_the_answer_also_past_a_hundred() -> None:
    """Below a hundred, test_true_help looks on."""
    told = [
        (help_turn.asked, text)
        for asked in (Sum(76, 8), Sum(98, 3), Sum(104, 7), Sum(398, 5), Sum(600, 4), Sum(991, 9), Sum(999, 1))
        for help_turn in all_help(asked)
        for message in help_turn.messages
        if not isinstance(message, MAY_TELL | say.Place)
        if help_turn.asked.total in numbers_said(text := said(message, "short"))
        if not isinstance(message, say.Right)
    ]
    assert not told


def test_over_whole_practices_nothing_tells_an_answer_before_the_pupil_said_it() -> None:
    told: list[str] = []
    for seed in range(PRACTICES):
        told += _told_in_practice(seed)
    assert not told


def _told_in_practice(seed: int) -> list[str]:
    dice = Random(seed)
    length: Length = dice.choice(("brief", "short", "full"))
    # no start is the total of another sum, or reading out the headers would be a tell by chance
    talk = Talk(plan_of((38, 57, 24), dice.choice(((3, 5, 8), (4, 6, 9))), length=length))
    pupil = WildPupil(seed)
    talk.begin()
    found: list[str] = []
    given: set[tuple[Cell, int]] = set()
    seen = len(talk.messages)
    for _ in range(60):
        if talk.finished:
            break
        asked_cell = _cell(talk)
        reply = pupil.act(talk)
        if isinstance(reply, Number):
            given |= {(asked_cell, reply.value), (_cell(talk), reply.value)}
        for message in talk.messages[seen:]:
            cells = {asked_cell, _cell(talk)}
            for cell in cells:
                total = talk.plan.exercise_at(cell).total
                if (cell, total) not in given | _worked(talk) and not isinstance(message, MAY_TELL):
                    text = said(message, length)
                    found += [f"{seed}: {text}"] if total in numbers_said(text) else []
        seen = len(talk.messages)
    return found


def _cell(talk: Talk) -> Cell:
    ask = talk.state.progress.ask
    assert ask is not None
    return cell_of(ask)


def _worked(talk: Talk) -> set[tuple[Cell, int]]:
    """The cells whose worked line has been said."""
    cells = [cell_of(row) for row in talk.rows if isinstance(row, Ask) and row.support is Support.MODELLED]
    return {(cell, talk.plan.exercise_at(cell).total) for cell in cells}
