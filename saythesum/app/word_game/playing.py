"""The word game with a microphone, a loudspeaker and keys: what came through them becomes what the game is told."""

from collections.abc import Callable
from typing import Protocol

import numpy as np

from saythesum.app.word_game.ask_aloud import Recording
from saythesum.app.word_game.game import (
    Came,
    Noise,
    Over,
    Pressed,
    Said,
    Silence,
    Sound,
    WordGame,
    after,
    no_longer_allowed,
)
from saythesum.core.meanings import Awaiting
from saythesum.hearing.confidence.gate import Judged, judged
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES
from saythesum.hearing.endpointing.voice_activity import VoiceActivity
from saythesum.hearing.recording import spoken_part
from saythesum.keyboard import keys
from saythesum.ports import Hearing, Recogniser, Samples
from saythesum.sound import room_noise
from saythesum.wording.speak import said_word_game as say

KEYS = {
    keys.Key.ENTER: Pressed.YES,
    keys.Key.BACKSPACE: Pressed.NO,
    keys.Key.NOT_WHAT_I_SAID: Pressed.NO,
    keys.Key.SPACE: Pressed.AGAIN,
    keys.Key.SAY_AGAIN: Pressed.AGAIN,
    keys.Key.HELP: Pressed.LEAVE,
    keys.Key.SKIP: Pressed.LEAVE,
    keys.Key.ESCAPE: Pressed.STOP,
    keys.Key.STOP: Pressed.STOP,
    keys.Key.CLOSE: Pressed.STOP,
}
"""As in a practice: Enter takes, Backspace takes back, Space says it again."""
_ECHO_FRAMES, _BEFORE_SPEECH_FRAMES, _FEWEST_FRAMES = 4, 2, 6
"""Of what comes before a word, the first part may be the tool's own echo and the last one the word's beginning."""
_QUIETEST = 1e-5
"""A digital silence is as quiet as a microphone can tell."""


class Asking(Protocol):
    """Says a sentence and hears what follows it."""

    def say(self, sentence: str) -> keys.Pressed | None: ...

    def answer_to(self, question: str) -> Recording | keys.Pressed: ...

    def room(self) -> Samples: ...


def is_too_noisy(asking: Asking) -> bool:
    """Says so, too."""
    asking.say(say.ROOM)
    room = room_noise.judged(asking.room(), VoiceActivity().probability)
    is_noisy = room.state is room_noise.RoomState.TOO_MUCH_TALKING
    if is_noisy:
        asking.say(say.TOO_NOISY)
    return is_noisy


def played(game: WordGame, asking: Asking, engine: Recogniser, keep: Callable[[OwnWords], bool]) -> WordGame:
    """To its end. `keep` is called when there is something else to be kept than before: after each word, so that
    little is lost wherever it breaks off; where it may not be kept any more, that is the end. Raises DeviceError."""
    kept = game.today and game.today.sure.takes
    while game.over is None:
        game = after(game, _came(game, asking, engine))
        if game.over is not Over.SAID_NO and game.today and game.today.sure.takes != kept:
            kept = game.today.sure.takes
            game = game if keep(game.today.sure) else no_longer_allowed(game)
    for sentence in game.says:
        asking.say(sentence)
    return game


def _came(game: WordGame, asking: Asking, engine: Recogniser) -> Came:
    *before, question = game.says
    for sentence in before:
        if pressed := asking.say(sentence):
            return KEYS[pressed.key]
    answer = asking.answer_to(question)
    if isinstance(answer, keys.Pressed):
        return KEYS[answer.key]
    if not answer.has_end:
        return Noise()
    if answer.speech_from is None:
        return Silence()
    return said_in(answer, game.awaiting, engine)


def said_in(recording: Recording, awaiting: Awaiting, engine: Recogniser) -> Said | Silence:
    spoken = spoken_part(recording.samples)
    if not len(spoken):
        return Silence()
    hearing, meaning = heard_by(engine, spoken, awaiting)
    is_clipped = bool(np.mean(np.abs(spoken) >= room_noise.CLIPPED_FROM) > room_noise.MOST_CLIPPED)
    return Said(spoken, hearing, meaning, Sound(_above_room_db(recording), is_clipped))


def heard_by(engine: Recogniser, spoken: Samples, awaiting: Awaiting) -> tuple[Hearing, Judged]:
    engine.open(awaiting)
    engine.feed(spoken)
    hearing = engine.close()
    return hearing, judged(hearing, awaiting)


def _above_room_db(recording: Recording) -> float | None:
    assert recording.speech_from is not None
    end = recording.speech_from - _BEFORE_SPEECH_FRAMES * FRAME_SAMPLES
    room = recording.samples[_ECHO_FRAMES * FRAME_SAMPLES : max(0, end)]
    if len(room) < _FEWEST_FRAMES * FRAME_SAMPLES:
        return None
    return _db(recording.samples[recording.speech_from :]) - _db(room)


def _db(samples: Samples) -> float:
    return 20 * float(np.log10(max(np.sqrt(np.mean(samples.astype(np.float64) ** 2)), _QUIETEST)))
