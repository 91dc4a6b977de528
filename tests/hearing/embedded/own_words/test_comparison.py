"""What hearings gain and lose by the pupil's own words, and what is left exactly as it was."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.meanings import Command, Given, Meaning, Number
from saythesum.hearing.embedded.own_words.comparable import comparable
from saythesum.hearing.embedded.own_words.comparison import (
    A_LATER_DAY,
    BESIDE_NATS,
    LIKE,
    MOST_NATS,
    NATS_A_DISTANCE,
    RIVAL_NATS,
    Comparison,
)
from saythesum.hearing.embedded.own_words.own_words import WORDS
from saythesum.hearing.embedded.own_words.warping import Stacked
from saythesum.ports import Frames, Hearing, Hypothesis
from tests.hearing.embedded.own_words.made import DAY, own_words, saying

TAKES = {3: 2, 5: 2, 7: 2, 9: 2}
COMPARISON = Comparison(own_words(TAKES))


def hearing(scores: dict[Meaning | None, float], frames: "Frames | None") -> Hearing:
    ranked = sorted(scores.items(), key=lambda entry: entry[1], reverse=True)
    return Hearing(tuple(Hypothesis(*entry) for entry in ranked), "", -1.0, frames=frames)


def scores(heard: Hearing) -> dict[Meaning | None, float]:
    return {entry.meaning: entry.log_probability for entry in heard.ranked}


def nearest(word: int, frames: Frames) -> float:
    inside = comparable(frames)
    assert inside is not None
    takes = [take.frames for take in COMPARISON.own.takes if take.number == word]
    return float(Stacked(takes).distances(inside).min())


sayings = st.builds(saying, st.integers(0, 12), st.integers(0, 5), unlike=st.floats(0.1, 2.0))
rankings = st.dictionaries(
    st.one_of(st.none(), st.integers(0, 60).map(Number), st.just(Given(Command.HELP))), st.floats(-20, 0), min_size=1
)


@settings(max_examples=25, deadline=None)
@given(sayings)
def test_gains_and_losses_are_within_their_limits(frames: Frames) -> None:
    bonuses = COMPARISON.bonuses(frames)
    assert bonuses.keys() == TAKES.keys()
    for number, bonus in bonuses.items():
        assert -MOST_NATS <= bonus <= MOST_NATS
        assert bonus <= 0 or nearest(number, frames) <= LIKE


@settings(max_examples=25, deadline=None)
@given(rankings, sayings)
def test_words_without_takes_are_left_as_they_are(ranked: dict[Meaning | None, float], frames: Frames) -> None:
    before = hearing(ranked, frames)
    after = COMPARISON.of(before)
    others = {meaning: score for meaning, score in scores(after).items() if _number(meaning) not in TAKES}
    assert others == {meaning: score for meaning, score in ranked.items() if _number(meaning) not in TAKES}
    assert (after.free_text, after.free_log_probability, after.second) == (before.free_text, -1.0, None)
    assert list(scores(after).values()) == sorted(scores(after).values(), reverse=True)


@settings(max_examples=25, deadline=None)
@given(rankings, sayings)
def test_nothing_gains_on_a_likely_word_without_takes(ranked: dict[Meaning | None, float], frames: Frames) -> None:
    before = hearing(ranked, frames)
    rivals = [
        score
        for meaning, score in ranked.items()
        if score > max(ranked.values()) - RIVAL_NATS and _number(meaning) in WORDS - TAKES.keys()
    ]
    for meaning, score in scores(COMPARISON.of(before)).items():
        was = ranked.get(meaning)
        assert score == was or not rivals or (was is not None and (score <= was or was > max(rivals) + BESIDE_NATS))


def _number(meaning: Meaning | None) -> int | None:
    return meaning.value if isinstance(meaning, Number) else None


def test_the_word_that_was_said_gains_and_the_others_lose() -> None:
    heard = COMPARISON.of(hearing({Number(3): -3.0, Number(7): -4.0, Number(42): -8.0}, saying(7, 9)))
    assert heard.ranked[0].meaning == Number(7)
    assert scores(heard)[Number(7)] > -4.0
    assert scores(heard)[Number(3)] < -3.0


def test_a_word_that_the_search_dropped_comes_back() -> None:
    heard = COMPARISON.of(hearing({Number(3): -3.0, Number(9): -3.5}, saying(7, 9)))
    assert heard.ranked[0].meaning == Number(7)


@pytest.mark.parametrize("takes", [{}, {7: 4}])
def test_one_word_alone_changes_nothing(takes: dict[int, int]) -> None:
    comparison = Comparison(own_words(takes))
    before = hearing({Number(7): -3.0, Number(3): -4.0}, saying(7, 9))
    assert not comparison.is_of_use
    assert comparison.of(before) is before or comparison.of(before) == before


def test_what_has_no_frames_or_no_meaning_is_left_as_it_is() -> None:
    for before in (hearing({Number(7): -3.0}, None), hearing({}, saying(7)), Hearing((), "", 0.0, is_speech=False)):
        assert COMPARISON.of(before) is before


def test_a_take_counts_less_for_each_later_day_of_its_word() -> None:
    seven, other_seven = own_words({7: 2}).takes
    alike = replace(own_words({7: 1}), takes=(seven, replace(other_seven, number=3)))
    later = replace(seven, on=DAY + timedelta(days=1), packed=own_words({5: 1}).takes[0].packed[: len(seven.packed)])
    said = saying(7, 9)
    at_once = Comparison(alike).bonuses(said)[7]
    after_a_day = Comparison(replace(alike, takes=(*alike.takes, later))).bonuses(said)[7]
    assert after_a_day == pytest.approx(at_once - NATS_A_DISTANCE * A_LATER_DAY)


def test_what_is_like_no_word_of_the_pupil_changes_nothing() -> None:
    before = hearing({Number(7): -3.0, Number(3): -4.0}, saying(50))
    assert all(nearest(word, saying(50)) > LIKE for word in TAKES)
    assert scores(COMPARISON.of(before)) == scores(before)


def test_hardly_any_sound_is_like_no_word() -> None:
    assert COMPARISON.bonuses(np.zeros((22, 288), np.float32)) == {}
