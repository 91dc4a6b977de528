from hypothesis import given
from hypothesis import strategies as st

from saythesum.hearing.endpointing.endpointer import (
    FEWEST_FRAMES,
    HOLD_AT,
    LONGEST_OPENING_FRAMES,
    OPEN_AT,
    OVER_AFTER_FRAMES,
    PAUSED_AFTER_FRAMES,
    Change,
    SpeechEnds,
)

SPEECH, SILENCE = 0.9, 0.01


def changes(probabilities: list[float]) -> list[tuple[int, Change]]:
    ends = SpeechEnds()
    fed = ((frame, ends.feed(probability)) for frame, probability in enumerate(probabilities))
    return [(frame, change) for frame, change in fed if change]


def test_a_word_begins_pauses_and_is_over() -> None:
    found = changes([SILENCE] * 5 + [SPEECH] * 20 + [SILENCE] * 20)
    assert found == [
        (7, Change.BEGAN),
        (24 + PAUSED_AFTER_FRAMES, Change.PAUSED),
        (24 + OVER_AFTER_FRAMES, Change.OVER),
    ]


def test_it_began_with_its_first_frame() -> None:
    ends = SpeechEnds()
    for probability in [SILENCE] * 5 + [SPEECH] * 3:
        ends.feed(probability)
    assert ends.began == 5


def test_a_click_is_no_speech() -> None:
    assert changes([SILENCE] * 5 + [SPEECH] * (FEWEST_FRAMES - 1) + [SILENCE] * 40) == []


def test_two_clicks_far_apart_are_no_speech() -> None:
    assert changes(([SPEECH] + [SILENCE] * PAUSED_AFTER_FRAMES) * 5) == []


def test_a_stop_consonant_does_not_end_a_word() -> None:
    assert changes([SPEECH] * 5 + [SILENCE] * (PAUSED_AFTER_FRAMES - 1) + [SPEECH] * 5) == [(2, Change.BEGAN)]


def test_a_stretch_that_goes_on_after_its_pause_is_the_same_stretch() -> None:
    found = changes([SPEECH] * 5 + [SILENCE] * (OVER_AFTER_FRAMES - 1) + [SPEECH] * 5 + [SILENCE] * 20)
    assert [change for _, change in found] == [
        Change.BEGAN,
        Change.PAUSED,
        Change.RESUMED,
        Change.PAUSED,
        Change.OVER,
    ]


def test_after_the_hangover_it_is_a_new_stretch() -> None:
    found = changes(([SPEECH] * 5 + [SILENCE] * OVER_AFTER_FRAMES) * 2)
    assert [change for _, change in found] == [Change.BEGAN, Change.PAUSED, Change.OVER] * 2


def test_speech_opens_high_and_holds_low() -> None:
    between = (OPEN_AT + HOLD_AT) / 2
    assert changes([between] * 50) == []
    assert changes([OPEN_AT] + [between] * 50) == [(2, Change.BEGAN)]


@given(st.lists(st.floats(0, 1), max_size=200))
def test_changes_come_in_an_order_that_makes_sense(probabilities: list[float]) -> None:
    follows = {
        None: {Change.BEGAN},
        Change.BEGAN: {Change.PAUSED},
        Change.PAUSED: {Change.RESUMED, Change.OVER},
        Change.RESUMED: {Change.PAUSED},
        Change.OVER: {Change.BEGAN},
    }
    before: Change | None = None
    for _, change in changes(probabilities):
        assert change in follows[before]
        before = change


@given(st.lists(st.floats(0, 1), max_size=200))
def test_a_stretch_never_begins_further_back_than_is_kept(probabilities: list[float]) -> None:
    ends = SpeechEnds()
    for frame, probability in enumerate(probabilities):
        if ends.feed(probability) is Change.BEGAN:
            assert ends.began is not None
            assert frame - ends.began < LONGEST_OPENING_FRAMES
