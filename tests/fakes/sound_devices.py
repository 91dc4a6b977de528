"""A loudspeaker and a microphone without a device: what is played is noted, what is heard is fed by the test."""

from collections.abc import Callable
from queue import Empty, SimpleQueue

import numpy as np

from saythesum.ports import BETWEEN_SOUNDS_MS, Captured, Over, Samples, Sound, SoundId


class NotedLoudspeaker:
    """Sounds are over when the test says so, or when they are cut."""

    def __init__(self, post: Callable[[Over], None]) -> None:
        self.played: list[tuple[SoundId, Sound]] = []
        self._post = post
        self._playing: SimpleQueue[SoundId] = SimpleQueue()

    def play(self, id: SoundId, sound: Sound, *, after_ms: int = BETWEEN_SOUNDS_MS) -> None:
        self.played.append((id, sound))
        self._playing.put(id)

    def cut(self) -> None:
        while not self._playing.empty():
            self._post(Over(self._playing.get(), 0, 0))

    def close(self) -> None:
        self.cut()

    def finish(self) -> SoundId:
        """The next sound is over; waits until one was asked for."""
        id = self._playing.get(timeout=30)
        self._post(Over(id, 0))
        return id


class FedMicrophone:
    """Gives what it was fed, block by block."""

    def __init__(self) -> None:
        self._blocks: SimpleQueue[Captured] = SimpleQueue()
        self._end_sample = 0

    def feed(self, at_sample: int, samples: Samples) -> None:
        self._blocks.put(Captured(at_sample, samples))

    def read(self, timeout_s: float = 0.02) -> Captured:
        try:
            captured = self._blocks.get(timeout=timeout_s)
        except Empty:
            return Captured(self._end_sample, np.zeros(0, np.float32))
        self._end_sample = captured.end_sample
        return captured

    def close(self) -> None:
        pass
