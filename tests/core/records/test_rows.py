"""Rows to plain dicts and back: the names that the log and the store have promised."""

import json
import re
from dataclasses import fields, replace
from typing import Any, get_args
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.records.codec import ROW_KINDS, from_plain, kind_of, row_as_dict, row_from_dict, to_plain
from saythesum.core.records.rows import (
    Answer,
    Ask,
    By,
    End,
    Note,
    Purpose,
    Reason,
    Row,
    RowId,
    Settled,
    Support,
    Void,
)
from saythesum.core.sums import ExerciseName, Part
from saythesum.errors import CallerError
from saythesum.settings import Listening, Settings, Waits
from tests.core import made_rows

PROMISED = {
    "ask": "id row column part support because activity exercise hidden form about lines",
    "answer": "id row column operation start amount part right_answer given right support tries certainty "
    "close_to heard took_ms could_be by settled purpose activity exercise hidden sure way",
    "void": "id of why",
    "note": "id by of what value",
    "end": "id cells right_first_time reason",
}
"""The log's fields, written out by hand: a name once landed stays."""

FERRY = Answer(
    id=RowId("0d2b6f0e-3f55-5c0c-9c5e-3a2b8a1f4c11"),
    row=1,
    column=0,
    start=59,
    amount=8,
    part=Part.WHOLE,
    right_answer=67,
    given=57,
    right=False,
    support=Support.INDEPENDENT,
    tries=1,
    certainty=0.9,
    close_to=(67,),
    heard=None,
    took_ms=2300,
    could_be=("new-ten-lost",),
    by=By.VOICE,
    settled=Settled.SAID_BACK,
    sure=True,
)


@pytest.mark.parametrize("kind", made_rows.KINDS)
@given(data=st.data())
def test_every_kind_comes_back_from_text_as_it_was(kind: str, data: st.DataObject) -> None:
    row = data.draw(made_rows.KINDS[kind])
    written = json.dumps(row_as_dict(row), allow_nan=False)
    assert row_from_dict(json.loads(written)) == row
    assert kind_of(row) == kind


@pytest.mark.parametrize(("certainty", "sure"), [(None, True), (0.7, True), (1, True), (0.69, False), (0, False)])
def test_an_answer_kept_before_the_gates_verdict_was_is_sure_by_its_certainty(
    certainty: float | None, sure: bool
) -> None:
    written = {**row_as_dict(FERRY), "certainty": certainty}
    del written["sure"]
    assert row_from_dict(written) == replace(FERRY, certainty=certainty, sure=sure)


@pytest.mark.parametrize("kind", made_rows.KINDS)
@given(data=st.data())
def test_a_dict_has_exactly_the_promised_names(kind: str, data: st.DataObject) -> None:
    row = data.draw(made_rows.KINDS[kind])
    assert set(row_as_dict(row)) == {"kind", *PROMISED[kind].split()}


def test_no_kind_of_row_was_forgotten() -> None:
    assert set(ROW_KINDS.values()) == set(get_args(Row))
    assert set(ROW_KINDS) == set(PROMISED) == set(made_rows.KINDS)


def test_plain_values_are_what_json_can_say() -> None:
    written = row_as_dict(FERRY)
    assert written["part"] == "whole"
    assert type(written["part"]) is str
    assert written["close_to"] == [67]
    assert written["heard"] is None
    assert written["purpose"] == "practice"
    assert "sum" not in written


@given(made_rows.rows)
def test_fields_of_a_newer_version_are_left_out(row: Row) -> None:
    newer = {**row_as_dict(row), "v": 1, "practice": "x", "at": "…", "mood": ["calm"]}
    assert row_from_dict(newer) == row


def test_a_missing_field_gets_its_default_or_none() -> None:
    older = row_as_dict(FERRY)
    for name in ("operation", "purpose", "heard", "took_ms"):
        del older[name]
    assert row_from_dict(older) == replace(FERRY, heard=None, took_ms=None, purpose=Purpose.PRACTICE)


def test_a_reason_is_told_from_an_answers_id() -> None:
    ask = Ask(FERRY.id, 0, 0, Part.GAP, Support.ASKED, Reason.DONT_KNOW)
    assert row_from_dict(row_as_dict(ask)) == ask
    after = replace(ask, because=FERRY.id)
    assert row_from_dict(row_as_dict(after)) == after


