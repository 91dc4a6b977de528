"""Behaves like the module sounddevice with one microphone whose blocks the test gives, and may lose."""

from collections.abc import Callable
from dataclasses import dataclass
from threading import Event
from typing import Any

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.fakes.clock import FakeClock

NAME, HOST = "Ferry microphone", "Made up"
COMES_IN_AFTER_MS = 20
"""From the last sample of a block to the call with it."""


@dataclass(frozen=True, slots=True)
class _Times:
    inputBufferAdcTime: float  # noqa: N815 - sounddevice's own name
    currentTime: float  # noqa: N815


class OneMicrophone:
    class PortAudioError(Exception):
        pass

    def __init__(self, clock: FakeClock, *, tells_time: bool = True) -> None:
        self._clock, self._tells_time = clock, tells_time
        self._callback: Callable[..., None] | None = None
        self._opened = Event()
        self.blocksize = 0

    def give(self, block: Samples, ended_ms: int) -> None:
        """A block whose last sample was recorded at that moment of the run."""
        assert self._opened.wait(10), "nobody opens the microphone"
        assert self._callback
        now_ms = ended_ms + COMES_IN_AFTER_MS
        self._clock.pass_ms(now_ms - self._clock.since_start_ms())
        began_s = (ended_ms - len(block) * 1000 / LISTENING_RATE_HZ) / 1000
        times = _Times(100 + began_s, 100 + now_ms / 1000) if self._tells_time else _Times(0.0, 0.0)
        self._callback(np.round(block * 32_767).astype(np.int16)[:, None], len(block), times, None)

    # ---- what is used of sounddevice

    def query_hostapis(self) -> tuple[dict[str, Any], ...]:
        return ({"name": HOST},)

    def query_devices(self, kind: str | None = None) -> Any:
        device = {
            "index": 0,
            "name": NAME,
            "hostapi": 0,
            "max_input_channels": 1,
            "max_output_channels": 0,
            "default_samplerate": LISTENING_RATE_HZ,
        }
        if kind == "output":
            raise self.PortAudioError("Error querying device -1")
        return device if kind else [device]

    def InputStream(self, **wanted: Any) -> "OneMicrophone":  # noqa: N802
        self._callback, self.blocksize = wanted["callback"], wanted["blocksize"]
        return self

    active, latency = True, 0.05

    def start(self) -> None:
        self._opened.set()

    def close(self, *, ignore_errors: bool = True) -> None:
        self.active = False
