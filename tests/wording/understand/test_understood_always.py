from hypothesis import assume, given
from hypothesis import strategies as st

from saythesum.core.meanings import Awaiting, Meaning, Number, Unclear, WhyUnclear
from saythesum.wording.numbers import words
from saythesum.wording.understand.phrases import spellings
from saythesum.wording.understand.spellings import Spelling
from saythesum.wording.understand.understood import understood


def _as_number(text: str) -> Meaning:
    return understood(text, Awaiting.NUMBER)


VALUES = st.integers(0, 1099)
PIECES = "a and oh one two forty fifty hundred thousand 7 40 100 no not or is add said I first of the , ... um to for"
LINE_WORDS = st.lists(st.sampled_from(PIECES.split())).map(" ".join)
AWAITED = st.sampled_from(Awaiting)
MEANT = [spelling for spelling in spellings(Awaiting.NUMBER) if spelling.meaning is not None]


@given(st.text() | LINE_WORDS | st.text("0123456789.,-+=/ ²٤½'"), AWAITED, st.booleans())
def test_never_raises(text: str, awaiting: Awaiting, typed: bool) -> None:
    understood(text, awaiting, typed=typed)


@given(LINE_WORDS, AWAITED)
def test_case_and_space_change_nothing(text: str, awaiting: Awaiting) -> None:
    meaning = understood(text, awaiting)
    assert understood(text.upper(), awaiting) == meaning
    assert understood(f"  {text.title().replace(' ', '   ')}\n", awaiting) == meaning


@given(st.sampled_from(MEANT), st.sampled_from(["um, {}", "{}, er", "Hmm... {}!", "oh, {}"]))
def test_hesitating_changes_nothing(spelling: Spelling, frame: str) -> None:
    assert _as_number(frame.format(spelling.text)) == spelling.meaning


@given(VALUES, VALUES)
def test_the_corrected_number_counts(first: int, then: int) -> None:
    assert _as_number(f"{words(first)}, no, {words(then)}") == Number(then)
    assert _as_number(f"No, {words(then)}.") == Number(then, objecting=True)
    assert _as_number(f"{words(then)}. That's what I said first!") == Number(then, said_first=True)


@given(st.integers(0, 1090), st.integers(2, 9))
def test_every_count_is_known_by_its_last_number(start: int, steps: int) -> None:
    count = [words(value) for value in range(start, start + steps + 1)]
    assert _as_number(", ".join(count)) == Number(start + steps, counting=True)
    assert _as_number("... ".join(count)) == Number(start + steps, counting=True)


@given(st.integers(20, 99), st.integers(1, 9))
def test_of_a_worked_sum_the_answer_counts(start: int, amount: int) -> None:
    told = f"{words(start)} add {words(amount)} is {words(start + amount)}"
    assert _as_number(told) == Number(start + amount)
    assert _as_number(f"{start} + {amount} = {start + amount}") == Number(start + amount)


@given(VALUES, VALUES)
def test_two_different_numbers_are_never_guessed_at(one: int, other: int) -> None:
    assume(one != other)
    assert _as_number(f"{words(one)} or {words(other)}") == Unclear(WhyUnclear.TWO_NUMBERS)
