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
    """Its last frame of speech so far."""
    _next: int = 0
    _run: int = 0

    def feed(self, probability: float) -> Change | None:
        frame, self._next = self._next, self._next + 1
        if self.began is None:
            return self._before(frame, probability)
        if probability >= HOLD_AT:
            was_paused = frame - self.last_speech > PAUSED_AFTER_FRAMES
            self.last_speech = frame
            return Change.RESUMED if was_paused else None
        silent_frames = frame - self.last_speech
        if silent_frames >= OVER_AFTER_FRAMES:
            self.cut()
            return Change.OVER
        return Change.PAUSED if silent_frames == PAUSED_AFTER_FRAMES else None

    def cut(self) -> None:
        """The stretch ends here, whatever is heard."""
        self.began, self._run = None, 0

    def _before(self, frame: int, probability: float) -> Change | None:
        """A stretch begins when enough frames in a row are speech, the first of them clearly."""
        self._run = self._run + 1 if probability >= (HOLD_AT if self._run else OPEN_AT) else 0
        if self._run < FEWEST_FRAMES:
            return None
        self.began, self.last_speech = frame - FEWEST_FRAMES + 1, frame
        return Change.BEGAN
