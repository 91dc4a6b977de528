"""Segments of speech that belong together, and how long is waited for more."""

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.core.records.rows import HeardId
from saythesum.dialogue.turns.events import HeardSoFar, ListenId
from saythesum.dialogue.turns.segments import is_bare_ten, joined
from saythesum.settings import Waits

WAITS = Waits()
NO = Given(Command.NOT_WHAT_I_SAID, alone=True)


def segments(*meant: Meaning) -> list[HeardSoFar]:
    return [
        HeardSoFar(ListenId(1), place, heard, "", 3000 * place, 3000 * place + 500, 3000 * place + 700, HeardId("h"))
        for place, heard in enumerate(meant)
    ]


def wait_ms(*meant: Meaning, asked: Sum = Sum(38, 5)) -> int | None:  # noqa: B008  a frozen value
    return joined(segments(*meant), asked.count_begins, WAITS).end_pause_ms


def heard(*meant: Meaning) -> Meaning:
    return joined(segments(*meant), frozenset(), WAITS).heard


@pytest.mark.parametrize(
    ("meant", "expected_ms"),
    [
        ((Number(43),), WAITS.after_number_ms),
        ((Number(40),), WAITS.after_bare_ten_ms),
        ((Number(100),), WAITS.after_number_ms),
        ((Number(140),), WAITS.after_bare_ten_ms),
        ((Number(38),), WAITS.counting_ms),
        ((Number(39),), WAITS.counting_ms),
        ((Number(39), Number(40)), WAITS.counting_ms),
        ((Number(45), Number(43)), WAITS.after_number_ms),
        ((Number(41, counting=True),), WAITS.counting_ms),
        ((Given(Command.SKIP),), WAITS.after_other_ms),
        ((Choice(True),), WAITS.after_other_ms),
        ((Unclear(WhyUnclear.OTHER),), WAITS.after_other_ms),
        ((Number(43), Unclear(WhyUnclear.OTHER)), WAITS.after_number_ms),
    ],
)
def test_how_long_is_waited(meant: tuple[Meaning, ...], expected_ms: int) -> None:
    assert wait_ms(*meant) == expected_ms


@pytest.mark.parametrize(
    "begun",
    [
        (Number(50), Number(5)),
        (Number(50), Number(5), Number(50), Number(6)),
        (Number(30, sure=False, alternatives=(55,)),),
    ],
    ids=["its start in two segments", "each number in two segments", "its start not sure"],
)
def test_a_count_that_is_not_heard_in_one_piece_is_waited_for(begun: tuple[Meaning, ...]) -> None:
    assert wait_ms(*begun, asked=Sum(55, 9)) == WAITS.counting_ms


def test_where_the_number_after_the_start_is_the_answer_it_is_not_waited_for_longer_than_a_wrong_one() -> None:
    assert wait_ms(Number(39), asked=Sum(38, 1)) == wait_ms(Number(37), asked=Sum(38, 1)) == WAITS.after_number_ms


@pytest.mark.parametrize(
    ("meant", "together"),
    [
        ((Number(40), Number(3)), Number(43)),
        ((Number(40, objecting=True), Number(3)), Number(43, objecting=True)),
        ((Number(40), Number(13)), Number(13)),
        ((Number(45), Number(43)), Number(43)),
        ((NO, Number(43)), Number(43, objecting=True)),
        ((Number(45, objecting=True), Number(43)), Number(43, objecting=True)),
        ((Number(43), Given(Command.SAID_FIRST)), Number(43, said_first=True)),
        ((Number(43), NO), NO),
        ((Number(43), Given(Command.STOP)), Given(Command.STOP)),
        ((Unclear(WhyUnclear.OTHER), Number(43)), Number(43)),
        ((Number(43), Unclear(WhyUnclear.NOTHING)), Number(43)),
        ((Unclear(WhyUnclear.NOTHING), Unclear(WhyUnclear.OTHER)), Unclear(WhyUnclear.OTHER)),
    ],
)
def test_what_stretches_mean_together(meant: tuple[Meaning, ...], together: Meaning) -> None:
    assert heard(*meant) == together


def in_one_breath(*meant: Meaning, gap_ms: int) -> Meaning:
    said = [
        HeardSoFar(ListenId(1), place, heard, "", at, at + 500, at + 700, HeardId("h"))
        for place, heard in enumerate(meant)
        for at in [place * (500 + gap_ms)]
    ]
    return joined(said, frozenset(), WAITS).heard


def test_a_teen_with_ones_close_behind_is_its_tens_word() -> None:
    said = (Number(15, certainty=0.9, alternatives=(50,)), Number(4, certainty=0.8))
    assert in_one_breath(*said, gap_ms=400) == Number(54, certainty=0.8)
    assert in_one_breath(*said, gap_ms=1500) == said[1]


def test_ones_close_behind_something_not_understood_are_not_sure() -> None:
    said = (Unclear(WhyUnclear.OTHER), Number(4))
    assert in_one_breath(*said, gap_ms=400) == Number(4, sure=False)
    assert in_one_breath(*said, gap_ms=1500) == Number(4)
    assert in_one_breath(Unclear(WhyUnclear.OTHER), Number(54), gap_ms=400) == Number(54)
    assert in_one_breath(Unclear(WhyUnclear.NOTHING), Number(4), gap_ms=400) == Number(4)


def test_a_number_in_two_stretches_is_as_certain_as_the_less_certain_of_them() -> None:
    tens = Number(40, certainty=0.9, close_to=(30,), alternatives=(50, 14))
    ones = Number(3, certainty=0.5, sure=False, close_to=(6,))
    assert heard(tens, ones) == Number(43, certainty=0.5, sure=False, close_to=(33, 46), alternatives=(53,))
    assert heard(Number(40), ones) == Number(43, close_to=(46,), sure=False)


def test_speech_began_with_the_first_stretch_that_meant_something() -> None:
    assert joined(segments(Unclear(WhyUnclear.NOTHING), Number(43)), frozenset(), WAITS).began_ms == 3000


def test_bare_tens() -> None:
    assert [value for value in range(130) if is_bare_ten(value)] == [*range(20, 100, 10), 120]
