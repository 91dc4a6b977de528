"""Practising on real devices: by voice where there is a microphone, and by keys always."""

from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from threading import Thread
from typing import TextIO

from saythesum.app.by_keys import TypedLine, write
from saythesum.app.inbox import Inbox
from saythesum.app.listener import Listener
from saythesum.app.live import Live
from saythesum.app.live_outlets import LiveOutlets
from saythesum.app.mouth import Mouth
from saythesum.app.opening import Setup, Wish, own_setup, practice
from saythesum.app.telling import tell
from saythesum.app.terminal import keys_from
from saythesum.app.tool_voice import ToolVoice
from saythesum.dialogue.effects import Ear
from saythesum.dialogue.events import InputEnded
from saythesum.dialogue.keys import Pressed
from saythesum.errors import DeviceError
from saythesum.hearing.engines import recogniser
from saythesum.ports import Clock
from saythesum.settings import Settings
from saythesum.sound.capturing import Microphone
from saythesum.sound.devices import Device, Direction, chosen
from saythesum.sound.playing import Loudspeaker
from saythesum.sound.portaudio import PortAudio, load_portaudio


@dataclass(frozen=True, slots=True)
class Devices:
    """What was found. Without a microphone the practice is by keys."""

    portaudio: PortAudio
    loudspeaker: Device
    microphone: Device | None
    has_headset: bool


def found_devices(settings: Settings, *, by_voice: bool) -> Devices:
    """Raises DeviceError where nothing can be heard; a missing microphone is told, and keys go on."""
    portaudio = load_portaudio()
    devices = portaudio.devices()
    loudspeaker = chosen(devices, Direction.OUT, settings.sound.loudspeaker)
    microphone = None
    if by_voice:
        try:
            microphone = chosen(devices, Direction.IN, settings.sound.microphone)
        except DeviceError as error:
            tell(str(error))
    has_headset = loudspeaker.seems_headset if settings.sound.headset is None else settings.sound.headset
    return Devices(portaudio, loudspeaker, microphone, has_headset)


def ear_kind(settings: Settings, devices: Devices, wanted: str | None) -> Ear:
    """Unless chosen: open with a headset, press without one. A room full of voices is the normal case."""
    if devices.microphone is None:
        return Ear.KEYS
    kind = wanted or settings.listening.ear or ("open" if devices.has_headset else "press")
    return Ear(kind)


def practise_live(wish: Wish, *, by_voice: bool, ear: str | None, stdin: TextIO | None) -> None:
    """Raises DeviceError where there is nothing to hear the tool with."""
    setup = own_setup()
    settings = setup.settings
    devices = found_devices(settings, by_voice=by_voice)
    inbox, line = Inbox(), TypedLine(write)
    with ExitStack() as stack:
        mouth, listener = stack.enter_context(_sounding(devices, setup, inbox))
        outlets = LiveOutlets(
            clock=setup.clock, mouth=mouth, listener=listener, has_cues=settings.sound.cues, show=line.show
        )
        runner = stack.enter_context(practice(wish, setup, ear_kind(settings, devices, ear), outlets))
        live = Live(runner, outlets, inbox, line, speaks_keys=not settings.window.screen_reader)
        if stdin is not None and stdin.isatty():
            presses = stack.enter_context(keys_from(stdin, setup.clock.since_start_ms))
            Thread(target=_pass_on, args=(presses, inbox, setup.clock), name="keys", daemon=True).start()
        live.run()


@contextmanager
def _sounding(devices: Devices, setup: Setup, inbox: Inbox) -> Iterator[tuple[Mouth, Listener | None]]:
    """Mouth and ear, closed in the opposite order."""
    sound, clock = devices.portaudio, setup.clock
    with ExitStack() as stack:
        voice = ToolVoice(setup.settings.speech, setup.places.cache)
        loudspeaker = Loudspeaker(
            sound, devices.loudspeaker, clock=clock, post=inbox.post, only_this=devices.has_headset
        )
        stack.callback(loudspeaker.close)
        mouth = Mouth(voice, loudspeaker, clock=clock, post=inbox.post)
        stack.callback(mouth.close)
        if devices.microphone is None:
            yield mouth, None
            return
        microphone = Microphone(sound, devices.microphone, clock=clock, post=inbox.post, only_this=devices.has_headset)
        stack.callback(microphone.close)
        engine, models = setup.settings.listening.engine, setup.places.models
        listener = Listener(microphone, lambda: recogniser(engine, models), post=inbox.post)
        stack.callback(listener.close)
        yield mouth, listener


def _pass_on(presses: Iterable[Pressed], inbox: Inbox, clock: Clock) -> None:
    """The terminal's keys, until its input ends."""
    for press in presses:
        inbox.post(press)
    inbox.post(InputEnded(clock.since_start_ms()))
