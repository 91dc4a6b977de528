"""Lines of text go through the same gate and come out as they went in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.meanings import Awaiting, Choice, Given, Number, Unclear
from saythesum.hearing.confidence.gate import Verdict, judged
from saythesum.hearing.typed import read, typed
from saythesum.wording.understand.understood import understood

LINES = (
    "43",
    "forty-three",
    "is it forty-three?",
    "forty-four, no, forty-three",
    "skip",
    "stop",
    "no",
    "yes",
    "um",
    "",
)


@pytest.mark.parametrize("awaiting", list(Awaiting))
@given(line=st.one_of(st.sampled_from(LINES), st.text(max_size=30)))
def test_the_gate_changes_nothing_but_the_certainty(awaiting: Awaiting, line: str) -> None:
    found = judged(typed(line, awaiting), awaiting)
    meant = understood(line, awaiting, typed=True)
    match meant:
        case Number():
            assert isinstance(found.heard, Number)
            assert (found.heard.value, found.heard.sure) == (meant.value, True)
        case Given() | Choice():
            assert isinstance(found.heard, Given | Choice)
            assert found.heard.sure
            assert getattr(found.heard, "command", None) is getattr(meant, "command", None)
            assert getattr(found.heard, "alone", None) is getattr(meant, "alone", None)
        case Unclear():
            assert found.heard == meant
            assert found.verdict is Verdict.REFUSED


def test_a_typed_number_is_certain() -> None:
    assert judged(typed("43", Awaiting.NUMBER), Awaiting.NUMBER).certainty > 0.9


@pytest.mark.parametrize("awaiting", Awaiting)
@pytest.mark.parametrize("line", ["43", "no, 62", "help", "where am i", "yes", "42 43", "oh", "foo", ""])
def test_a_typed_line_means_what_it_says_and_has_no_certainty(line: str, awaiting: Awaiting) -> None:
    assert read(line, awaiting) == understood(line, awaiting, typed=True)
