"""What counts as evidence of a mistake, and what never does."""

from dataclasses import replace

from saythesum.core.evidence import evidence, mistake_counts
from saythesum.core.records.rows import Answer, Ask, By, RowId, Settled, Support
from saythesum.core.sums import Part

WRONG = Answer(
    id=RowId("1"),
    row=0,
    column=0,
    start=38,
    amount=5,
    part=Part.WHOLE,
    right_answer=43,
    given=45,
    right=False,
    support=Support.INDEPENDENT,
    tries=1,
    certainty=0.9,
    close_to=(),
    heard=None,
    took_ms=None,
    could_be=("whole-amount-after-bridging",),
    by=By.VOICE,
    settled=Settled.SAID_BACK,
)
PART = replace(WRONG, part=Part.GAP, given=3, right_answer=2, could_be=("gap-off-by-one",), settled=Settled.FOLLOWED)


def test_a_wrong_answer_counts_for_every_mistake_it_fits() -> None:
    answer = replace(WRONG, could_be=("subtracted", "new-ten-lost"))
    assert mistake_counts([Ask(RowId("0"), 0, 0, Part.WHOLE, Support.INDEPENDENT, None), answer, PART]) == {
        "subtracted": 1,
        "new-ten-lost": 1,
        "gap-off-by-one": 1,
    }


def test_a_right_answer_counts_for_none() -> None:
    assert not evidence([replace(WRONG, given=43, right=True)])


def test_a_hearing_close_to_another_number_counts_when_the_same_number_comes_again_in_its_cell() -> None:
    close = replace(WRONG, close_to=(35,))
    assert not evidence([close])
    assert not evidence([close, replace(close, given=46)])
    assert not evidence([close, replace(close, column=1)])
    assert evidence([close, replace(close, id=RowId("2"))]) == (replace(close, id=RowId("2")),)
    assert mistake_counts([close, replace(WRONG, by=By.KEYS)]).total() == 1


def test_by_keys_nothing_is_close_to_anything() -> None:
    assert evidence([replace(WRONG, by=By.KEYS, certainty=None, close_to=(35,), settled=Settled.KEYS)])


def test_an_unsure_part_never_counts_but_a_confirmed_whole_answer_does() -> None:
    assert not evidence([replace(PART, certainty=0.5, sure=False)])
    assert not evidence([replace(PART, certainty=0.5, sure=False), replace(PART, certainty=0.5, sure=False)])
    assert evidence([replace(WRONG, certainty=0.5, sure=False, settled=Settled.CONFIRMED)])
