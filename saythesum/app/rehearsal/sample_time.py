"""A practice in the time of its own sound: no device, faster than real; speech queue, ear, gate and dialogue are those
of a live practice.

The tool's voice goes on one track and the pupil's on the other; the ear hears the pupil's track, and the tool's as far
as the loudspeaker reaches the microphone.
"""

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from saythesum.app.rehearsal.computed_sound import (
    SampleClock,
    Track,
    TrackListener,
    TrackLoudspeaker,
    TrackMouth,
    samples_of,
)
from saythesum.app.rehearsal.speaking_pupil import Saying
from saythesum.app.session.runner import Runner
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.effects import Listen
from saythesum.dialogue.turns.events import Began, Event, ListenId
from saythesum.errors import SayTheSumError
from saythesum.hearing.ear import Ear
from saythesum.ports import Captured, Over, PacedVoice, Samples

BLOCK_SAMPLES = 512
ROOM_NOISE = 1e-4
"""A quiet room, so that the ear is not given digital silence, which no microphone has."""
LONGEST_MS = 4 * 60 * 60 * 1000
"""A rehearsal that has not ended by then never will."""


@dataclass(frozen=True, slots=True)
class Room:
    """How the tool is heard, and how it hears itself."""

    has_headset: bool = True
    leak: float = 0.0
    """The share of the tool's voice that is in the microphone."""
    echo_ms: int = 0
    """How long after the tool has spoken its voice may still be heard."""
    has_cues: bool = True


class SampleTime:
    """Drives a `SpeechQueue` with computed sound, and lets time pass."""

    def __init__(
        self,
        voice: PacedVoice,
        ear: Callable[[Callable[[Event], None]], Ear],
        pupil_says: Callable[[State], Saying],
        pupil_voice: Callable[[str], Samples],
        room: Room,
    ) -> None:
        """`pupil_voice` gives mono float32 at LISTENING_RATE_HZ."""
        self.clock = SampleClock()
        self.tool, self.pupil = Track(), Track()
        self._room, self._pupil_says, self._pupil_voice = room, pupil_says, pupil_voice
        self._happened: deque[Over | Event] = deque()
        self._loudspeaker = TrackLoudspeaker(self.tool, self.clock, self._happened.append)
        self._listener = TrackListener(ear(self._happened.append), self.clock, self._ear_open)
        self.queue = SpeechQueue(
            clock=self.clock,
            mouth=TrackMouth(voice, self._loudspeaker),
            listener=self._listener,
            post=self._happened.append,
            write=lambda _: None,
            one_by_one=not room.has_headset,
            has_cues=room.has_cues,
            echo_ms=room.echo_ms,
        )
        self._answered: ListenId | None = None
        self._noise = np.random.default_rng(0)

    def connect(self, runner: Runner) -> None:
        """`runner` has this one's queue for its outlets."""
        self.runner = runner
        self.queue.to_dialogue = runner.post

    def run(self) -> None:
        """From the beginning to the end of the practice."""
        self.runner.post(Began(0))
        while not self.runner.finished:
            if self.clock.since_start_ms() > LONGEST_MS:
                raise SayTheSumError("The rehearsal did not come to an end in four hours of its own time.")
            self.pass_block()

    def pass_block(self) -> None:
        begin, end = self.clock.samples, self.clock.samples + BLOCK_SAMPLES
        self._take_what_happened()
        while not self.runner.finished and (due := self._next_due()) is not None and due < end:
            self.clock.samples = max(self.clock.samples, due)
            self._loudspeaker.report_over()
            self._take_what_happened()
            self.queue.ring()
            self._take_what_happened()
        self.clock.samples = end
        self._sound_reaches_the_ear(begin, end)
        self._take_what_happened()

    def _next_due(self) -> int | None:
        """When the next sound, or the wait that is set, is over."""
        timer = self.queue.timer
        times = (self._loudspeaker.next_over, None if timer is None else samples_of(timer.at_ms))
        return min((time for time in times if time is not None), default=None)

    def _take_what_happened(self) -> None:
        while self._happened and not self.runner.finished:
            match self._happened.popleft():
                case Over() as over:
                    self.queue.sound_over(over)
                case event:
                    self.queue.happened(event)

    @property
    def lines(self) -> list[str]:
        """The transcript: what has been begun to be said, in the order in which it was."""
        said = [(piece.at, f"Tool:  {piece.text}") for piece in self.tool.pieces if piece.text]
        said += [(piece.at, f"Pupil: {piece.text}") for piece in self.pupil.pieces if piece.text]
        return [line for at, line in sorted(said, key=lambda one: one[0]) if at <= self.clock.samples]

    # ---- the pupil, and the room

    def _ear_open(self, listen: Listen) -> None:
        """The pupil speaks once each time the tool waits for an answer, and lets it finish what it is saying."""
        if listen.is_between or listen.id == self._answered:
            return
        self._answered = listen.id
        at = max(self.clock.samples, self.tool.end)
        for utterance in self._pupil_says(self.runner.state):
            voice = self._pupil_voice(utterance.text)
            at = self.pupil.lay(at + samples_of(utterance.after_ms), voice, utterance.text).end

    def _sound_reaches_the_ear(self, begin: int, end: int) -> None:
        """Room noise and echo are made for an open ear only: whatever else sounds would be forgotten."""
        if not self._listener.is_open or self.runner.finished:
            return self._listener.pass_over(end)
        heard = self.pupil.between(begin, end) + self._room.leak * self.tool.between(begin, end)
        heard += self._noise.standard_normal(end - begin, np.float32) * ROOM_NOISE
        self._listener.hear(Captured(begin, heard))
