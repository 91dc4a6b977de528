"""The mouth: phrases rendered in a thread of their own and played one after the other; cut at any moment."""

from collections.abc import Callable
from dataclasses import dataclass
from queue import SimpleQueue
from threading import Condition, Thread

from saythesum.errors import SoundFileError, VoiceError
from saythesum.ports import Clock, Sound
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.device_events import Over
from saythesum.sound.loudspeaker import BETWEEN_MS, Loudspeaker
from saythesum.sound.wav import read_wav
from saythesum.speaking.voice import ToolVoice

CUES = ("ear-open", "ear-shut", "ten-reached", "practice-over")


@dataclass(frozen=True, slots=True)
class VoiceLost:
    sentence: str


@dataclass(frozen=True, slots=True)
class _Phrase:
    id: int
    text: str
    """The name of a cue, where it is one."""
    cuts: int
    """How often the mouth had been cut when this was to be said: a later cut drops it."""
    is_cue: bool = False


class Mouth:
    """Every id comes back in one `Over`, through the loudspeaker's `post` or this one's. Used by any thread."""

    def __init__(
        self,
        voice: ToolVoice,
        loudspeaker: Loudspeaker | None,
        *,
        clock: Clock,
        post: Callable[[Over | VoiceLost], None],
        one_by_one: bool = False,
    ) -> None:
        """Without a loudspeaker everything is over as soon as it is said: it is shown, not heard. `one_by_one`: what
        comes behind a sentence waits for `go_on`, so that the ear can be open between.
        """
        self._voice, self._loudspeaker, self._clock, self._post = voice, loudspeaker, clock, post
        self._phrases: SimpleQueue[_Phrase | None] = SimpleQueue()
        self._cuts = 0
        self._one_by_one = one_by_one
        self._behind: int | None = None
        """The sentence that all else waits behind."""
        self._playing = Condition()
        self._is_voice_lost = False
        self._cues = {name: _cue(name) for name in CUES}
        self._thread = Thread(target=self._run, name="mouth", daemon=True)
        self._thread.start()

    def say(self, id: int, text: str) -> None:
        self._phrases.put(_Phrase(id, text, self._cuts))

    def cue(self, id: int, name: str) -> None:
        """A short sound, in its turn."""
        self._phrases.put(_Phrase(id, name, self._cuts, is_cue=True))

    def cut(self) -> None:
        with self._playing:
            self._cuts += 1
            self._behind = None
            self._playing.notify()
            if self._loudspeaker:
                self._loudspeaker.cut()

    def go_on(self, after: int) -> None:
        """That sentence is over, and what comes behind it may begin."""
        with self._playing:
            if self._behind == after:
                self._behind = None
                self._playing.notify()

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
            with self._playing:  # a cut comes before or after this, never between the question and the playing
                while self._behind is not None and phrase.cuts == self._cuts:
                    self._playing.wait()
                if sound is not None and self._loudspeaker and phrase.cuts == self._cuts:
                    self._loudspeaker.play(phrase.id, sound, after_ms=0 if phrase.is_cue else BETWEEN_MS)
                    if self._one_by_one and not phrase.is_cue:
                        self._behind = phrase.id
                    continue
            cut_ms = None if phrase.cuts == self._cuts else 0
            self._post(Over(phrase.id, self._clock.since_start_ms(), cut_ms))

    def _rendered(self, phrase: _Phrase) -> Sound | None:
        """None where it was cut before it could be said, or there is no voice; that is told once."""
        if phrase.cuts != self._cuts or self._loudspeaker is None:
            return None
        if phrase.is_cue:
            return self._cues[phrase.text]
        try:
            return self._voice.render(phrase.text)
        except VoiceError as error:
            if not self._is_voice_lost and phrase.cuts == self._cuts:
                self._is_voice_lost = True
                self._post(VoiceLost(str(error)))
            return None


def _cue(name: str) -> Sound | None:
    """A cue that is missing or damaged is left out: it is a comfort, not a need."""
    try:
        return read_wav(audio_folder() / f"{name}.wav")
    except SoundFileError:
        return None
