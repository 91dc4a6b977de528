"""The same rule as the dialogue's own fold, on practices made of real questions and answers."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.records.rows import Answer, Ask, Reason, Row, RowId, Support, Void, VoidReason
from saythesum.core.records.voiding import gone_with
from saythesum.core.sums import Part
from saythesum.dialogue.tutor.progress import folded
from tests.learner.learners import answer


def practices() -> st.SearchStrategy[list[Row]]:
    """Questions that lead back to an earlier answer, to a call for help, or to nothing; an answer to most."""
    reason = st.one_of(st.none(), st.sampled_from(Reason), st.integers(0, 30))
    return st.lists(st.tuples(reason, st.booleans()), min_size=1, max_size=15).map(_rows)


def _rows(asked: list[tuple[Reason | int | None, bool]]) -> list[Row]:
    rows: list[Row] = []
    for because, is_answered in asked:
        answers = [row.id for row in rows if isinstance(row, Answer)]
        led = answers[because % len(answers)] if isinstance(because, int) and answers else None
        ask_id = RowId(f"ask {len(rows)}")
        reason = because if isinstance(because, Reason) else led
        rows.append(Ask(ask_id, 0, 0, Part.WHOLE, Support.INDEPENDENT, reason))
        if is_answered:
            rows.append(answer(Sum(38, 5), 42, id=f"answer {len(rows)}"))
    return rows


@given(practices(), st.integers(0, 30))
def test_the_same_answers_go_as_in_the_dialogue(rows: list[Row], chosen: int) -> None:
    answers = [row for row in rows if isinstance(row, Answer)]
    if not answers:
        return
    of = answers[chosen % len(answers)].id
    at = [row.id for row in rows].index(of)
    gone = gone_with(of, rows[at:])
    live = folded([*rows, Void(RowId("void"), of, VoidReason.NOT_SAID)]).live
    assert [row.id for row in answers if row.id not in gone] == [row.id for row in live if isinstance(row, Answer)]


def test_a_question_that_came_after_is_not_touched() -> None:
    first = answer(Sum(38, 5), 42, id="first")
    other = replace(first, id=RowId("other"))
    ask = Ask(RowId("ask"), 1, 0, Part.WHOLE, Support.INDEPENDENT, None)
    assert gone_with(first.id, [first, ask, other]) == {first.id}
