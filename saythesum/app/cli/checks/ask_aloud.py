"""One question aloud and what is said after it: the shortest way from the loudspeaker to the microphone and back."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from queue import Empty, SimpleQueue

import numpy as np

from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places
from saythesum.app.terminal.console import show
from saythesum.errors import DeviceError
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES, Change, SpeechEnds
from saythesum.hearing.endpointing.voice_activity import VoiceActivity
from saythesum.ports import LISTENING_RATE_HZ, Loudspeaker, Microphone, Over, OwnSound, Samples
from saythesum.settings import Settings
from saythesum.sound.device_events import DeviceNews
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import load_portaudio
from saythesum.speaking.voice import ToolVoice

PLAYING_S = 15
WAITED_FOR_S = 6
"""After so much silence the word counts as not heard."""
LONGEST_S = 12


class AskingAloud:
    """One thread. Every sentence is shown as well."""

    def __init__(
        self, voice: ToolVoice, loudspeaker: Loudspeaker, microphone: Microphone, news: "SimpleQueue[Over | DeviceNews]"
    ) -> None:
        """`news`: where both devices post."""
        self._voice, self._loudspeaker, self._microphone, self._news = voice, loudspeaker, microphone, news
        self._said = 0

    def say(self, sentence: str) -> None:
        """Returns when it has been said. Raises DeviceError where a device has gone."""
        show(sentence)
        self._said += 1
        self._loudspeaker.play(OwnSound(self._said), self._voice.render(sentence))
        try:
            came = self._news.get(timeout=PLAYING_S)
        except Empty:
            raise DeviceError("The loudspeaker takes no sound; choose another one in the settings.") from None
        if not isinstance(came, Over):
            raise DeviceError(getattr(came, "sentence", "A device has gone."))

    def answer_to(self, question: str) -> Samples:
        """All that came from the end of the question to the end of the answer, or of the wait for one."""
        self.say(question)
        self._microphone.read()  # what came before
        activity, ends = VoiceActivity(), SpeechEnds()
        heard: list[Samples] = []
        for frame in self._frames(LONGEST_S):
            heard.append(frame)
            is_over = ends.feed(activity.probability(frame)) is Change.OVER
            is_silent = ends.began is None and len(heard) * FRAME_SAMPLES > WAITED_FOR_S * LISTENING_RATE_HZ
            if is_over or is_silent:
                break
        return np.concatenate(heard)

    def _frames(self, seconds: float) -> Iterator[Samples]:
        left_over: Samples = np.zeros(0, np.float32)
        for _ in range(int(seconds * LISTENING_RATE_HZ / FRAME_SAMPLES)):
            while len(left_over) < FRAME_SAMPLES:
                if not self._news.empty():
                    raise DeviceError(getattr(self._news.get(), "sentence", "The microphone has gone."))
                left_over = np.concatenate([left_over, self._microphone.read().samples])
            yield left_over[:FRAME_SAMPLES]
            left_over = left_over[FRAME_SAMPLES:]


@contextmanager
def asking_aloud(own: Places, settings: Settings) -> Iterator[AskingAloud]:
    """With the devices of the settings. Raises DeviceError where there is none."""
    portaudio, clock = load_portaudio(), RealClock()
    news: SimpleQueue[Over | DeviceNews] = SimpleQueue()
    known = portaudio.devices()
    speaks = chosen(known, Direction.OUT, settings.sound.loudspeaker)
    hears = chosen(known, Direction.IN, settings.sound.microphone)
    with ExitStack() as stack:
        loudspeaker = PortAudioLoudspeaker(portaudio, speaks, clock=clock, post=news.put, only_this=True)
        stack.callback(loudspeaker.close)
        voice = ToolVoice(settings.speech, own.cache)
        stack.callback(voice.close)
        microphone = PortAudioMicrophone(portaudio, hears, clock=clock, post=news.put, only_this=True)
        stack.callback(microphone.close)
        yield AskingAloud(voice, loudspeaker, microphone, news)
