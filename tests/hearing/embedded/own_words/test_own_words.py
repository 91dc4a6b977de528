"""Which takes are kept, which go, and which are asked about."""

from datetime import timedelta

import numpy as np
import pytest

from saythesum.hearing.embedded.own_words.own_words import MOST_TAKES, Odd, OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from tests.hearing.embedded.own_words.made import DAY, own_words, saying


def test_the_first_take_of_a_word_has_nothing_to_be_unlike() -> None:
    assert none_yet(1.0).with_take(7, saying(7), on=DAY) == own_words({7: 1})


def test_the_newest_takes_stay_and_the_oldest_goes() -> None:
    own = own_words({3: 1, 7: MOST_TAKES})
    more = own.with_take(7, saying(7, 99), on=DAY + timedelta(days=1))
    assert isinstance(more, OwnWords)
    assert more.counts == {3: 1, 7: MOST_TAKES}
    assert more.takes == (own.takes[0], *own.takes[2:], more.takes[-1])
    assert more.takes[-1].on == DAY + timedelta(days=1)


def test_a_take_like_none_of_its_word_is_odd_and_not_kept() -> None:
    odd = own_words({7: 2}).with_take(7, saying(50), on=DAY)
    assert isinstance(odd, Odd)
    assert (odd.take.number, odd.like) == (7, None)


def test_a_take_that_is_like_another_word_is_odd_and_says_which() -> None:
    for takes in ({3: 2, 7: 2}, {3: 2}):
        odd = own_words(takes).with_take(7, saying(3, 9), on=DAY)
        assert isinstance(odd, Odd)
        assert odd.like == 3


def test_said_once_more_in_the_same_way_both_are_kept() -> None:
    own = own_words({7: 2})
    odd = own.with_take(7, saying(50, 0), on=DAY)
    assert isinstance(odd, Odd)
    both = own.with_take(7, saying(50, 1), on=DAY, again=odd)
    assert isinstance(both, OwnWords)
    assert both.counts == {7: 4}
    assert odd.take in both.takes


def test_said_once_more_in_the_usual_way_only_that_is_kept() -> None:
    own = own_words({7: 2})
    odd = own.with_take(7, saying(50), on=DAY)
    assert isinstance(odd, Odd)
    assert own.with_take(7, saying(7, 5), on=DAY, again=odd) == own.with_take(7, saying(7, 5), on=DAY)
    assert isinstance(own.with_take(7, saying(51), on=DAY, again=odd), Odd)


def test_a_cough_is_too_short_to_be_kept() -> None:
    cough = none_yet(1.0).with_take(7, saying(7)[:25], on=DAY)
    assert isinstance(cough, Odd)
    again = none_yet(1.0).with_take(7, saying(7), on=DAY, again=cough)
    assert isinstance(again, OwnWords)
    assert again.counts == {7: 1}


@pytest.mark.parametrize("number", [-1, 21, 42, 100])
def test_only_single_words_are_learnt(number: int) -> None:
    with pytest.raises(ValueError, match="is not one word"):
        none_yet(1.0).with_take(number, saying(1), on=DAY)


def test_what_is_kept_points_where_it_pointed() -> None:
    """A byte for each feature is enough: a take is not 0.001 away from itself."""
    (take,) = own_words({7: 1}).takes
    assert np.linalg.norm(take.frames, axis=1) == pytest.approx(1.0, abs=1e-5)
    (same,) = own_words({7: 1}).takes
    assert float((take.frames * same.frames).sum(axis=1).min()) > 0.999
