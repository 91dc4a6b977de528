"""A loudspeaker and a microphone without a device: what is played is noted, what is heard is fed by the test."""

from collections.abc import Callable
from queue import Empty, SimpleQueue

import numpy as np

from saythesum.ports import Samples, Sound
from saythesum.sound.device_events import Over
from saythesum.sound.loudspeaker import BETWEEN_MS, Loudspeaker
from saythesum.sound.microphone import Captured, Microphone


class NotedLoudspeaker(Loudspeaker):
    """Sounds are over when the test says so, or when they are cut."""

    def __init__(self, post: Callable[[Over], None]) -> None:
        self.played: list[tuple[int, Sound]] = []
        self._posts = post
        self._playing: SimpleQueue[int] = SimpleQueue()

    def play(self, id: int, sound: Sound, *, after_ms: int = BETWEEN_MS) -> None:
        self.played.append((id, sound))
        self._playing.put(id)

    def cut(self) -> None:
        while not self._playing.empty():
            self._posts(Over(self._playing.get(), 0, 10))

    def close(self) -> None:
        self.cut()

    def finish(self) -> int:
        """The next sound is over; waits until one was asked for."""
        id = self._playing.get(timeout=30)
        self._posts(Over(id, 0))
        return id


class FedMicrophone(Microphone):
    """Gives what it was fed, block by block."""

    def __init__(self) -> None:
        self._blocks: SimpleQueue[Captured] = SimpleQueue()

    def feed(self, at_sample: int, samples: Samples) -> None:
        self._blocks.put(Captured(at_sample, samples))

    def read(self, timeout_s: float = 0.02) -> Captured:
        try:
            return self._blocks.get(timeout=timeout_s)
        except Empty:
            return Captured(0, np.zeros(0, np.float32))
