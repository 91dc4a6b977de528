"""The tool's own streams inside the test's process, on the rig."""

from collections.abc import Iterator
from contextlib import contextmanager
from queue import Empty, SimpleQueue
from typing import Any, TypeVar

import pytest

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Captured, Clock, Loudspeaker, Microphone, Over
from saythesum.sound.device_events import DeviceNews, LoudspeakerLost
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import PortAudio
from tests.tools.rig.server import Rig, made_tone

News = TypeVar("News")


class Inbox:
    """What the devices posted, in order; the test waits for what it expects."""

    def __init__(self) -> None:
        self.all: list[Over | DeviceNews] = []
        self._queue: SimpleQueue[Over | DeviceNews] = SimpleQueue()

    def post(self, news: Over | DeviceNews) -> None:
        self.all.append(news)
        self._queue.put(news)

    def wait_for(self, kind: type[News], *, within_s: float = 15.0) -> News:
        """The next of its kind; what came before it is passed over."""
        while True:
            try:
                news = self._queue.get(timeout=within_s)
            except Empty:
                raise AssertionError(f"no {kind.__name__} came; there were {self.all}") from None
            if isinstance(news, kind):
                return news


@contextmanager
def portaudio_on(rig: Rig, library: Any = None) -> Iterator[PortAudio]:
    """PortAudio, started anew so that it sees the devices of the rig."""
    with pytest.MonkeyPatch.context() as patch:
        for name, value in rig.environment.items():
            patch.setenv(name, value)
        import sounddevice

        portaudio = PortAudio(library or sounddevice)
        assert portaudio.renew()
        yield portaudio


@contextmanager
def loudspeaker_on(
    portaudio: PortAudio, clock: Clock, inbox: Inbox, *, only_this: bool = True
) -> Iterator[PortAudioLoudspeaker]:
    device = chosen(portaudio.devices(), Direction.OUT, None)
    loudspeaker = PortAudioLoudspeaker(portaudio, device, clock=clock, post=inbox.post, only_this=only_this)
    try:
        yield loudspeaker
    finally:
        loudspeaker.close()


@contextmanager
def microphone_on(portaudio: PortAudio, clock: Clock, inbox: Inbox) -> Iterator[PortAudioMicrophone]:
    device = chosen(portaudio.devices(), Direction.IN, None)
    microphone = PortAudioMicrophone(portaudio, device, clock=clock, post=inbox.post, only_this=True)
    try:
        yield microphone
    finally:
        microphone.close()


def read_until(microphone: Microphone, end_ms: int, clock: Clock) -> list[Captured]:
    """Everything up to a moment of the run."""
    captured: list[Captured] = []
    while not captured or captured[-1].end_sample < end_ms * 16:
        captured.append(microphone.read())
        assert clock.since_start_ms() < end_ms + 5_000, "the microphone does not get there"
    return captured


def pulled_in_mid_sound(rig: Rig, loudspeaker: Loudspeaker, inbox: Inbox) -> int:
    """The rig's headset, while something is played on it. When that was, in ms; it is known to be lost then."""
    asked_ms = rig.clock.since_start_ms()
    loudspeaker.play(UtteranceId(1), made_tone(6_000))
    assert rig.tool.first_sound_ms(asked_ms) is not None
    pulled_ms = rig.clock.since_start_ms()
    rig.remove_sink("tool")
    inbox.wait_for(LoudspeakerLost)
    return pulled_ms
