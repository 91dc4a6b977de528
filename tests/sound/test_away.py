"""Devices that are away from the start, and one that stands in the way of another; most of it without any sound."""

from typing import Any

import numpy as np
import pytest

from saythesum.app.setup.clock import RealClock
from saythesum.dialogue.turns.events import UtteranceId
from saythesum.ports import Over, Sound
from saythesum.sound.device_events import LoudspeakerLost, MicrophoneLost
from saythesum.sound.devices import Device
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import PortAudio
from tests.tools.rig.in_process import Inbox, loudspeaker_on, portaudio_on
from tests.tools.rig.server import Rig, made_tone

HEADSET = Device("Classroom Headset", "ALSA", 1, 2, 48_000)


class NoDevices:
    """Answers as sounddevice does on a machine without sound: an empty list, and errors for the defaults."""

    class PortAudioError(Exception):
        pass

    def query_hostapis(self) -> tuple[dict[str, object], ...]:
        return ()

    def query_devices(self, kind: str | None = None) -> list[dict[str, object]]:
        if kind:
            raise self.PortAudioError("Error querying device -1")
        return []


def test_a_machine_without_sound_has_no_devices_and_no_fault() -> None:
    portaudio = PortAudio(NoDevices())
    assert portaudio.devices() == ()
    assert not portaudio.renew()  # this one cannot look again


def test_what_a_missing_loudspeaker_should_play_is_over_at_once() -> None:
    inbox = Inbox()
    loudspeaker = PortAudioLoudspeaker(
        PortAudio(NoDevices()), HEADSET, clock=RealClock(), post=inbox.post, only_this=True
    )
    assert "Classroom Headset" in inbox.wait_for(LoudspeakerLost).sentence
    for id in (1, 2):
        loudspeaker.play(UtteranceId(id), Sound(np.zeros(22_050, np.float32), 22_050))
    loudspeaker.cut()
    overs = [inbox.wait_for(Over) for _ in range(2)]
    assert [(over.id, over.cut_ms) for over in overs] == [(1, 0), (2, 0)]
    loudspeaker.close()
    assert len(inbox.all) == 3


def test_a_missing_microphone_gives_nothing_and_ends() -> None:
    inbox = Inbox()
    microphone = PortAudioMicrophone(
        PortAudio(NoDevices()), HEADSET, clock=RealClock(), post=inbox.post, only_this=True
    )
    assert "Classroom Headset" in inbox.wait_for(MicrophoneLost).sentence
    captured = microphone.read(0.01)
    assert len(captured.samples) == 0
    microphone.close()
    assert len(inbox.all) == 1


class Counting:
    """sounddevice as it is; counts the loudspeakers that were opened."""

    def __init__(self, library: Any) -> None:
        self._library = library
        self.opened = 0

    def __getattr__(self, name: str) -> Any:
        return getattr(self._library, name)

    def OutputStream(self, **wanted: Any) -> Any:  # noqa: N802 - sounddevice's own name
        self.opened += 1
        return self._library.OutputStream(**wanted)


@pytest.mark.rig
def test_a_silent_loudspeaker_steps_aside_for_a_microphone_that_is_looked_for(rig: Rig) -> None:
    import sounddevice

    library, inbox = Counting(sounddevice), Inbox()
    with portaudio_on(rig, library) as portaudio, loudspeaker_on(portaudio, rig.clock, inbox) as loudspeaker:
        microphone = PortAudioMicrophone(portaudio, HEADSET, clock=rig.clock, post=inbox.post, only_this=True)
        deadline_ms = rig.clock.since_start_ms() + 10_000
        while library.opened < 2 and rig.clock.since_start_ms() < deadline_ms:
            rig.tool.wait_until_ms(rig.clock.since_start_ms() + 50)
        asked_ms = rig.clock.since_start_ms()
        loudspeaker.play(UtteranceId(1), made_tone(300))
        assert inbox.wait_for(Over).cut_ms is None
        assert rig.tool.first_sound_ms(asked_ms) is not None
        microphone.close()
    assert library.opened >= 2
    assert not any(isinstance(news, LoudspeakerLost) for news in inbox.all)
