"""What an adult's marks do to a report's figures, on the seeded practices of the learner's properties."""

from datetime import date
from random import Random
from uuid import uuid5

import pytest

from saythesum.core.records.marks import FROM_HERE, KINDS, YES, Mark
from saythesum.core.records.rows import Answer, Note, NoteKind, Row, Void, VoidReason, row_id
from saythesum.reports.review.facts import Fact, facts_of, firsts
from saythesum.reports.review.shares import right_unaided
from saythesum.reports.review.source import PracticeRead
from tests.learner.test_marks import GRID, rows_of, with_notes
from tests.talk import PRACTICE

SEEDS = range(12)
DAY = date(2031, 5, 12)


def facts(rows: list[Row]) -> tuple[Fact, ...]:
    return facts_of(PracticeRead(PRACTICE, DAY, GRID.title, (), rows, [DAY] * len(rows), 5, 140))


def figures(rows: list[Row]) -> list[tuple[str, bool]]:
    """The first answers that count, and whether each was right unaided."""
    return [(one.answer.id, one.is_right_unaided) for one in firsts(facts(rows))]


@pytest.mark.parametrize("seed", SEEDS)
def test_help_lowers_and_never_raises(seed: int) -> None:
    rows = rows_of(seed)
    dice = Random(seed)
    answers = [row for row in rows if isinstance(row, Answer)]
    helped = dice.sample(answers, dice.randint(1, len(answers)))
    noted = with_notes(rows, *((NoteKind.SUPPORT, one, dice.choice(KINDS[Mark.HELPED])) for one in helped))
    before, after = dict(figures(rows)), dict(figures(noted))
    assert before.keys() == after.keys()
    assert after == {id: right and id not in {one.id for one in helped} for id, right in before.items()}
    assert figures(with_notes(noted, *((NoteKind.SUPPORT, one, "") for one in helped))) == figures(rows)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_was_not_said_and_what_does_not_count_is_in_no_figure(seed: int) -> None:
    rows = rows_of(seed)
    answers = [row for row in rows if isinstance(row, Answer)]
    gone = Random(seed).choice(answers)
    void = Void(row_id(uuid5(PRACTICE, "voids"), 0), gone.id, VoidReason.NOT_SAID)
    assert gone.id not in dict(figures([*rows, void]))
    at = rows.index(gone)
    from_here = Note(row_id(uuid5(PRACTICE, "from here"), 0), None, NoteKind.NOT_COUNTED, FROM_HERE)
    marked = [*rows[:at], from_here, *rows[at:]]
    assert figures(marked) == figures(rows[:at])
    assert len(facts(marked)) == len(facts(rows)), "attended all the same"


@pytest.mark.parametrize("seed", SEEDS)
def test_that_was_right_makes_one_more_right_and_is_taken_back(seed: int) -> None:
    rows = rows_of(seed)
    wrong = [one.answer for one in firsts(facts(rows)) if not one.answer.right]
    if not wrong:
        return
    one = Random(seed).choice(wrong)
    noted = with_notes(rows, (NoteKind.WAS_RIGHT, one, YES))
    assert right_unaided(firsts(facts(noted))).right == right_unaided(firsts(facts(rows))).right + 1
    assert figures(with_notes(noted, (NoteKind.WAS_RIGHT, one, ""))) == figures(rows)
