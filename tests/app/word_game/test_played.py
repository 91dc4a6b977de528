"""The word game with recordings in place of a microphone: the real engine, in no time at all."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date

import numpy as np
import pytest

from saythesum.app.word_game.ask_aloud import Recording
from saythesum.app.word_game.found import found_in, heard_anew, learnt_from
from saythesum.app.word_game.game import Over, Saying, begun, begun_keeping
from saythesum.app.word_game.playing import is_too_noisy, played
from saythesum.app.word_game.which_words import OFTEN_MIXED_UP
from saythesum.core.meanings import Meaning, Number, Unclear, WhyUnclear
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import none_yet
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES
from saythesum.hearing.vocal_tract.factor import VocalTract
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.wording.for_adults.said_word_game import ALL_UNDERSTOOD, NOTHING_SAID, TOO_LITTLE, Microphone, words_said
from saythesum.wording.speak import said_word_game as say
from tests.app.word_game.made_up import said
from tests.by_sound import recorded
from tests.tools.listening.conditions import raised
from tests.tools.listening.sounds import padded

DAY = date(2031, 5, 12)
NEAR_SILENCE = np.random.default_rng(1).standard_normal(3 * LISTENING_RATE_HZ).astype(np.float32) * 1e-4


def as_recorded(samples: Samples) -> Samples:
    return samples


@dataclass
class MadeUpPupil:
    """Says what it is asked to; `replies` has what is said or pressed in place of that, by the question."""

    voice: Callable[[Samples], Samples] = as_recorded
    replies: dict[str, str | Key] = field(default_factory=dict)
    room_sound: Samples = field(default_factory=lambda: NEAR_SILENCE)
    heard: list[str] = field(default_factory=list)

    def say(self, sentence: str) -> Pressed | None:
        self.heard.append(sentence)
        return None

    def room(self) -> Samples:
        return self.room_sound

    def answer_to(self, question: str) -> Recording | Pressed:
        self.heard.append(question)
        reply = self.replies.get(question, question.rstrip(".").split(": ")[-1])
        if isinstance(reply, Key):
            return Pressed(reply, 0)
        samples = self.voice(padded(recorded(reply)))
        return Recording(samples, 12 * FRAME_SAMPLES, has_end=True)


def test_a_clear_voice_is_told_to_speak() -> None:
    pupil = MadeUpPupil()
    game = played(begun(OFTEN_MIXED_UP), pupil, NeuralRecogniser(), lambda _: pytest.fail("nothing may be kept"))
    assert (game.over, pupil.heard[-1], len(pupil.heard)) == (Over.FINISHED, say.FINISHED, 2 + len(OFTEN_MIXED_UP))
    found = found_in(game)
    assert (found.sure, found.microphone) == (OFTEN_MIXED_UP, Microphone.FINE)


def test_a_childs_voice_gives_the_factor_and_is_understood_with_it() -> None:
    engine, pupil = NeuralRecogniser(), MadeUpPupil(lambda samples: raised(samples, 1.4))
    game = played(begun(OFTEN_MIXED_UP), pupil, engine, lambda _: True)
    learnt = learnt_from(game.sayings, engine, VocalTract())
    assert learnt.factor >= 1.2
    assert learnt.answers == len(OFTEN_MIXED_UP)
    assert len(found_in(heard_anew(game, engine, learnt.factor)).sure) > len(found_in(game).sure)


def test_own_words_are_kept_after_each_word_and_heard_anew_at_a_new_factor() -> None:
    engine, kept = NeuralRecogniser(), list[OwnWords]()
    pupil = MadeUpPupil(replies={say.MAY_I_KEEP: Key.ENTER})

    def keep(own: OwnWords) -> bool:
        kept.append(own)
        return True

    game = played(begun_keeping((7, 30), 2, none_yet(1.0), DAY), pupil, engine, keep)
    assert [dict(own.counts) for own in kept] == [{7: 2}, {7: 2, 30: 2}]
    anew = heard_anew(game, engine, 1.1).today
    assert anew and (anew.sure.factor, dict(anew.sure.counts)) == (1.1, {7: 2, 30: 2})


def test_the_pupils_spoken_no_is_understood() -> None:
    pupil = MadeUpPupil(replies={say.MAY_I_KEEP: "no"})
    game = played(begun_keeping((7,), 2, none_yet(1.0), DAY), pupil, NeuralRecogniser(), lambda _: False)
    assert (game.over, pupil.heard) == (Over.SAID_NO, [say.BEGIN, say.MAY_I_KEEP, say.NOT_KEPT])


def test_where_nothing_may_be_kept_any_more_it_stops() -> None:
    """Consent was withdrawn on the desk meanwhile."""
    pupil = MadeUpPupil(replies={say.MAY_I_KEEP: Key.ENTER})
    game = played(begun_keeping((7, 30), 2, none_yet(1.0), DAY), pupil, NeuralRecogniser(), lambda _: False)
    assert (game.over, game.today, pupil.heard[-1]) == (Over.STOPPED, None, say.STOPPED)


def test_a_room_in_which_people_talk_is_told_at_once() -> None:
    talk = np.concatenate([recorded("seven"), recorded("thirty"), recorded("fourteen")])
    pupil = MadeUpPupil(room_sound=talk)
    assert is_too_noisy(pupil)
    assert pupil.heard == [say.ROOM, say.TOO_NOISY]
    assert not is_too_noisy(MadeUpPupil())


def told(*heard: tuple[int, Meaning]) -> list[str]:
    sayings = tuple(Saying(asked, said(meaning)) for asked, meaning in heard)
    found = found_in(replace(begun((7,)), sayings=sayings))
    return list(words_said(found.sure, found.with_own_words, found.mixed, found.unclear))


def number(value: int, *alternatives: int, sure: bool = True) -> Number:
    return Number(value, 0.8, sure=sure, alternatives=alternatives)


UNDERSTOOD = [(value, number(value)) for value in (5, 60, 9, 80)]


@pytest.mark.parametrize(
    ("missed", "found"),
    [
        ([(30, number(40))], "as it mixes them up: thirty and forty."),
        ([(30, number(40)), (40, number(30, sure=False))], "as it mixes them up: thirty and forty."),
        ([(14, number(14, 40, sure=False))], "as it mixes them up: fourteen and forty."),
        ([(15, number(15, sure=False))], "as it could not make them out: fifteen."),
        (
            [(3, Unclear(WhyUnclear.OTHER)), (70, Unclear(WhyUnclear.NOTHING))],
            "as it could not make them out: three, seventy.",
        ),
    ],
)
def test_what_is_missed_is_told_in_words(missed: list[tuple[int, Meaning]], found: str) -> None:
    first, second = told(*UNDERSTOOD, *missed)
    assert first == f"Heard surely: five, sixty, nine, eighty (4 of {4 + len(missed)})."
    assert second == f"Better by keys, {found}"


def test_all_none_and_nothing() -> None:
    assert told(*UNDERSTOOD) == [ALL_UNDERSTOOD]
    assert told() == [NOTHING_SAID]
    assert told((30, Unclear(WhyUnclear.OTHER)))[-1] == TOO_LITTLE
