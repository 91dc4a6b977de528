"""A device whose calls never return, as behind a sound server that hangs: it counts as gone, and everything ends."""

from collections.abc import Iterator
from threading import Event
from typing import Any

import numpy as np
import pytest

from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import LISTENING_RATE_HZ, Over, Sound
from saythesum.sound.device_events import LoudspeakerLost, MicrophoneLost
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import PortAudio
from tests.fakes.clock import FakeClock
from tests.fakes.one_loudspeaker import OneLoudspeaker
from tests.fakes.one_microphone import OneMicrophone
from tests.tools.rig.in_process import Inbox

HANGS_IN = ("start", "abort", "close")
TONE = Sound(np.full(4_000, 0.1, np.float32), LISTENING_RATE_HZ)


class Hanging:
    """A stand-in for sounddevice whose streams do not come back from one kind of call, once the test says so."""

    def __init__(self, library: Any, hangs_in: str, is_hanging: Event) -> None:
        self._library, self._hangs_in, self._is_hanging = library, hangs_in, is_hanging

    def __getattr__(self, name: str) -> Any:
        found = getattr(self._library, name)
        if name in ("OutputStream", "InputStream"):
            return lambda **wanted: Hanging(found(**wanted), self._hangs_in, self._is_hanging)
        if name == self._hangs_in and self._is_hanging.is_set():
            return lambda **_: Event().wait()
        return found


@pytest.fixture
def inbox() -> Iterator[Inbox]:
    yield Inbox()


@pytest.mark.parametrize("hangs_in", HANGS_IN)
def test_a_loudspeaker_that_hangs_is_told_and_what_it_had_is_over(hangs_in: str, inbox: Inbox) -> None:
    clock, is_hanging = FakeClock(), Event()
    device = OneLoudspeaker(clock)
    portaudio = PortAudio(Hanging(device, hangs_in, is_hanging))
    named = chosen(portaudio.devices(), Direction.OUT, None)
    loudspeaker = PortAudioLoudspeaker(portaudio, named, clock=clock, post=inbox.post, only_this=True)
    for _ in range(10):  # it has warmed up: from here on a sound that follows silence has the stream begun anew
        device.take_block()
    is_hanging.set()
    loudspeaker.play(UtteranceId(1), TONE)
    if hangs_in == "close":
        loudspeaker.close()
    else:
        inbox.wait_for(LoudspeakerLost)
    over = inbox.wait_for(Over)
    assert (over.id, over.cut_ms is not None) == (1, True)
    if hangs_in != "close":
        loudspeaker.play(UtteranceId(2), TONE)
        assert inbox.wait_for(Over).cut_ms == 0, "over at once, like everything while the device is away"
    loudspeaker.close()


def test_a_microphone_that_hangs_when_it_is_let_go_is_told(inbox: Inbox) -> None:
    clock, is_hanging = FakeClock(), Event()
    device = OneMicrophone(clock)
    portaudio = PortAudio(Hanging(device, "close", is_hanging))
    named = chosen(portaudio.devices(), Direction.IN, None)
    microphone = PortAudioMicrophone(portaudio, named, clock=clock, post=inbox.post, only_this=True)
    device.give(np.zeros(800, np.float32), 50)
    is_hanging.set()
    clock.pass_ms(60_000)  # not a block in all this time
    inbox.wait_for(MicrophoneLost)
    assert len(microphone.read(0.01).samples) == 0
    microphone.close()
