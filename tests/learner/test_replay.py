"""Same rows, same pupil: all at once or one by one, cut anywhere, with rows taken back or amended."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.records.rows import Answer, Ask, Note, NoteKind, Row, RowId, Support, Void, VoidReason
from saythesum.core.sums import Part, Sum
from saythesum.learner.data_quality import Odd, Oddity, oddities
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import REACH, Kept, Record, learned, with_row
from tests.learner.learners import CELLS, FIRST_DAY, answer, asked_of, learner

BEGAN = datetime(2026, 3, 2, 9, tzinfo=UTC)
OARS = Sum(47, 8)


def kept(*rows: Row) -> list[Kept]:
    return [Kept(row, BEGAN + timedelta(hours=5 * number)) for number, row in enumerate(rows)]


def one_by_one(rows: list[Kept]) -> Record:
    record = Record()
    for row in rows:
        record = with_row(record, row)
    return record


def practised(seed: int, sums: int) -> list[Row]:
    """Questions and answers of a made-up pupil; each step's question leads back to the answer before it."""
    dice = Random(seed)
    pupil = learner(f"{seed}", 0.4)
    rows: list[Row] = []
    for _ in range(sums):
        cell = dice.choice(list(CELLS))
        because: RowId | None = None
        for said in asked_of(pupil, cell, CELLS[cell], FIRST_DAY):
            rows.append(Ask(RowId(f"ask {len(rows)}"), cell.row, cell.column, said.part, said.support, because))
            rows.append(replace(said, id=RowId(f"answer {len(rows)}")))
            because = rows[-1].id
    return rows


def changes(rows: list[Row]) -> st.SearchStrategy[Row]:
    ids = st.sampled_from([row.id for row in rows if isinstance(row, Answer)] + [RowId("unknown")])
    notes = st.sampled_from(["adult-help", "independent", "a level of a newer version"])
    return st.one_of(
        st.builds(Void, st.just(RowId("void")), ids, st.sampled_from(VoidReason)),
        st.builds(Note, st.just(RowId("note")), ids, st.just(NoteKind.SUPPORT), notes),
        st.builds(Note, st.just(RowId("note")), ids, st.just(NoteKind.NOT_COUNTED), st.just("")),
        st.builds(Note, st.just(RowId("note")), st.none(), st.just(NoteKind.TEXT), st.just("a good day")),
    )


@st.composite
def histories(draw: st.DrawFn) -> list[Row]:
    rows = practised(draw(st.integers(0, 50)), 8)
    for _ in range(draw(st.integers(0, 4))):
        place = draw(st.integers(2, len(rows)))
        rows.insert(place, draw(changes(rows[:place])))
    return rows


@settings(max_examples=50, deadline=None)
@given(histories(), st.data())
def test_at_once_and_one_by_one_come_to_the_same(rows: list[Row], data: st.DataObject) -> None:
    cut = data.draw(st.integers(0, len(rows)))
    all_rows = kept(*rows)
    assert learned(all_rows[:cut]).pupil == one_by_one(all_rows[:cut]).pupil
    record = learned(all_rows[:cut])
    for row in all_rows[cut:]:
        record = with_row(record, row)
    assert record.pupil == learned(all_rows).pupil


def test_a_void_takes_the_answer_and_what_it_led_to() -> None:
    wrong, step = answer(OARS, 45, id="wrong"), answer(OARS, 2, part=Part.GAP, support=Support.ASKED, id="step")
    asked = Ask(RowId("ask"), 0, 0, Part.GAP, Support.ASKED, wrong.id)
    void = Void(RowId("void"), wrong.id, VoidReason.NOT_SAID)
    right = answer(OARS, 55, id="right")
    assert one_by_one(kept(wrong, asked, step, void)).pupil == Pupil()
    assert one_by_one(kept(wrong, asked, step, void, right)).pupil.beliefs == one_by_one(kept(right)).pupil.beliefs


def test_an_adult_may_say_later_that_there_was_help() -> None:
    right = answer(OARS, 55, id="right")
    note = Note(RowId("note"), right.id, NoteKind.SUPPORT, "adult-help")
    assert one_by_one(kept(right, note)).pupil == Pupil()
    uncounted = Note(RowId("note"), right.id, NoteKind.NOT_COUNTED, "")
    assert one_by_one(kept(right, uncounted)).pupil == Pupil()
    unknown = replace(note, value="some-level-to-come")
    assert one_by_one(kept(right, unknown)).pupil == one_by_one(kept(right)).pupil


def test_what_is_taken_back_from_long_ago_calls_for_a_replay() -> None:
    first = answer(OARS, 45, id="first")
    rows: list[Row] = [first, *practised(1, REACH // 3)]
    assert len(rows) > REACH
    void = Void(RowId("void"), first.id, VoidReason.WRONG_PUPIL)
    record = one_by_one(kept(*rows))
    assert not record.wants_replay and with_row(record, Kept(void, BEGAN)).wants_replay
    replayed = learned(kept(*rows, void))
    assert not replayed.wants_replay
    assert replayed.pupil.beliefs == learned(kept(*rows)[1:]).pupil.beliefs


def test_what_is_remembered_is_bounded() -> None:
    record = learned(kept(*practised(2, 300)))
    again = learned(kept(*practised(2, 300), *practised(3, 300)))
    assert len(record.steps) == len(again.steps) == REACH
    assert len(again.pupil.evidence) <= 40 and len(again.pupil.lately) <= 12


# Rows that cannot be taken at their word.


def test_a_clock_that_jumps_back_loses_nothing() -> None:
    rows = [Kept(answer(OARS, 55, id=f"{number}"), BEGAN - timedelta(days=number)) for number in range(3)]
    pupil = learned(rows).pupil
    assert pupil.belief(next(iter(pupil.beliefs))).answers == 3
    assert {trace.last for trace in pupil.traces.values()} == {BEGAN.date()}
    assert [(odd.answer.id, odd.what) for odd in oddities(rows)] == [
        ("1", Odd.CLOCK_WENT_BACK),
        ("2", Odd.CLOCK_WENT_BACK),
    ]


@pytest.mark.parametrize(
    ("said", "what"),
    [
        (replace(answer(OARS, 45), could_be=("new-ten-lost", "a-name-to-come")), Odd.UNKNOWN_MISTAKE),
        (replace(answer(OARS, 45), right=True), Odd.IMPOSSIBLE_ANSWER),
        (answer(OARS, 5000), Odd.IMPOSSIBLE_ANSWER),
    ],
)
def test_odd_answers_are_told(said: Answer, what: Odd) -> None:
    assert oddities(kept(said)) == (Oddity(said, BEGAN, what),)


def test_two_rows_at_one_time_and_nothing_odd() -> None:
    first, second = (answer(OARS, 55, id=str(number)) for number in range(2))
    assert oddities([Kept(first, BEGAN), Kept(second, BEGAN)]) == (Oddity(second, BEGAN, Odd.SAME_TIME),)
    assert oddities(kept(*practised(4, 5))) == ()


def test_a_mistake_named_by_a_newer_version_changes_nothing_that_is_learned() -> None:
    plain = answer(OARS, 45)
    named = replace(plain, could_be=("a-name-to-come",))
    assert learned(kept(named)).pupil == learned(kept(plain)).pupil
