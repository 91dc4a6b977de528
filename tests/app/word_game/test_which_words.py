"""Which words are asked for: the least sure first, what is missing before all else, rivals never side by side."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from uuid import UUID

from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.app.word_game.which_words import (
    MOST,
    OFTEN_MIXED_UP,
    Sureness,
    in_good_order,
    least_sure,
    sureness,
    wanted_of_each,
)
from saythesum.core.records.rows import By, Void, VoidReason, row_id
from saythesum.hearing.confidence.confusable import are_confusable
from saythesum.hearing.embedded.own_words.own_words import MOST_TAKES, WORDS
from tests.store.made_practices import answered, practice

NOTHING_KNOWN = Sureness({})


def test_where_nothing_is_known_those_that_are_often_mixed_up_come_first() -> None:
    assert least_sure(NOTHING_KNOWN, {}) == OFTEN_MIXED_UP
    assert in_good_order(OFTEN_MIXED_UP) == OFTEN_MIXED_UP


def test_words_of_unsure_answers_come_first_and_what_was_taken_back_counts_as_unsure() -> None:
    spoken = [replace(answered(practice(), at), by=By.VOICE, given=62, certainty=0.4) for at in range(9)]
    taken_back = replace(answered(practice(), 20), by=By.VOICE, given=8, certainty=0.99)
    void = Void(row_id(UUID(int=1), 1), taken_back.id, VoidReason.NOT_SAID)
    typed = replace(answered(practice(), 21), by=By.KEYS, given=11, certainty=None)
    sure = sureness([*spoken, taken_back, void, typed])
    assert sure[60] < sure[2] < sure[8] < NOTHING_KNOWN[8]
    assert sure[11] == NOTHING_KNOWN[11]
    assert least_sure(sure, {})[:3] == (60, 2, 8)


def test_what_an_earlier_day_left_is_made_up_first() -> None:
    half = dict.fromkeys(OFTEN_MIXED_UP[:7], 2)
    assert wanted_of_each(OFTEN_MIXED_UP, half) == 2
    assert wanted_of_each(OFTEN_MIXED_UP, dict.fromkeys(OFTEN_MIXED_UP, 2)) == 4
    assert wanted_of_each(OFTEN_MIXED_UP, {}) == 2


@settings(max_examples=25)
@given(st.dictionaries(st.sampled_from(sorted(WORDS)), st.integers(0, MOST_TAKES)))
def test_games_come_to_an_end_with_all_words_said_as_often_as_can_be(counts: Mapping[int, int]) -> None:
    said = dict(counts)
    for _ in range(MOST_TAKES * len(WORDS)):
        if not (twelve := least_sure(NOTHING_KNOWN, said)):
            break
        assert len(twelve) <= MOST
        wanted = wanted_of_each(twelve, said)
        behind = [number for number in twelve if said.get(number, 0) < wanted]
        assert behind and wanted <= MOST_TAKES
        said |= dict.fromkeys(behind, wanted)
    assert said == dict.fromkeys(WORDS, MOST_TAKES)


@given(st.permutations(OFTEN_MIXED_UP))
def test_no_word_comes_right_after_its_rival_where_that_can_be(words: list[int]) -> None:
    ordered = in_good_order(words)
    assert sorted(ordered) == sorted(words) and ordered[0] == words[0]
    beside = [(one, other) for one, other in pairwise(ordered) if are_confusable(one, other)]
    assert all(are_confusable(one, rest) for one, _ in beside for rest in ordered[ordered.index(one) + 1 :])
