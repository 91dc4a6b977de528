"""Whether the loudspeaker sounds, and what the microphone hears of the room."""

from queue import Empty, SimpleQueue

import numpy as np

from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places
from saythesum.app.terminal.console import show
from saythesum.errors import DeviceError
from saythesum.hearing.endpointing.voice_activity import VoiceActivity
from saythesum.ports import Microphone, Over, OwnSound, Samples
from saythesum.settings import Settings
from saythesum.sound.device_events import DeviceNews
from saythesum.sound.devices import Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.sound.portaudio import load_portaudio
from saythesum.sound.room_noise import TEN_SECONDS, RoomState, judged
from saythesum.speaking.voice import ToolVoice

PLAYING_S = 15
MOST_READS = 110
"""A read waits half a second at most and gives a block of 100 ms."""
ROOM_WORDS = {
    RoomState.QUIET_ENOUGH: "works; the room is quiet enough for the microphone.",
    RoomState.TOO_MUCH_TALKING: "works, but there is too much talking: use keys today, or the ear that opens by key.",
    RoomState.SILENT_MICROPHONE: "gives nothing but silence: is it switched off, or muted in the computer's settings?",
    RoomState.HUM: "hums: try another socket, or run the laptop from its battery.",
    RoomState.CLIPPING: "is too loud: turn its level down in the computer's settings, or move it away from the mouth.",
}


def loudspeaker_works(own: Places, settings: Settings) -> str:
    portaudio = load_portaudio()
    device = chosen(portaudio.devices(), Direction.OUT, settings.sound.loudspeaker)
    voice = ToolVoice(settings.speech, own.cache)
    news: SimpleQueue[Over | DeviceNews] = SimpleQueue()
    loudspeaker = PortAudioLoudspeaker(portaudio, device, clock=RealClock(), post=news.put, only_this=True)
    try:
        loudspeaker.play(OwnSound(1), voice.render("This is how I sound."))
        came = news.get(timeout=PLAYING_S)
    except Empty:
        raise DeviceError(f'"{device.name}" takes no sound; choose another loudspeaker in the settings.') from None
    finally:
        loudspeaker.close()
        voice.close()
    if not isinstance(came, Over):
        raise DeviceError(getattr(came, "sentence", f'"{device.name}" has gone.'))
    headset = "It seems to be a headset." if device.seems_headset else "It does not seem to be a headset."
    return f'"{device.name}" works, if you have just heard a sentence. {headset}'


def microphone_works(own: Places, settings: Settings) -> str:
    portaudio = load_portaudio()
    device = chosen(portaudio.devices(), Direction.IN, settings.sound.microphone)
    show(f'Microphone: "{device.name}" listens to the room for ten seconds.')
    news: SimpleQueue[Over | DeviceNews] = SimpleQueue()
    microphone = PortAudioMicrophone(portaudio, device, clock=RealClock(), post=news.put, only_this=True)
    try:
        samples = _ten_seconds(microphone)
    finally:
        microphone.close()
    if not news.empty():
        raise DeviceError(getattr(news.get(), "sentence", f'"{device.name}" has gone.'))
    activity = VoiceActivity()
    return ROOM_WORDS[judged(samples, activity.probability).state]


def _ten_seconds(microphone: Microphone) -> Samples:
    """What comes in eleven seconds at most; less where the device gives less."""
    pieces: list[Samples] = []
    for _ in range(MOST_READS):
        pieces.append(microphone.read().samples)
        if sum(map(len, pieces)) >= TEN_SECONDS:
            break
    return np.concatenate(pieces)[:TEN_SECONDS]
