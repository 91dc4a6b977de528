"""Same rows, same pupil: all at once or in parts, cut anywhere, with rows taken back or amended."""

from copy import deepcopy
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.records.rows import Answer, Ask, Note, NoteKind, Row, RowId, Support, Void, VoidReason
from saythesum.core.sums import Part
from saythesum.learner.data_quality import Odd, Oddity, oddities
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import WEIGHED_AS, Kept, KnownSoFar, changes_earlier_rows, learned
from tests.learner.learners import CELLS, FIRST_DAY, answer, asked_of, learner

BEGAN = datetime(2026, 3, 2, 9, tzinfo=UTC)
OARS = Sum(47, 8)


def kept(*rows: Row) -> list[Kept]:
    return [Kept(row, BEGAN + timedelta(hours=5 * number)) for number, row in enumerate(rows)]


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
def test_at_once_and_in_two_parts_come_to_the_same(rows: list[Row], data: st.DataObject) -> None:
    cut = data.draw(st.integers(0, len(rows)))
    all_rows = kept(*rows)
    before = learned(all_rows[:cut])
    as_it_was = deepcopy(before)
    both = learned(all_rows[cut:], before)
    assert both == learned(all_rows) or changes_earlier_rows(rows[cut:])
    assert before == as_it_was


@settings(max_examples=50, deadline=None)
@given(histories(), st.data())
def test_what_is_known_so_far_is_what_the_rows_come_to(rows: list[Row], data: st.DataObject) -> None:
    """Whatever it was asked before: fewer rows, more, or others, as after an answer that was taken back."""
    before = learned(kept(*practised(60, 4)))
    so_far = KnownSoFar(before, BEGAN, ())
    for _ in range(12):
        count = data.draw(st.integers(0, len(rows)))
        left_out = data.draw(st.integers(0, max(count - 1, 0)))
        live = (*rows[:left_out], *rows[left_out + 1 : count])
        assert so_far.after(live) == learned((Kept(row, BEGAN) for row in live), before)


def test_a_row_that_changes_one_of_another_practice_is_noticed() -> None:
    first, second = answer(OARS, 45, id="first"), answer(OARS, 55, id="second")
    void = Void(RowId("void"), first.id, VoidReason.WRONG_PUPIL)
    assert changes_earlier_rows([second, void])
    assert not changes_earlier_rows([first, second, void])
    assert not changes_earlier_rows([second])


def test_a_void_takes_the_answer_and_what_it_led_to() -> None:
    wrong, step = answer(OARS, 45, id="wrong"), answer(OARS, 2, part=Part.GAP, support=Support.ASKED, id="step")
    asked = Ask(RowId("ask"), 0, 0, Part.GAP, Support.ASKED, wrong.id)
    void = Void(RowId("void"), wrong.id, VoidReason.NOT_SAID)
    right = answer(OARS, 55, id="right")
    assert learned(kept(wrong, asked, step, void)) == Pupil()
    assert learned(kept(wrong, asked, step, void, right)).beliefs == learned(kept(right)).beliefs


def test_an_adult_may_say_later_that_there_was_help() -> None:
    right = answer(OARS, 55, id="right")
    note = Note(RowId("note"), right.id, NoteKind.SUPPORT, "adult-help")
    assert learned(kept(right, note)) == Pupil()
    uncounted = Note(RowId("note"), right.id, NoteKind.NOT_COUNTED, "")
    assert learned(kept(right, uncounted)) == Pupil()
    unknown = replace(note, value="some-level-to-come")
    assert learned(kept(right, unknown)) == learned(kept(right))


def test_what_is_taken_back_from_long_ago_was_never_there() -> None:
    first = answer(OARS, 45, id="first")
    rows: list[Row] = [first, *practised(1, 150)]
    void = Void(RowId("void"), first.id, VoidReason.WRONG_PUPIL)
    assert learned(kept(*rows, void)).beliefs == learned(kept(*rows)[1:]).beliefs


def test_what_is_remembered_is_bounded() -> None:
    pupil = learned(kept(*practised(2, 300), *practised(3, 300)))
    assert len(pupil.evidence) == 40 and len(pupil.recent) == 12


# What was known is kept between starts, for as long as the same rows come to the same pupil.


def rows_for_all_time() -> list[Kept]:
    """Every sum of the grid three times, every third answer wrong in one of several ways, steps asked after some."""
    rows: list[Row] = []
    for number, (cell, asked) in enumerate([*CELLS.items()] * 3):
        slip = (0, 0, 10, 0, 0, 1)[number % 6]
        whole = answer(asked, asked.total - slip, cell=cell, id=f"whole {number}")
        rows.append(replace(whole, took_ms=1500 + 700 * (number % 5)))
        if slip == 10 and asked.parts:
            part = asked.parts[0]
            given = asked.answer_to(part) + number % 2
            rows.append(answer(asked, given, part=part, cell=cell, support=Support.ASKED, id=f"part {number}"))
    return kept(*rows)


def test_weighing_the_same_rows_otherwise_raises_its_number() -> None:
    """Where this fails the learner has come to weigh rows in another way: raise WEIGHED_AS and put the new figures
    here, or pupils that were kept by the old way would be taken for the new one's."""
    pupil = learned(rows_for_all_time())
    beliefs = sum(belief.known for belief in pupil.beliefs.values())
    stability_days = sum(trace.stability_days for trace in pupil.traces.values())
    leaning = max(pupil.leaning().values())
    figures = [round(figure, 6) for figure in (beliefs, stability_days, leaning)]
    counts = [len(pupil.beliefs), len(pupil.traces), len(pupil.upkeep), len(pupil.worked_out)]
    assert (WEIGHED_AS, figures, counts) == (3, [101.175315, 968.400413, 0.03202], [110, 99, 64, 0])


# Rows that cannot be taken at their word.


def test_a_clock_that_jumps_back_loses_nothing() -> None:
    rows = [Kept(answer(OARS, 55, id=f"{number}"), BEGAN - timedelta(days=number)) for number in range(3)]
    pupil = learned(rows)
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
    assert learned(kept(named)) == learned(kept(plain))
