"""One question aloud and what is said after it: the shortest way from the loudspeaker to the microphone and back."""

import sys
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from threading import Thread
from typing import TypeAlias

import numpy as np

from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places
from saythesum.app.terminal.console import show
from saythesum.app.terminal.keys import keys_from
from saythesum.errors import DeviceError
from saythesum.hearing.endpointing.endpointer import FRAME_SAMPLES, Change, SpeechEnds
from saythesum.hearing.endpointing.voice_activity import VoiceActivity
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import LISTENING_RATE_HZ, Loudspeaker, Microphone, Over, OwnSound, Samples
from saythesum.settings import Settings
from saythesum.sound.device_events import DeviceNews, LoudspeakerLost, MicrophoneLost
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import load_portaudio
from saythesum.speaking.voice import ToolVoice

PLAYING_S = 15
WAITED_FOR_S = 6
"""After so much silence the word counts as not heard."""
LONGEST_S = 12


ROOM_S = 3


@dataclass(frozen=True, slots=True, eq=False)
class Recording:
    """All that came from the end of the question to the end of the answer, or of the wait for one."""

    samples: Samples
    speech_from: int | None
    """The sample at which speech began; None where nobody spoke."""
    has_end: bool
    """False where something like speech went on and on."""


News: TypeAlias = Over | DeviceNews | Pressed


class AskingAloud:
    """One thread. Every sentence is shown as well."""

    def __init__(
        self, voice: ToolVoice, loudspeaker: Loudspeaker, microphone: Microphone, news: "SimpleQueue[News]"
    ) -> None:
        """`news`: where both devices post, and the keys."""
        self._voice, self._loudspeaker, self._microphone, self._news = voice, loudspeaker, microphone, news
        self._said = 0

    def say(self, sentence: str) -> Pressed | None:
        """Returns when it has been said, or was cut by a key. Raises DeviceError where a device has gone."""
        show(sentence)
        self._said += 1
        self._loudspeaker.play(OwnSound(self._said), self._voice.render(sentence))
        pressed = None
        while True:
            try:
                came = self._news.get(timeout=PLAYING_S)
            except Empty:
                raise DeviceError("The loudspeaker takes no sound; choose another one in the settings.") from None
            match came:
                case Over():
                    return pressed
                case Pressed():
                    pressed = came
                    self._loudspeaker.cut()
                case LoudspeakerLost() | MicrophoneLost():
                    raise DeviceError(came.sentence)

    def room(self) -> Samples:
        """What the microphone hears while nobody is asked anything."""
        self._microphone.read()  # what came before
        return np.concatenate([frame for frame in self._frames(ROOM_S) if not isinstance(frame, Pressed)])

    def answer_to(self, question: str) -> Recording | Pressed:
        if pressed := self.say(question):
            return pressed
        self._microphone.read()  # what came before
        activity, ends = VoiceActivity(), SpeechEnds()
        heard: list[Samples] = []
        speech_from = None
        change = None
        for frame in self._frames(LONGEST_S):
            if isinstance(frame, Pressed):
                return frame
            heard.append(frame)
            change = ends.feed(activity.probability(frame))
            if change is Change.BEGAN and speech_from is None and ends.began is not None:
                speech_from = ends.began * FRAME_SAMPLES
            is_silent = ends.began is None and len(heard) * FRAME_SAMPLES > WAITED_FOR_S * LISTENING_RATE_HZ
            if change is Change.OVER or is_silent:
                break
        has_end = change is Change.OVER or ends.began is None
        return Recording(np.concatenate(heard), speech_from, has_end)

    def _frames(self, seconds: float) -> "Iterator[Samples | Pressed]":
        left_over: Samples = np.zeros(0, np.float32)
        for _ in range(int(seconds * LISTENING_RATE_HZ / FRAME_SAMPLES)):
            while len(left_over) < FRAME_SAMPLES:
                if not self._news.empty():
                    match self._news.get():
                        case Pressed() as pressed:
                            yield pressed
                        case LoudspeakerLost(sentence=sentence) | MicrophoneLost(sentence=sentence):
                            raise DeviceError(sentence)
                left_over = np.concatenate([left_over, self._microphone.read().samples])
            yield left_over[:FRAME_SAMPLES]
            left_over = left_over[FRAME_SAMPLES:]


@contextmanager
def asking_aloud(own: Places, settings: Settings, keys: frozenset[Key]) -> Iterator[AskingAloud]:
    """With the devices of the settings, and those of a terminal's keys that mean something here. Raises DeviceError
    where there is no device.
    """
    portaudio, clock = load_portaudio(), RealClock()
    news: SimpleQueue[News] = SimpleQueue()
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
        if sys.stdin is not None and sys.stdin.isatty():
            presses = stack.enter_context(keys_from(sys.stdin, clock.since_start_ms))
            Thread(target=_pass_on, args=(presses, keys, news), name="keys", daemon=True).start()
        yield AskingAloud(voice, loudspeaker, microphone, news)


def _pass_on(presses: Iterable[Pressed], keys: frozenset[Key], news: "SimpleQueue[News]") -> None:
    for press in presses:
        if press.key in keys and not press.is_repeat:
            news.put(press)
