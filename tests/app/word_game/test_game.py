"""The word game as a value: what it asks, what it keeps, and how it ends, whoever speaks and whatever comes."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.app.word_game.game import (
    Came,
    Noise,
    Over,
    Pressed,
    Silence,
    Sound,
    Stage,
    WordGame,
    after,
    begun,
    begun_keeping,
)
from saythesum.core.meanings import Choice, Command, Given, Number, Unclear, WhyUnclear
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.wording.speak import said_word_game as say
from tests.app.word_game.made_up import NONE_YET, Speaker, said, whole

DAY, NEXT_DAY = date(2031, 5, 12), date(2031, 5, 13)
YES, NO = said(Choice(True)), said(Choice(False))
LONE_NO = said(Given(Command.NOT_WHAT_I_SAID, alone=True))
STOP_THERE = said(Given(Command.STOP))


def keeping(*words: int, earlier: OwnWords = NONE_YET, on: date = DAY, wanted: int = 2) -> WordGame:
    """The pupil has said yes."""
    return after(begun_keeping(words, wanted, earlier, on), YES)


def went(game: WordGame, *things: Came) -> WordGame:
    for thing in things:
        game = after(game, thing)
    return game


def counts(game: WordGame) -> dict[int, int]:
    assert game.today
    return dict(game.today.sure.counts)


def kept(words: tuple[int, ...], speaker: Speaker, *, on: date = DAY) -> OwnWords:
    game = keeping(*words, on=on)
    for word in words:
        game = went(game, speaker.says(word), speaker.says(word))
    assert game.over is Over.FINISHED and game.today
    return game.today.sure


def test_each_word_is_said_twice_and_kept() -> None:
    pupil = Speaker(1)
    game = keeping(7, 30)
    asked = [game.says]
    for word in (7, 7, 30, 30):
        game = after(game, pupil.says(word))
        asked.append(game.says)
    assert asked == [
        ("Say: seven.",),
        ("And again: seven.",),
        ("Say: thirty.",),
        ("And again: thirty.",),
        (say.FINISHED,),
    ]
    assert (game.over, counts(game), game.to_say) == (Over.FINISHED, {7: 2, 30: 2}, ())


def test_without_consent_each_word_is_said_once_and_nothing_is_kept() -> None:
    game = begun((7, 30))
    assert game.says == (say.BEGIN, "Say: seven.")
    game = went(game, Speaker(1).says(7), Speaker(1).says(30))
    assert (game.over, game.today, [one.takes for one in game.sayings]) == (Over.FINISHED, None, [(), ()])


@pytest.mark.parametrize("no", [NO, Pressed.NO])
def test_a_no_at_the_beginning_ends_it_at_once(no: Came) -> None:
    game = after(begun_keeping((7,), 2, NONE_YET, DAY), no)
    assert (game.over, game.says, counts(game)) == (Over.SAID_NO, (say.NOT_KEPT,), {})


@pytest.mark.parametrize("unclear", [Silence(), said(Unclear(WhyUnclear.OTHER)), said(Choice(True, sure=False))])
def test_it_never_begins_without_a_yes(unclear: Came) -> None:
    game = after(begun_keeping((7,), 2, NONE_YET, DAY), unclear)
    assert (game.over, game.says) == (None, (say.MAY_I_KEEP_AGAIN,))
    assert after(game, unclear).over is Over.STOPPED
    assert after(game, YES).says == ("Say: seven.",)


@pytest.mark.parametrize("no", [LONE_NO, Pressed.NO])
def test_a_no_in_the_middle_is_asked_about_and_takes_all_of_today_with_it(no: Came) -> None:
    pupil = Speaker(1)
    earlier = kept((9,), pupil)
    middle = went(keeping(7, 30, earlier=earlier, on=NEXT_DAY), pupil.says(7), pupil.says(7), no)
    assert (middle.says, middle.stage) == ((say.NO_MORE,), Stage.NO_MORE)
    over = after(middle, YES)
    assert (over.over, over.says, counts(over)) == (Over.SAID_NO, (say.NOT_KEPT,), {9: 2})
    on = after(middle, NO)
    assert (on.says, counts(on)) == ((say.GO_ON, "Say: thirty."), {9: 2, 7: 2})


def test_a_word_that_sounds_like_no_is_taken_once_the_pupil_has_said_so() -> None:
    """A nine of somebody who is hard to hear, say."""
    nine = Speaker(1).says(9, LONE_NO.judged.heard)
    game = went(keeping(9), nine, NO, nine, Speaker(1).says(9))
    assert (game.over, counts(game)) == (Over.FINISHED, {9: 2})


@pytest.mark.parametrize("stop", [STOP_THERE, Pressed.STOP])
def test_it_stops_and_goes_on_another_day_with_what_is_missing(stop: Came) -> None:
    pupil = Speaker(1)
    game = went(keeping(7, 30, 14), pupil.says(7), pupil.says(7), pupil.says(30), stop)
    assert (game.over, game.says, game.to_say) == (Over.STOPPED, (say.STOPPED,), (30, 14))
    assert counts(game) == {7: 2}, "nobody knows yet whether the one saying of thirty was the pupil's"
    assert game.today
    game = keeping(*game.to_say, earlier=game.today.sure, on=NEXT_DAY)
    for word in (30, 30, 14, 14):
        game = after(game, pupil.says(word))
    assert (game.over, counts(game)) == (Over.FINISHED, {7: 2, 30: 2, 14: 2})


def test_a_lone_stop_is_asked_about() -> None:
    game = went(keeping(7), said(Given(Command.STOP, alone=True)))
    assert game.says == (say.STOP_TODAY,)
    assert after(game, YES).over is Over.STOPPED
    assert after(game, NO).says == (say.GO_ON, "Say: seven.")


def test_a_brothers_voice_is_asked_about_and_not_kept() -> None:
    pupil, brother = Speaker(1), Speaker(2)
    game = went(keeping(7), pupil.says(7), brother.says(7))
    assert game.says == ("That sounded different. Say it once more: seven.",)
    game = after(game, pupil.says(7))
    assert (game.over, counts(game)) == (Over.FINISHED, {7: 2})
    assert game.sayings[1].takes == ()


def test_a_brother_who_was_first_is_outvoted() -> None:
    pupil, brother = Speaker(1), Speaker(2)
    game = went(keeping(7), brother.says(7), pupil.says(7), pupil.says(7))
    assert (game.over, counts(game)) == (Over.FINISHED, {7: 2})
    alone = went(keeping(7), pupil.says(7), pupil.says(7))
    assert game.today and alone.today
    again = game.today.all.with_take(7, pupil.frames(7), on=DAY)
    brothers = game.today.all.with_take(7, brother.frames(7), on=DAY)
    assert isinstance(again, OwnWords) and not isinstance(brothers, OwnWords)


def test_what_stays_different_is_left_for_another_day() -> None:
    game = went(keeping(7, 30), Speaker(1).says(7), Speaker(2).says(7), Speaker(3).says(7))
    assert (game.says, game.to_say, counts(game)) == ((say.LEFT_OUT, "Say: thirty."), (7, 30), {})


def test_another_word_at_first_is_asked_about_and_kept_if_it_is_said_again() -> None:
    """The engine may be wrong each time: it is those words that are wanted most."""
    pupil = Speaker(1)
    game = after(keeping(7), pupil.says(7, Number(11, 0.95)))
    assert game.says == (say.say_once_more(7),)
    game = after(game, pupil.says(7, Number(11, 0.95)))
    assert (game.over, counts(game)) == (Over.FINISHED, {7: 2})


def test_with_another_microphone_the_first_words_are_asked_about_and_then_only_today_counts() -> None:
    words = (7, 30, 14, 60)
    earlier = kept(words, Speaker(1))
    game, pupil, questions = keeping(*words, earlier=earlier, on=NEXT_DAY, wanted=4), Speaker(5), 0
    while game.over is None:
        questions += "different" in game.says[-1]
        game = after(game, pupil.says(game.left[0]))
    assert game.today and game.today.is_new_sound
    assert (game.over, questions, counts(game)) == (Over.FINISHED, 2, dict.fromkeys(words, 4))


def test_silence_is_asked_once_more_and_an_empty_room_is_the_end() -> None:
    game = after(keeping(7, 30, 14, 60), Silence())
    assert game.says == ("I heard nothing. Say: seven.",)
    game = after(game, Silence())
    assert game.says == (say.LEFT_OUT, "Say: thirty.")
    game = went(game, *[Silence()] * 4)
    assert (game.over, game.says, game.to_say) == (Over.NOBODY, (say.NOBODY,), (7, 30, 14, 60))


def test_noise_is_the_end() -> None:
    assert after(keeping(7), Noise()).says == (say.TOO_NOISY,)
    faint = Sound(above_room_db=2.0, is_clipped=False)
    game = went(keeping(7), Speaker(1).says(7, sound=faint), Speaker(1).says(7, sound=faint))
    assert game.over is Over.NOISY


def test_a_key_says_it_again_and_one_leaves_the_word() -> None:
    game = after(begun_keeping((7, 30), 2, NONE_YET, DAY), Pressed.YES)
    assert after(game, Pressed.AGAIN).says == game.says
    assert after(game, Pressed.LEAVE).says == (say.LEFT_OUT, "Say: thirty.")


_WORDS = (7, 30, 13)
_THINGS = st.sampled_from(
    [
        *("pupil", "brother", "another word", "pupil", "pupil"),
        *(YES, NO, LONE_NO, STOP_THERE, said(Unclear(WhyUnclear.NOTHING))),
        *(Silence(), Noise(), *Pressed),
    ]
)


@settings(max_examples=60, deadline=None)
@given(st.lists(_THINGS, max_size=40))
def test_whatever_comes_it_says_something_and_never_keeps_anybody_elses_word(things: list[Came | str]) -> None:
    """Of those who never say a word twice in the same way."""
    pupil = Speaker(1)
    game = begun_keeping(_WORDS, 2, NONE_YET, DAY)
    own = {word: OwnWords("a made-up model", 1.0) for word in _WORDS}
    for word in _WORDS:
        came = own[word].with_take(word, pupil.frames(word), on=DAY)
        assert isinstance(came, OwnWords)
        own[word] = came
    for number, thing in enumerate(things):
        if game.over:
            break
        word = game.left[0]
        match thing:
            case "pupil":
                game = after(game, pupil.says(word))
            case "brother":
                game = after(game, Speaker(100 + number).says(word))
            case "another word":
                game = after(game, said(Number(word, 0.9), Speaker(1).frames(number + 40)))
            case str():
                raise AssertionError(thing)
            case _:
                game = after(game, thing)
        assert game.says and all(game.says)
    assert game.today
    for take in game.today.sure.takes:
        assert isinstance(own[take.number].with_take(take.number, whole(take.frames), on=DAY), OwnWords)
