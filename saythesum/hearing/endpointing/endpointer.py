"""Where speech starts and ends: a pure counter over one probability a frame."""

from dataclasses import dataclass
from enum import Enum, auto

FRAME_SAMPLES = 512
FRAME_MS = 32

OPEN_AT = 0.3
HOLD_AT = 0.15
FEWEST_FRAMES = 3
"""Measured on 1,000 recorded numbers with a hangover of 320 ms: 997 are one stretch and 3 none;
opening at 0.5 and holding at 0.35 loses 17."""
PAUSED_AFTER_FRAMES = 7
"""The first whole frame past 200 ms of silence: time to decode what was said so far."""
OVER_AFTER_FRAMES = 10
"""320 ms of silence. The longest gap measured inside a number is 224 ms."""


LONGEST_OPENING_FRAMES = FEWEST_FRAMES + (FEWEST_FRAMES - 1) * (PAUSED_AFTER_FRAMES - 1)
"""How far back the first frame of speech can lie when a stretch begins."""


class Change(Enum):
    BEGAN = auto()
    PAUSED = auto()
    """200 ms of silence: it may be all."""
    RESUMED = auto()
    """It was not: the same stretch goes on."""
    OVER = auto()
    """320 ms of silence, after PAUSED: what comes now is a new stretch."""


@dataclass(slots=True)
class SpeechEnds:
    """Fed frame after frame; frames count from 0."""

    began: int | None = None
    """The first frame of the stretch of speech that is going on."""
    last_speech: int = 0
    """The last frame of speech so far."""
    _next: int = 0
    _opened: int = 0
    _speech_frames: int = 0
    """Since `_opened`, where a stretch may be about to begin."""

    def feed(self, probability: float) -> Change | None:
        frame, self._next = self._next, self._next + 1
        if self.began is None:
            return self._before(frame, probability)
        silent_frames = frame - self.last_speech
        if probability >= HOLD_AT:
            self.last_speech = frame
            return Change.RESUMED if silent_frames > PAUSED_AFTER_FRAMES else None
        if silent_frames >= OVER_AFTER_FRAMES:
            self.cut()
            return Change.OVER
        return Change.PAUSED if silent_frames == PAUSED_AFTER_FRAMES else None

    @property
    def is_maybe_on(self) -> bool:
        """Somebody speaks, or the next frames may show that somebody began to."""
        return self.began is not None or (
            self._speech_frames > 0 and self._next - self.last_speech <= PAUSED_AFTER_FRAMES
        )

    def cut(self) -> None:
        """The stretch ends here, whatever is heard."""
        self.began, self._speech_frames = None, 0

    def _before(self, frame: int, probability: float) -> Change | None:
        """A stretch begins when there were enough frames of speech near each other, the first of them clearly."""
        if self._speech_frames and frame - self.last_speech >= PAUSED_AFTER_FRAMES:
            self._speech_frames = 0
        if probability < (HOLD_AT if self._speech_frames else OPEN_AT):
            return None
        if not self._speech_frames:
            self._opened = frame
        self._speech_frames += 1
        self.last_speech = frame
        if self._speech_frames < FEWEST_FRAMES:
            return None
        self.began = self._opened
        return Change.BEGAN
