"""`python -m saythesum.app.session.beside.voice_process CODE`: says the adult's list on the adult's own loudspeaker.

Standard input has a line of JSON for each list, with the sentences to be said, which cut those before them; an empty
one only cuts. Its end is the end. A sentence about trouble goes to standard output.
"""

import json
import os
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory

from saythesum.app.session.practice import setup_for
from saythesum.app.session.speech.mouth import Mouth, VoiceLost
from saythesum.errors import DeviceError, SayTheSumError
from saythesum.ports import Over, OwnSound
from saythesum.settings import SoundDevices
from saythesum.sound.device_events import DeviceNews, LoudspeakerLost
from saythesum.sound.devices import Device, Direction, chosen
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.portaudio import PortAudio, load_portaudio
from saythesum.sound.pulseaudio import sink_called, sinks_of
from saythesum.speaking.voice import ToolVoice

PRIVATE_SINK = "saythesum-adult"
SAME = "The adult's loudspeaker is the one that the pupil hears, so nothing of the adult's list is said there."


def main(pupil: str) -> None:
    try:
        with _mouth(pupil) as (mouth, sink):
            numbers = count()
            for line in sys.stdin:
                mouth.cut()
                sentences = json.loads(line)
                if sentences and sink and sink in sinks_of(os.getppid()):
                    _tell(SAME)
                    continue
                for sentence in sentences:
                    mouth.say(OwnSound(next(numbers)), sentence)
    except SayTheSumError as error:
        _tell(f"The adult's list is not said aloud: {error}")


@contextmanager
def _mouth(pupil: str) -> Iterator[tuple[Mouth, str | None]]:
    """With the sink that it is heard on, where a sound server has one of that name. Raises SayTheSumError."""
    setup = setup_for(pupil)
    sound = setup.settings.sound
    portaudio = load_portaudio()
    sink = sink_called(sound.adult_loudspeaker or "")
    if sink:
        os.environ["PULSE_SINK"] = sink
    with ExitStack() as stack:
        loudspeaker = PortAudioLoudspeaker(
            portaudio,
            _device(portaudio, sound, is_by_server=sink is not None),
            clock=setup.clock,
            post=_notice,
            only_this=True,
            private_sink=PRIVATE_SINK,
        )
        stack.callback(loudspeaker.close)
        speech = setup.settings.speech
        # The lines have answers in them, which are kept in the records alone.
        voice = ToolVoice(speech, Path(stack.enter_context(TemporaryDirectory(ignore_cleanup_errors=True))))
        mouth = Mouth(voice, loudspeaker, clock=setup.clock, post=_notice, volume=speech.volume_percent / 100)
        stack.callback(mouth.close)
        yield mouth, sink


def _device(portaudio: PortAudio, sound: SoundDevices, *, is_by_server: bool) -> Device:
    """A sink of the sound server is reached through the default device. Raises DeviceError."""
    known = portaudio.devices()
    if is_by_server:
        return chosen(known, Direction.OUT, None)
    device = chosen(known, Direction.OUT, sound.adult_loudspeaker)
    if device.is_same(chosen(known, Direction.OUT, sound.loudspeaker)):
        raise DeviceError(SAME)
    return device


def _notice(news: Over | DeviceNews | VoiceLost) -> None:
    if isinstance(news, LoudspeakerLost | VoiceLost):
        _tell(f"The adult's list is not said aloud: {news.sentence}")


def _tell(sentence: str) -> None:
    sys.stdout.write(f"{sentence}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1])