@pytest.mark.parametrize(
    ("name", "value", "sentence"),
    [
        ("kind", "dance", "`kind` is 'dance'; a row's kind is one of ask, answer, void, note, end."),
        ("kind", ["answer"], "`kind` is ['answer']; a row's kind is one of ask, answer, void, note, end."),
        ("row", None, "`row` is missing; it must be a whole number."),
        ("exercise", "dance", f"`exercise` is 'dance'; it must be one of {', '.join(ExerciseName)}."),
        (
            "way",
            "guessed",
            "`way` is 'guessed'; it must be one of counted, bridged, tens-and-ones, compensated, "
            "doubled, known, or null.",
        ),
        ("given", "57", "`given` is '57'; it must be a whole number."),
        ("given", True, "`given` is True; it must be a whole number."),
        ("given", 5.5, "`given` is 5.5; it must be a whole number."),
        ("given", -1, "`given` is -1; it must be 0 or more."),
        ("right", 1, "`right` is 1; it must be true or false."),
        (
            "part",
            "middle",
            f"`part` is 'middle'; it must be one of {', '.join(Part)}.",
        ),
        ("by", ["keys"], "`by` is ['keys']; it must be one of voice, keys, text, switch."),
        (
            "operation",
            "times",
            "`operation` is 'times'; it must be one of add, take, bond, next-ten, ten-and-ones, split, one-more, fact.",
        ),
        ("certainty", 1.2, "`certainty` is 1.2; it must be from 0 to 1."),
        ("certainty", float("nan"), "`certainty` is nan; it must be 0 or more."),
        ("took_ms", "fast", "`took_ms` is 'fast'; it must be a whole number, or null."),
        ("close_to", 67, "`close_to` is 67; it must be a list."),
        ("close_to", ["67"], "`close_to` is ['67']; it must be a list."),
        ("could_be", None, "`could_be` is None; it must be a list."),
        ("id", "first", "`id` is 'first'; it must be a row's id (a UUID)."),
        ("amount", 120, "The amount 120 is not a whole number from 1 to 99."),
        ("start", 1000, "The start 1000 is not a whole number from 0 to 999."),
    ],
)
def test_a_value_no_row_can_have_is_named(name: str, value: object, sentence: str) -> None:
    with pytest.raises(CallerError, match="^" + re.escape(sentence) + "$"):
        row_from_dict({**row_as_dict(FERRY), name: value})


def test_an_unknown_reason_is_not_taken_for_an_id() -> None:
    ask = row_as_dict(Ask(FERRY.id, 0, 0, Part.WHOLE, Support.INDEPENDENT, None))
    with pytest.raises(CallerError, match="`because` is 'yawned'"):
        row_from_dict({**ask, "because": "yawned"})


@given(st.dictionaries(st.sampled_from([*PROMISED["answer"].split(), "kind", "of"]), st.from_type(object)))
def test_any_nonsense_is_a_row_or_a_callers_mistake(nonsense: dict[str, Any]) -> None:
    try:
        row = row_from_dict({"kind": "answer", **nonsense})
    except CallerError:
        return
    assert isinstance(row, Ask | Answer | Void | Note | End)


@given(made_rows.rows, st.data())
def test_one_spoilt_field_never_slips_through_unseen(row: Row, data: st.DataObject) -> None:
    """Whatever is read is what a row's own types allow: written again it gives the same dict."""
    written = row_as_dict(row)
    name = data.draw(st.sampled_from([field.name for field in fields(row)]))
    spoilt = {
        **written,
        name: data.draw(st.one_of(st.none(), st.booleans(), st.integers(), st.text(), st.floats(), st.just([]))),
    }
    try:
        again = row_as_dict(row_from_dict(spoilt))
    except CallerError:
        return
    assert again == spoilt


def test_settings_inside_settings_come_back() -> None:
    settings = Settings(waits=Waits(said_back_ms=700), listening=Listening(ear="open"))
    assert from_plain(Settings, json.loads(json.dumps(to_plain(settings)))) == settings
    assert from_plain(Settings, {"waits": {"counting_ms": 9000, "blink_ms": 3}, "smell": {}}) == Settings(
        waits=Waits(counting_ms=9000)
    )
    with pytest.raises(CallerError, match="`waits` is 4; it must be a group of fields"):
        from_plain(Settings, {"waits": 4})


def test_what_has_no_plain_form_is_a_fault_of_ours() -> None:
    with pytest.raises(TypeError, match="UUID has no plain form"):
        to_plain(UUID(int=1))
