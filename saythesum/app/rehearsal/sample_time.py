"""A practice in the time of its own sound: no device, faster than real, the same ear, gate and dialogue.

The tool's voice goes on one track and the pupil's on the other; the ear hears the pupil's track, and the tool's as far
as the loudspeaker reaches the microphone.
"""

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import numpy as np

from saythesum.app.rehearsal.speaking_pupil import Saying
from saythesum.app.session.runner import Runner
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.effects import Listen, Wake
from saythesum.dialogue.turns.events import Began, Event, ListenId, NobodySpoke, Said, UtteranceId, Woke
from saythesum.errors import SayTheSumError
from saythesum.hearing.ear import Ear
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.sound.resample import for_listening
from saythesum.speaking.voice import ToolVoice

BLOCK_SAMPLES = 512
BETWEEN_UTTERANCES_MS = 250
ROOM_NOISE = 1e-4
"""A quiet room, so that the ear is not given digital silence, which no microphone has."""
LONGEST_MS = 4 * 60 * 60 * 1000
"""A rehearsal that has not ended by then never will."""


class SampleClock:
    def __init__(self) -> None:
        self.samples = 0
        self._began = datetime.now(UTC)  # noqa: TID251

    def now(self) -> datetime:
        return self._began + timedelta(milliseconds=self.since_start_ms())

    def since_start_ms(self) -> int:
        return self.samples * 1000 // LISTENING_RATE_HZ


@dataclass
class Track:
    """Sound laid down at places in time."""

    pieces: list[tuple[int, Samples]] = field(default_factory=list)

    def lay(self, at: int, samples: Samples) -> int:
        """The sample after its end."""
        self.pieces.append((at, samples))
        return at + len(samples)

    def cut(self, at: int) -> None:
        """Nothing of it sounds from `at` on."""
        self.pieces = [(begin, samples[: at - begin]) for begin, samples in self.pieces if begin < at]

    def between(self, begin: int, end: int) -> Samples:
        out = np.zeros(end - begin, np.float32)
        for at, samples in reversed(self.pieces):
            if at + len(samples) <= begin:
                break  # laid down in order: all before it are over as well
            low, high = max(begin, at), min(end, at + len(samples))
            if low < high:
                out[low - begin : high - begin] += samples[low - at : high - at]
        return out

    @property
    def end(self) -> int:
        return max((at + len(samples) for at, samples in self.pieces), default=0)


