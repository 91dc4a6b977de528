"""Behaves like the module sounddevice with one loudspeaker, whose time passes when the test takes its sound."""

from collections.abc import Callable
from dataclasses import dataclass
from threading import Event, Lock
from typing import Any

import numpy as np

from tests.fakes.clock import FakeClock

NAME, HOST, RATE_HZ = "Ferry loudspeaker", "Made up", 22_050


@dataclass(frozen=True, slots=True)
class _Times:
    outputBufferDacTime: float  # noqa: N815 - sounddevice's own name
    currentTime: float  # noqa: N815


class OneLoudspeaker:
    class PortAudioError(Exception):
        pass

    def __init__(self, clock: FakeClock) -> None:
        self._clock = clock
        self._callback: Callable[..., None] | None = None
        self._opened, self._lock = Event(), Lock()
        self._block = 0
        self.active = False

    def take_block(self) -> None:
        """What it is given next is heard at once; then as much time has passed."""
        assert self._opened.wait(30), "nobody opens the loudspeaker"
        assert self._callback
        with self._lock:
            if self.active:
                self._callback(np.zeros((self._block, 1), np.int16), self._block, _Times(100.0, 100.0), None)
        self._clock.pass_ms(self._block * 1000 // RATE_HZ)

    # ---- what is used of sounddevice

    def query_hostapis(self) -> tuple[dict[str, Any], ...]:
        return ({"name": HOST},)

    def query_devices(self, kind: str | None = None) -> Any:
        device = {
            "index": 0,
            "name": NAME,
            "hostapi": 0,
            "max_input_channels": 0,
            "max_output_channels": 1,
            "default_samplerate": RATE_HZ,
        }
        if kind == "input":
            raise self.PortAudioError("Error querying device -1")
        return device if kind else [device]

    def OutputStream(self, **wanted: Any) -> "OneLoudspeaker":  # noqa: N802
        self._callback, self._block = wanted["callback"], wanted["blocksize"]
        return self

    latency = 0.1

    def start(self) -> None:
        self.active = True
        self._opened.set()

    def abort(self, *, ignore_errors: bool = True) -> None:
        with self._lock:
            self.active = False

    def close(self, *, ignore_errors: bool = True) -> None:
        self.abort()
