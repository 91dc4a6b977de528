"""A practice in sample time whose pupil, adult and room a test plays: the real ear, engine, gate, dialogue and voice.

Nothing sounds; time is counted in samples and passes as fast as the machine can.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.app.rehearsal.sample_time import Room, SampleTime
from saythesum.app.rehearsal.speaking_pupil import Utterance
from saythesum.app.session.log import Log
from saythesum.app.session.runner import Runner
from saythesum.core.grids.file_format import text_of
from saythesum.core.records.rows import HeardId
from saythesum.dialogue.step import State, opened
from saythesum.dialogue.turns.effects import Ear as EarKind
from saythesum.dialogue.turns.effects import OpenWhen
from saythesum.dialogue.turns.events import Began, Event, HeardSoFar
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress
from saythesum.hearing.ear import Ear
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.ports import LISTENING_RATE_HZ, Samples, StoredPractice
from saythesum.settings import Settings
from saythesum.sound.resample import for_listening
from saythesum.speaking.voice import ToolVoice
from saythesum.store.pupils import FIRST_PUPIL
from tests.fakes.store import MemoryStore

LONGEST_MS = 120_000


def recorded(text: str) -> Samples:
    """The made-up pupil saying it."""
    sound = pupil_phrase(text)
    assert sound, f"{text} was never recorded"
    return for_listening(sound)


QUIET_ROOM = Room()
"""With a headset the tool is never in its own microphone."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """What the tool said, and when it began to."""

    texts: list[str]
    at_samples: list[int]


class Practice(SampleTime):
    """`replies` has what the pupil says each time the ear opens, one after the other; then nothing more."""

    def __init__(
        self,
        voice: ToolVoice,
        replies: Iterator[tuple[Utterance, ...]],
        pupil_voice: Callable[[str], Samples] = recorded,
        engine: NeuralRecogniser | None = None,
        room: Room = QUIET_ROOM,
    ) -> None:
        self.engine = engine or NeuralRecogniser()
        self.heard_sounds: dict[HeardId, Samples] = {}
        """What the ear gave to the engine."""
        self.speech_ended_ms: int | None = None
        """Where the ear found the end of the last stretch of speech."""
        super().__init__(
            voice,
            self._ear_of,
            pupil_says=lambda _: next(replies, ()),
            pupil_voice=pupil_voice,
            room=room,
        )

    def _ear_of(self, post: Callable[[Event], None]) -> Ear:
        def noting(event: Event) -> None:
            if isinstance(event, HeardSoFar):
                self.speech_ended_ms = event.ended_ms
                self.heard_sounds[event.id] = self.engine.fed()
            post(event)

        return Ear(self.engine, noting)

    @property
    def spoken(self) -> Spoken:
        begun = [piece for piece in self.tool.pieces if piece.text and piece.at <= self.clock.samples]
        return Spoken([piece.text for piece in begun], [piece.at for piece in begun])

    @property
    def state(self) -> State:
        return self.runner.state

    def begin(self) -> None:
        self.runner.post(Began(0))

    def happen(self, event: Event) -> None:
        """Now, from outside: a key, say."""
        self.queue.happened(event)

    def overheard(self, sound: Samples, after_ms: int = 0) -> None:
        """Somebody speaks in the room."""
        self.pupil.lay(max(self.clock.samples, self.pupil.end) + after_ms * LISTENING_RATE_HZ // 1000, sound)

    def pass_until(self, is_over: Callable[[], bool]) -> None:
        end_ms = self.clock.since_start_ms() + LONGEST_MS
        while not self.runner.finished and not is_over():
            assert self.clock.since_start_ms() < end_ms, f"it did not come to that; said was {self.spoken.texts}"
            self.pass_block()

    def pass_ms(self, ms: int) -> None:
        end_ms = self.clock.since_start_ms() + ms
        self.pass_until(lambda: self.clock.since_start_ms() >= end_ms)

    def pass_until_listening(self) -> None:
        self.pass_until(lambda: self.is_listening)

    @property
    def is_listening(self) -> bool:
        return self._listener.is_open


def said_by_the_pupil(*replies: str) -> Iterator[tuple[Utterance, ...]]:
    """One utterance each time the ear opens; "" lets what was said back stand."""
    return iter([(Utterance(text, 700),) if text else () for text in replies])


@contextmanager
def tool_voice(cache: Path) -> Iterator[ToolVoice]:
    voice = ToolVoice(Settings().speech, cache)
    try:
        yield voice
    finally:
        voice.close()


def connected(
    practice: Practice,
    plan: Plan,
    write: Callable[[str], object] = lambda _: None,
    open_when: OpenWhen = OpenWhen.AFTER_SPEECH,
) -> Practice:
    """With a dialogue in the open ear, records in memory and the log."""
    stored = StoredPractice(plan.practice, FIRST_PUPIL, "", text_of(plan.activities[0].grid), 0, plan.settings, "")
    store = MemoryStore()
    store.begin(stored)
    state = opened(plan, Progress(), EarKind.OPEN, open_when=open_when)
    log = Log(write, plan.practice, clock=practice.clock)
    practice.connect(Runner(state, store=store, clock=practice.clock, outlets=practice.queue, log=log))
    return practice


def with_noise(sound: Samples, snr_db: float, seed: int) -> Samples:
    """In white noise, that many decibels below the sound."""
    dice = np.random.default_rng(seed)
    power = float(np.mean(np.square(sound))) / 10 ** (snr_db / 10)
    noisy: Samples = (sound + dice.standard_normal(len(sound), np.float32) * np.sqrt(power)).astype(np.float32)
    return noisy