class SampleTime:
    """Outlets for `Runner`, and the loop that lets time pass."""

    runner: Runner

    def __init__(
        self,
        voice: ToolVoice,
        ear: Callable[[Callable[[Event], None]], Ear],
        pupil_says: Callable[[State], Saying],
        pupil_voice: Callable[[str], Samples],
        *,
        leak: float = 0.0,
        echo_ms: int = 0,
    ) -> None:
        """`pupil_voice` gives mono float32 at LISTENING_RATE_HZ. `leak`: the share of the tool's voice that is in the
        microphone, 0 as with a headset; `echo_ms`: how long the ear waits after it.
        """
        self.clock = SampleClock()
        self.tool, self.pupil = Track(), Track()
        self.lines: list[str] = []
        """The transcript."""
        self._leak, self._echo = leak, _samples(echo_ms)
        self._voice, self._pupil_says, self._pupil_voice = voice, pupil_says, pupil_voice
        self._ear = ear(self._post)
        self._to_say: deque[tuple[UtteranceId, str]] = deque()
        """One is said after the other: the ear may be open between."""
        self._pause: ListenId | None = None
        """The ear is open between two sentences."""
        self._due: list[tuple[int, Event]] = []
        self._timer: tuple[int, Event] | None = None
        self._listening_from: int | None = None
        """The first sample that the open ear has not heard yet."""
        self._noise = np.random.default_rng(0)

    # ---- outlets

    def say(self, id: UtteranceId, text: str) -> None:
        self._to_say.append((id, text))
        if not any(isinstance(event, Said) for _, event in self._due):
            self._go_on()

    def _go_on(self) -> None:
        if self._pause is None and self._to_say:
            self.begin_saying(*self._to_say.popleft())

    def begin_saying(self, id: UtteranceId, text: str) -> None:
        begin = max(self.clock.samples, self.tool.end + _samples(BETWEEN_UTTERANCES_MS) * bool(self.tool.pieces))
        end = self.tool.lay(begin, for_listening(self._voice.render(text)))
        self.lines.append(f"Tool:  {text}")
        self._due.append((end, Said(id, _ms(end))))

    def cue(self, name: str) -> None:
        pass

    def hush(self) -> None:
        self.tool.cut(self.clock.samples)
        cut = [event.id for _, event in self._due if isinstance(event, Said)] + [id for id, _ in self._to_say]
        self._due = [(at, event) for at, event in self._due if not isinstance(event, Said)]
        self._to_say.clear()
        self._pause = None
        for id in cut:
            self.runner.post(Said(id, self.runner.now_ms, cut_ms=0))

    def speak_slower(self) -> None:
        self._voice.slow_down()

    def listen(self, listen: Listen) -> None:
        at = self.clock.samples
        self._listening_from = at
        speech_from = at + self._echo
        until = None if listen.for_ms is None else speech_from + _samples(listen.for_ms)
        self._ear.open(listen.id, listen.awaiting, at, speech_from=speech_from, until=until)
        self._pause = listen.id if listen.is_between else None
        if listen.is_between:
            return
        for utterance in self._pupil_says(self.runner.state):
            at = self.pupil.lay(at + _samples(utterance.after_ms), self._pupil_voice(utterance.text))
            self.lines.append(f"Pupil: {utterance.text}")

    def shut_ear(self) -> None:
        self._ear.shut()
        self._listening_from = None

    def wake(self, wake: Wake, since_ms: int) -> None:
        at = _samples(since_ms + wake.after_ms)
        self._timer = (at, Woke(wake.id, _ms(at)))

    # ---- time

    def run(self) -> None:
        """From the beginning to the end of the practice."""
        self.runner.post(Began(0))
        while not self.runner.finished:
            if self.clock.since_start_ms() > LONGEST_MS:
                raise SayTheSumError("The rehearsal did not come to an end in four hours of its own time.")
            self._pass_block()

    def _pass_block(self) -> None:
        end = self.clock.samples + BLOCK_SAMPLES
        while not self.runner.finished and (event := self._next_due(end)):
            self.runner.post(event)
            if isinstance(event, Said):
                self._go_on()
        self.clock.samples = end
        if self._listening_from is not None and not self.runner.finished:
            begin, self._listening_from = self._listening_from, end
            heard = self.pupil.between(begin, end) + self._leak * self.tool.between(begin, end)
            heard += self._noise.standard_normal(end - begin, np.float32) * ROOM_NOISE
            self._ear.feed(heard, begin)
            self._ear.pass_time(end)

    def _next_due(self, end: int) -> Event | None:
        """The next event before `end`; the clock stands at its moment while it is handled."""
        waiting = [*self._due, *([self._timer] if self._timer else [])]
        due = min((item for item in waiting if item[0] < end), key=lambda item: item[0], default=None)
        if due is None:
            return None
        if due is self._timer:
            self._timer = None
        else:
            self._due.remove(due)
        self.clock.samples = max(self.clock.samples, due[0])
        return due[1]

    def _post(self, event: Event) -> None:
        self.runner.post(event)
        if isinstance(event, NobodySpoke) and event.listen == self._pause:
            self._pause = self._listening_from = None
            self._go_on()


def _samples(ms: int) -> int:
    return ms * LISTENING_RATE_HZ // 1000


def _ms(samples: int) -> int:
    return samples * 1000 // LISTENING_RATE_HZ
