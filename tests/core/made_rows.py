"""Strategies that make any row, and the plain values around it."""

from hypothesis import strategies as st

from saythesum.core.exercises.registry import EXERCISES
from saythesum.core.records.rows import (
    Answer,
    Ask,
    By,
    End,
    EndReason,
    Form,
    HeardId,
    Note,
    NoteKind,
    Purpose,
    Reason,
    Row,
    RowId,
    Settled,
    Support,
    Void,
    VoidReason,
    Way,
)
from saythesum.core.sums import ExerciseName, Hidden, Part
from saythesum.errors import CallerError

places = st.integers(0, 30)
numbers = st.integers(0, 1099)
row_ids = st.uuids().map(lambda id: RowId(str(id)))


def asks() -> st.SearchStrategy[Ask]:
    because = st.one_of(st.none(), row_ids, st.sampled_from(Reason))
    return st.builds(
        Ask,
        id=row_ids,
        row=places,
        column=places,
        part=st.sampled_from(Part),
        support=st.sampled_from(Support),
        because=because,
        activity=places,
        exercise=st.sampled_from(ExerciseName),
        hidden=st.sampled_from(Hidden),
        form=st.one_of(st.none(), st.sampled_from(Form)),
        about=st.one_of(st.none(), st.text(max_size=20)),
        lines=st.lists(places, max_size=2).map(tuple),
    )


def answers() -> st.SearchStrategy[Answer]:
    return st.sampled_from(sorted(EXERCISES)).flatmap(lambda words: _answers_to(*words))


def _can_be_asked(answer: Answer) -> bool:
    try:
        return answer.asked is not None
    except CallerError:
        return False


def _answers_to(operation: str, name: ExerciseName, hidden: Hidden) -> st.SearchStrategy[Answer]:
    return st.builds(
        Answer,
        id=row_ids,
        row=places,
        column=places,
        start=st.integers(0, 999),
        amount=st.integers(1, 9),
        part=st.sampled_from(Part),
        right_answer=numbers,
        given=numbers,
        right=st.booleans(),
        support=st.sampled_from(Support),
        tries=st.integers(1, 20),
        certainty=st.one_of(st.none(), st.floats(0, 1)),
        close_to=st.lists(numbers, max_size=3).map(tuple),
        heard=st.one_of(st.none(), st.uuids().map(lambda id: HeardId(str(id)))),
        took_ms=st.one_of(st.none(), st.integers(0, 600_000)),
        could_be=st.lists(st.text(max_size=20), max_size=3).map(tuple),
        by=st.sampled_from(By),
        settled=st.sampled_from(Settled),
        operation=st.just(operation),
        purpose=st.sampled_from(Purpose),
        activity=places,
        exercise=st.just(name),
        hidden=st.just(hidden),
        sure=st.booleans(),
        way=st.one_of(st.none(), st.sampled_from(Way)),
    ).filter(_can_be_asked)


def voids() -> st.SearchStrategy[Void]:
    return st.builds(Void, row_ids, row_ids, st.sampled_from(VoidReason))


def notes() -> st.SearchStrategy[Note]:
    return st.builds(Note, row_ids, st.one_of(st.none(), row_ids), st.sampled_from(NoteKind), st.text())


def ends() -> st.SearchStrategy[End]:
    return st.builds(End, row_ids, places, places, st.sampled_from(EndReason))


KINDS: dict[str, st.SearchStrategy[Row]] = {
    "ask": asks(),
    "answer": answers(),
    "void": voids(),
    "note": notes(),
    "end": ends(),
}
rows: st.SearchStrategy[Row] = st.one_of(*KINDS.values())
