"""The live mouth: phrases rendered in a thread of their own, and handed to the loudspeaker one after the other."""

from collections.abc import Callable
from dataclasses import dataclass, fields
from queue import SimpleQueue
from threading import Lock, Thread

import numpy as np

from saythesum.app.session.speech.line_sound import line_sound
from saythesum.errors import SoundFileError, VoiceError
from saythesum.ports import BETWEEN_SOUNDS_MS, Clock, Loudspeaker, Over, OwnSound, PacedVoice, Sound, SoundId
from saythesum.settings import Cues
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.wav import read_wav

CUES = tuple(field.name.replace("_", "-") for field in fields(Cues))
"""By the settings that switch each one off."""
BEFORE_CUE_MS = 0
"""From the end of what was said to a cue."""


def cue_sounds() -> dict[str, Sound]:
    """A cue that is missing or damaged is left out: it is a comfort, not a need."""
    return {name: sound for name in CUES if (sound := _cue_sound(name))}


def silent_cues(cues: Cues) -> frozenset[str]:
    return frozenset(name for name in CUES if not getattr(cues, name.replace("-", "_")))


@dataclass(frozen=True, slots=True)
class VoiceLost:
    sentence: str


@dataclass(frozen=True, slots=True)
class _Phrase:
    id: SoundId | None
    """None: it is only rendered ahead."""
    text: str
    """The name of a cue, where it is one."""
    cuts: int
    """How often the mouth had been cut when this was to be said: a later cut drops it."""
    is_cue: bool = False


class Mouth:
    """Every id comes back in one `Over`, through the loudspeaker's `post` or this one's. Used by any thread."""

    def __init__(
        self,
        voice: PacedVoice,
        loudspeaker: Loudspeaker | None,
        *,
        clock: Clock,
        post: Callable[[Over | VoiceLost], None],
        is_silent: bool = False,
        volume: float = 1.0,
    ) -> None:
        """Without a loudspeaker everything is over as soon as it is said: it is shown, not heard. `is_silent`: so are
        sentences, which a screen reader speaks; cues are heard. `volume`: the voice's, 0 to 1, for the cues beside it.
        """
        self._voice, self._loudspeaker, self._clock, self._post = voice, loudspeaker, clock, post
        self.is_silent = is_silent
        """May change at any time."""
        self._phrases: SimpleQueue[_Phrase | None] = SimpleQueue()
        self._cuts = 0
        self._playing = Lock()
        self._is_voice_lost = False
        self._cues, self._volume = cue_sounds(), volume
        self._thread = Thread(target=self._run, name="mouth", daemon=True)
        self._thread.start()

    def prepare(self, text: str) -> None:
        self._phrases.put(_Phrase(None, text, self._cuts))

    def say(self, id: SoundId, text: str) -> None:
        self._phrases.put(_Phrase(id, text, self._cuts))

    def cue(self, id: OwnSound, name: str) -> None:
        self._phrases.put(_Phrase(id, name, self._cuts, is_cue=True))

    def cut(self) -> None:
        with self._playing:
            self._cuts += 1
            if self._loudspeaker:
                self._loudspeaker.cut()

    def slow_down(self) -> None:
        self._voice.slow_down()

    def speak_at(self, rate_wpm: int) -> None:
        self._voice.speak_at(rate_wpm)

    def close(self) -> None:
        self.cut()
        self._phrases.put(None)
        self._voice.close()
        self._thread.join()

    def _run(self) -> None:
        while phrase := self._phrases.get():
            sound = self._rendered(phrase)
            if phrase.id is not None:
                self._play(phrase.id, phrase, sound)

    def _play(self, id: SoundId, phrase: _Phrase, sound: Sound | None) -> None:
        with self._playing:  # a cut comes before or after this, never between the question and the playing
            if sound is not None and self._loudspeaker and phrase.cuts == self._cuts:
                self._loudspeaker.play(id, sound, after_ms=BEFORE_CUE_MS if phrase.is_cue else BETWEEN_SOUNDS_MS)
                return
        cut_ms = None if phrase.cuts == self._cuts else 0
        self._post(Over(id, self._clock.since_start_ms(), cut_ms))

    def _rendered(self, phrase: _Phrase) -> Sound | None:
        """None if it was cut before it could be said, or there is no voice, which is reported once."""
        if phrase.cuts != self._cuts or self._loudspeaker is None:
            return None
        if phrase.is_cue:
            sound = self._cues.get(phrase.text) or line_sound(phrase.text)
            return _at_volume(sound, self._volume) if sound else None
        if self.is_silent:
            return None
        try:
            return self._voice.render(phrase.text)
        except VoiceError as error:
            if not self._is_voice_lost and phrase.cuts == self._cuts:
                self._is_voice_lost = True
                self._post(VoiceLost(str(error)))
            return None


def _at_volume(sound: Sound, volume: float) -> Sound:
    return Sound(sound.samples * np.float32(volume), sound.rate_hz)


def _cue_sound(name: str) -> Sound | None:
    try:
        return read_wav(audio_folder() / f"{name}.wav")
    except SoundFileError:
        return None
