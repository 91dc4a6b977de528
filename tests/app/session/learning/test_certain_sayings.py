"""Which hearings are certain: those that keys or an adult settled, and no others."""

from dataclasses import replace

import numpy as np
import pytest

from saythesum.app.session.learning.beside_practice import Heard
from saythesum.app.session.learning.certain_sayings import MOST_SAYINGS, CertainSayings
from saythesum.core.meanings import Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.core.records.rows import Row
from tests.app.session.learning.things import (
    OTHER,
    SURE,
    UNSURE,
    answer,
    ask,
    heard,
    marked_right,
    void,
)

FRAMES = np.zeros((30, 288), np.float32)


def certain(*things: Heard | Row) -> dict[str, int]:
    sayings = CertainSayings()
    for thing in things:
        sayings.add(thing)
    return {id: number for id, (number, _) in sayings.certain.items()}


@pytest.mark.parametrize("meaning", [UNSURE, OTHER])
def test_what_was_not_sure_was_what_is_typed_then(meaning: Meaning) -> None:
    said = heard(FRAMES, meaning)
    assert certain(ask(), said, answer(7)) == {said.event.id: 7}


def test_each_time_it_was_said_counts() -> None:
    once, again = heard(FRAMES, UNSURE), heard(FRAMES, OTHER)
    assert certain(ask(), once, again, answer(7)) == {once.event.id: 7, again.event.id: 7}


def test_what_was_let_stand_teaches_nothing() -> None:
    said = heard(FRAMES, SURE)
    assert certain(ask(), said, answer(9, said)) == {}
    unsure = heard(FRAMES, UNSURE)
    assert certain(ask(), unsure, answer(9, unsure), ask()) == {}


@pytest.mark.parametrize(
    "meaning",
    [SURE, Choice(True, sure=False), Given(Command.HELP, sure=False), Unclear(WhyUnclear.TWO_NUMBERS),
     Unclear(WhyUnclear.LOST), replace(UNSURE, objecting=True), replace(UNSURE, corrected=True),
     replace(UNSURE, counting=True)],
)  # fmt: skip
def test_what_was_sure_or_no_single_word_is_not_what_is_typed(meaning: Meaning) -> None:
    assert certain(ask(), heard(FRAMES, meaning), answer(7)) == {}


def test_only_what_was_said_to_the_same_question_counts() -> None:
    assert certain(ask(), heard(FRAMES), ask(), answer(7)) == {}


@pytest.mark.parametrize("number", [42, 100, 21])
def test_numbers_of_several_words_teach_nothing(number: int) -> None:
    assert certain(ask(), heard(FRAMES, UNSURE), answer(number)) == {}


def test_where_more_was_said_while_the_ear_was_open_nobody_knows_what_it_was() -> None:
    both = heard(FRAMES, listen=1, segment=0), heard(FRAMES, UNSURE, listen=1, segment=1)
    assert certain(ask(), *both, answer(7)) == {}


def test_speech_that_went_on_counts_as_a_whole() -> None:
    begun, whole = heard(FRAMES, listen=1), heard(FRAMES, UNSURE, listen=1)
    assert certain(ask(), begun, whole, answer(7)) == {whole.event.id: 7}


def test_a_yes_or_no_that_was_not_understood_is_no_number() -> None:
    assert certain(ask(), heard(FRAMES, awaiting=Awaiting.CHOICE), answer(7)) == {}
    assert certain(ask(), heard(None), answer(7)) == {}


def test_an_answer_that_the_adult_marks_as_right_was_the_right_number() -> None:
    said = heard(FRAMES, SURE)
    given = answer(9, said, right=5)
    assert certain(ask(), said, given, ask(), marked_right(given)) == {said.event.id: 5}
    assert certain(ask(), said, given, marked_right(given), marked_right(given, taken_back=True)) == {}


def test_a_typed_answer_that_is_taken_back_leaves_nothing() -> None:
    said, typed = heard(FRAMES, UNSURE), answer(7)
    assert certain(ask(), said, typed, void(typed)) == {}


def test_a_mark_for_a_typed_answer_says_nothing_of_a_voice() -> None:
    typed = answer(7, right=5)
    assert certain(ask(), typed, marked_right(typed)) == {}


def test_long_ago_is_forgotten_unless_it_was_certain() -> None:
    early, typed = heard(FRAMES, UNSURE), answer(7)
    late = heard(FRAMES, SURE)
    stands = answer(9, late)
    many = [heard(FRAMES, Number(1)) for _ in range(MOST_SAYINGS)]
    assert certain(ask(), early, typed, late, stands, *many, marked_right(stands)) == {early.event.id: 7}
