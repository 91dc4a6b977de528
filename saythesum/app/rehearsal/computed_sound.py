"""Loudspeaker, mouth and ear in the time of the sound itself: no device, no thread, and nobody waits."""

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import numpy as np

from saythesum.app.session.speech.line_sound import line_sound
from saythesum.app.session.speech.listener import GatedEar, opening
from saythesum.app.session.speech.mouth import BEFORE_CUE_MS, cue_sounds
from saythesum.dialogue.turns.effects import Listen
from saythesum.hearing.ear import Ear
from saythesum.ports import (
    BETWEEN_SOUNDS_MS,
    LISTENING_RATE_HZ,
    Captured,
    Over,
    OwnSound,
    PacedVoice,
    Samples,
    Sound,
    SoundId,
)
from saythesum.sound.resample import for_listening


class SampleClock:
    """Counts samples at LISTENING_RATE_HZ; the code that drives the rehearsal moves it on."""

    def __init__(self) -> None:
        self.samples = 0
        self._began = datetime.now(UTC)  # noqa: TID251

    def now(self) -> datetime:
        return self._began + timedelta(milliseconds=self.since_start_ms())

    def since_start_ms(self) -> int:
        return ms_of(self.samples)


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    at: int
    """Its first sample, counted from the start of the run."""
    samples: Samples
    text: str = ""
    """What is said in it; "" for a cue, or a noise."""

    @property
    def end(self) -> int:
        return self.at + len(self.samples)


@dataclass
class Track:
    """Sound laid down at places in time, in order."""

    pieces: list[Piece] = field(default_factory=list)

    def lay(self, at: int, samples: Samples, text: str = "") -> Piece:
        piece = Piece(at, samples, text)
        self.pieces.append(piece)
        return piece

    def cut(self, at: int) -> None:
        """Nothing of it sounds from `at` on."""
        self.pieces = [Piece(one.at, one.samples[: at - one.at], one.text) for one in self.pieces if one.at < at]

    def between(self, begin: int, end: int) -> Samples:
        out = np.zeros(end - begin, np.float32)
        for piece in reversed(self.pieces):
            if piece.end <= begin:
                break  # all before it are over as well
            low, high = max(begin, piece.at), min(end, piece.end)
            if low < high:
                out[low - begin : high - begin] += piece.samples[low - piece.at : high - piece.at]
        return out

    @property
    def end(self) -> int:
        return max((piece.end for piece in self.pieces), default=0)


class TrackLoudspeaker:
    """A `Loudspeaker` that plays onto a track."""

    def __init__(self, track: Track, clock: SampleClock, post: Callable[[Over], None]) -> None:
        self._track, self._clock, self._post = track, clock, post
        self._laid: deque[tuple[SoundId, Piece]] = deque()
        """Not over yet."""
        self._last_end: int | None = None
        """Of what was laid last, unless that was cut."""

    def play(self, id: SoundId, sound: Sound, *, after_ms: int = BETWEEN_SOUNDS_MS, text: str = "") -> None:
        """`text`: what is said in it, for the transcript."""
        begin = self._clock.samples
        if self._last_end is not None:
            begin = max(begin, self._last_end + samples_of(after_ms))
        piece = self._track.lay(begin, for_listening(sound), text)
        self._last_end = piece.end
        self._laid.append((id, piece))

    def cut(self) -> None:
        self.report_over()
        now = self._clock.samples
        cut = tuple(self._laid)
        self._laid.clear()
        if cut:
            self._last_end = None
            self._track.cut(now)
        for id, piece in cut:
            self._post(Over(id, ms_of(now), cut_ms=ms_of(max(0, now - piece.at))))

    def close(self) -> None:
        self.cut()

    @property
    def next_over(self) -> int | None:
        """The sample at which the next sound is over, as far as is known."""
        return self._laid[0][1].end if self._laid else None

    def report_over(self) -> None:
        """Posts what is over by now."""
        while self._laid and self._laid[0][1].end <= self._clock.samples:
            id, piece = self._laid.popleft()
            self._post(Over(id, ms_of(piece.end)))


class TrackMouth:
    """A `Mouth` that renders at once."""

    def __init__(self, voice: PacedVoice, loudspeaker: TrackLoudspeaker) -> None:
        self._voice, self._loudspeaker = voice, loudspeaker
        self._cues = cue_sounds()

    def prepare(self, text: str) -> None:
        """Rendering takes none of the samples' time."""

    def say(self, id: SoundId, text: str) -> None:
        self._loudspeaker.play(id, self._voice.render(text), text=text)

    def cue(self, id: OwnSound, name: str) -> None:
        sound = self._cues.get(name) or line_sound(name) or Sound(np.zeros(0, np.float32), LISTENING_RATE_HZ)
        self._loudspeaker.play(id, sound, after_ms=BEFORE_CUE_MS)

    def cut(self) -> None:
        self._loudspeaker.cut()

    def slow_down(self) -> None:
        self._voice.slow_down()


class TrackListener:
    """A `Listener` that gets its sound from the code that drives the rehearsal."""

    is_ready = True

    def __init__(self, ear: Ear, clock: SampleClock, when_open: Callable[[Listen], None]) -> None:
        """`when_open` is called at each opening."""
        self._gate, self._clock, self._when_open = GatedEar(ear), clock, when_open
        self.heard_until_ms = 0

    @property
    def is_open(self) -> bool:
        return self._gate.is_open

    def open(self, listen: Listen, now_ms: int, *, silent_from_ms: int = 0) -> None:
        self._gate.open(opening(listen, now_ms, silent_from_ms))
        self._when_open(listen)

    def shut(self) -> None:
        self._gate.shut()

    def close(self) -> None:
        self.shut()

    def hear(self, heard: Captured) -> None:
        self._gate.hear(heard)
        self.pass_over(heard.end_sample)

    def pass_over(self, to_sample: int) -> None:
        """Up to there nothing is to be heard."""
        self.heard_until_ms = ms_of(to_sample)


def samples_of(ms: int) -> int:
    return ms * LISTENING_RATE_HZ // 1000


def ms_of(samples: int) -> int:
    return samples * 1000 // LISTENING_RATE_HZ
