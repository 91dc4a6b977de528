"""The names kept with a wrong answer: in the order of what also fits the pupil's other answers, the same on replay."""

from datetime import UTC, datetime

from saythesum.core.grids.grid import Grid
from saythesum.core.meanings import Command, Given
from saythesum.core.records.rows import Answer, Row
from saythesum.core.sums import Part
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.learner.replay import Kept, learned
from saythesum.settings import Settings
from tests.same_rows import without_ids
from tests.talk import PRACTICE, Talk

GRID = Grid("Bags of flour", (27, 57, 36), (8, 9))
BEGAN_AT = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)
GAP_TWICE = ("33", "63")
"""27 + 8 and 57 + 9 with the gap of 3 used twice; then 36 + 9 is 44 by the same habit, or by being one short."""


def practised(rows_before: list[Row] | None = None, *, killed: bool = False, voided: bool = False) -> Talk:
    before = learned([Kept(row, BEGAN_AT, GRID) for row in rows_before or []])
    plan: Plan = planned(PRACTICE, [activity(GRID, 0)], Settings(), began_at=BEGAN_AT, before=before)
    talk = Talk(plan, Ear.TEXT)
    talk.begin()
    for line in ("33", "skip", "skip", "skip", "63", "skip", "skip", "44"):
        talk.type(line)
        if voided and line in GAP_TWICE:
            talk.type(Given(Command.NOT_WHAT_I_SAID))
        if killed:
            talk = talk.again()
            talk.begin()
    return talk


def names_of(given: int, talk: Talk) -> tuple[str, ...]:
    (answer,) = (row for row in talk.rows if isinstance(row, Answer) and row.given == given and row.part is Part.WHOLE)
    return answer.could_be


def test_what_fits_the_other_answers_comes_first() -> None:
    assert names_of(44, practised())[0] == "gap-used-twice"


def test_what_was_taken_back_counts_for_nothing() -> None:
    assert names_of(44, practised(voided=True))[0] == "one-short"


def test_an_earlier_practice_counts_too() -> None:
    again = practised(practised().rows, voided=True)
    assert names_of(44, again)[0] == "gap-used-twice"
    assert names_of(33, again)[0] == "gap-used-twice"


def test_killed_after_every_line_the_names_are_the_same() -> None:
    assert without_ids(practised(killed=True).rows) == without_ids(practised().rows)


def test_the_answer_before_is_the_last_one_to_another_cell() -> None:
    """Said again in its own cell a number is no answer to the sum before."""
    talk = Talk(planned(PRACTICE, [activity(Grid("Sacks", (27, 51), (8, 3)), 0)], Settings()), Ear.TEXT)
    talk.begin()
    for line in ("35", "29", "29", "30", "30"):  # 27 + 8, then 27 + 3 twice wrong; 51 + 8 answered like the sum before
        talk.type(line)
    named = [(answer.given, "previous-answer" in answer.could_be) for answer in talk.answers]
    assert named == [(35, False), (29, False), (29, False), (30, False), (30, True)]
