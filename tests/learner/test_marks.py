"""What an adult's marks do to belief, on seeded rows: properties of any practice and any marks."""

from dataclasses import replace
from datetime import UTC, datetime
from random import Random
from uuid import uuid5

import pytest

from saythesum.core.grids.grid import Cell, Grid, walk
from saythesum.core.records.marks import COUNTS, FROM_HERE, KINDS, YES, Mark, rows_that_count
from saythesum.core.records.rows import UNAIDED, Answer, Ask, Note, NoteKind, Row, Support, Void, VoidReason, row_id
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.learner.evidence import Tells, tells
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, learned
from saythesum.settings import Settings
from tests.talk import PRACTICE, Talk

AT = datetime(2031, 5, 12, 9, 0, tzinfo=UTC)
GRID = Grid("Seats on the ferry", (47, 38, 59), (5, 8, 3))


def rows_of(seed: int) -> list[Row]:
    """A practice whose answers are right or wrong by dice, with the help that this brings."""
    dice = Random(seed)
    talk = Talk(planned(uuid5(PRACTICE, f"marks {seed}"), [activity(GRID, 0)], Settings()), Ear.KEYS)
    talk.begin()
    for _ in range(dice.randint(4, 24)):
        ask = talk.state.progress.ask
        if talk.finished or ask is None:
            break
        exercise = talk.plan.exercise_at(Cell(*ask.place, ask.activity))
        right = exercise.answer_to(ask.part)
        talk.type(str(right if dice.random() < 0.6 else right + dice.choice([1, 10, 2])))
    return talk.rows


def known(rows: list[Row]) -> Pupil:
    return learned(Kept(row, AT, GRID) for row in rows)


def with_notes(rows: list[Row], *notes: tuple[NoteKind, Answer | None, str]) -> list[Row]:
    """The notes at the end, as they are added afterwards."""
    practice = uuid5(PRACTICE, "notes")
    for what, of, value in notes:
        rows = [*rows, Note(row_id(practice, len(rows)), of.id if of else None, what, value)]
    return rows


def independent(rows: list[Row]) -> set[str]:
    """Answers that count as the pupil's own, for the whole sum."""
    return {
        one.of for one in known(rows).evidence for row in rows
        if isinstance(row, Answer) and row.id == one.of and tells(row) is Tells.THE_SUM
    }  # fmt: skip


SEEDS = range(12)


@pytest.mark.parametrize("seed", SEEDS)
def test_with_my_help_never_raises_independence(seed: int) -> None:
    rows = rows_of(seed)
    dice = Random(seed)
    answers = [row for row in rows if isinstance(row, Answer)]
    helped = dice.sample(answers, dice.randint(1, len(answers)))
    values = (*KINDS[Mark.HELPED], *Support, "adult-help something-new", "nothing known")
    noted = with_notes(rows, *((NoteKind.SUPPORT, one, dice.choice(values)) for one in helped))
    assert independent(noted) <= independent(rows)
    told = with_notes(rows, *((NoteKind.SUPPORT, one, KINDS[Mark.HELPED][0]) for one in helped))
    assert independent(told).isdisjoint(one.id for one in helped)
    back = with_notes(told, *((NoteKind.SUPPORT, one, "") for one in helped))
    assert known(back) == known(rows)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_was_not_said_leaves_no_trace(seed: int) -> None:
    """As if neither the answer nor anything that came of it had been."""
    rows = rows_of(seed)
    dice = Random(seed)
    wrong = [row for row in rows if isinstance(row, Answer) and not row.right]
    gone = dice.choice(wrong) if wrong else dice.choice([row for row in rows if isinstance(row, Answer)])
    at = rows.index(gone)
    void = Void(row_id(uuid5(PRACTICE, "voids"), 0), gone.id, VoidReason.NOT_SAID)
    without = [row for row in rows if row is not gone and not _leads_back(row, gone, rows[at:])]
    assert known([*rows, void]) == known(without)
    assert gone.id not in {one.of for one in known([*rows, void]).evidence}


def _leads_back(row: Row, gone: Answer, since: list[Row]) -> bool:
    """Written again in another way: the asks because of it, what was answered to them, and so on, by search."""
    ids, is_answering = {gone.id}, False
    for one in since[1:]:
        if isinstance(one, Ask):
            is_answering = one.because in ids or (is_answering and one.because in ("help", "dont-know"))
        if is_answering:
            ids.add(one.id)
    return row.id in ids


@pytest.mark.parametrize("seed", SEEDS)
def test_what_does_not_count_is_in_no_figure(seed: int) -> None:
    rows = rows_of(seed)
    dice = Random(seed)
    at = dice.randrange(1, len(rows))
    from_here = Note(row_id(uuid5(PRACTICE, "from here"), 0), None, NoteKind.NOT_COUNTED, FROM_HERE)
    beside = [
        Note(row_id(uuid5(PRACTICE, "beside"), place), row.id, NoteKind.NOT_COUNTED, "")
        for place, row in enumerate(rows[at:])
        if isinstance(row, Answer)
    ]
    marked = [*rows[:at], from_here, *rows[at:], *beside]
    assert known(marked) == known(rows[:at])
    assert [row for row in rows_that_count(marked) if isinstance(row, Answer)] == [
        row for row in rows[:at] if isinstance(row, Answer)
    ]
    again = [
        replace(note, id=row_id(uuid5(PRACTICE, "again"), place), value=COUNTS) for place, note in enumerate(beside)
    ]
    assert known([*marked, *again]) == known(rows)


@pytest.mark.parametrize("seed", SEEDS)
def test_that_was_right_counts_as_a_right_answer_and_is_taken_back(seed: int) -> None:
    rows = rows_of(seed)
    wrong = [row for row in rows if isinstance(row, Answer) and not row.right]
    if not wrong:
        return
    one = Random(seed).choice(wrong)
    noted = with_notes(rows, (NoteKind.WAS_RIGHT, one, YES))
    evidence = [found for found in known(noted).evidence if found.of == one.id]
    assert all(found.is_right for found in evidence)
    assert known(with_notes(noted, (NoteKind.WAS_RIGHT, one, ""))) == known(rows)


def test_seeded_practices_have_wrong_answers_and_help() -> None:
    """Otherwise the properties above would say little."""
    all_rows = [row for seed in SEEDS for row in rows_of(seed)]
    wrong = sum(isinstance(row, Answer) and not row.right for row in all_rows)
    helped = sum(isinstance(row, Ask) and row.support not in UNAIDED for row in all_rows)
    assert wrong > 24 and helped > 24, (wrong, helped)
    assert len(walk(GRID, 0)) == 9
