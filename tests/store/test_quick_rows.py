"""The quick reading of a row agrees with the slow one, which says what is wrong; and it is used for all we write."""

import json
from dataclasses import fields

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.records.codec import ROW_KINDS, kind_of, row_as_dict, row_from_dict
from saythesum.core.records.rows import Answer, Ask, Reason, Row, row_id
from saythesum.errors import CallerError
from saythesum.store.codec import row_as_text, row_from_text
from saythesum.store.quick_rows import row_read_quickly
from tests.store.made_practices import one_of_each, practice

ROWS = one_of_each(practice())
ROW = {type(row): row for row in ROWS}
ODD_NUMBERS = [None, True, 0, 3, -1, 3.0, 0.5, 1.5, 1e300, 10**30]
ODD_WORDS = ["", "dont-know", "whole", "voice", "adult", "add", "times", "\u2713\ud800"]
ODD_IDS = ["6F2A8C1E-94B7-4D0A-8A55-0F6F2B1C7D3E", "6f2a8c1e94b74d0a8a550f6f2b1c7d3e", f"{ROWS[0].id}\n"]
ODD_VALUES: st.SearchStrategy[object] = st.sampled_from([*ODD_NUMBERS, *ODD_WORDS, *ODD_IDS, [], [5], [-5], ["x"], {}])


@pytest.mark.parametrize("row", ROWS, ids=kind_of)
def test_what_we_write_is_read_quickly(row: Row) -> None:
    assert row_read_quickly(kind_of(row), row.id, row_as_text(row)) == row


@pytest.mark.parametrize("because", [None, *Reason, row_id(practice().id, 7)])
def test_a_reason_is_told_from_the_id_of_an_answer(because: object) -> None:
    row = ROW[Ask]
    text = json.dumps({**row_as_dict(row), "because": because})
    read = row_read_quickly("ask", row.id, text)
    assert isinstance(read, Ask)
    assert read.because == because and type(read.because) is type(because)


@st.composite
def spoilt_rows(draw: st.DrawFn) -> tuple[str, str, str]:
    """Fields missing, odd, unknown; an id that is none; a text that is cut or has something after it."""
    row = draw(st.sampled_from(ROWS))
    values = row_as_dict(row)
    names = [*(field.name for field in fields(ROW_KINDS[kind_of(row)])), "later"]
    for name in draw(st.lists(st.sampled_from(names), max_size=2)):
        if draw(st.booleans()):
            values.pop(name, None)
        else:
            values[name] = draw(ODD_VALUES)
    text = json.dumps(values)
    text = draw(
        st.sampled_from([text, text, text, text + " ", text[:-9], text + "}", "{}", "[]", "", text[:-1] + ',"row":4}'])
    )
    id = draw(
        st.sampled_from([row.id, row.id, "no-uuid", f'{row.id}","row":"5', row.id.upper(), row.id.replace("-", "")])
    )
    return draw(st.sampled_from([kind_of(row)] * 3 + ["answer", "yawn"])), id, text


def slowly(kind: str, id: str, text: str) -> Row:
    try:
        group = json.loads(text)
    except ValueError as error:
        raise CallerError(f"it is not JSON ({error}).") from error
    if not isinstance(group, dict):
        raise CallerError("it is not a group of fields.")
    return row_from_dict({**group, "kind": kind, "id": id})


@settings(max_examples=500, deadline=None)
@given(spoilt_rows())
def test_both_readings_agree_on_every_row_and_every_sentence(spoilt: tuple[str, str, str]) -> None:
    try:
        expected: Row | str = slowly(*spoilt)
    except CallerError as error:
        expected = str(error)
    try:
        read: Row | str = row_from_text(*spoilt)
    except CallerError as error:
        read = str(error)
    assert read == expected
    assert type(read) is type(expected)
    if isinstance(read, Answer):
        assert all(type(getattr(read, field.name)) is type(getattr(expected, field.name)) for field in fields(read))


@pytest.mark.parametrize(("certainty", "was_sure"), [(0.5, False), (0.9, True), (None, True)])
def test_an_answer_from_before_the_gates_verdict_was_kept(certainty: float | None, was_sure: bool) -> None:
    row = ROW[Answer]
    older = {name: value for name, value in row_as_dict(row).items() if name != "sure"}
    read = row_read_quickly("answer", row.id, json.dumps({**older, "certainty": certainty}))
    assert isinstance(read, Answer)
    assert read.sure is was_sure
