"""What a sink of the rig plays, recorded all the time, with the moments at which it was to be heard."""

import subprocess
from collections.abc import Mapping
from threading import Condition, Thread

import numpy as np

from saythesum.ports import Clock, Samples

RATE_HZ = 16_000
RECORDED_AS = "--raw --format=s16le --channels=1 --latency-msec=10 --process-time-msec=5"
SOUND_FROM = 0.01
"""-40 dB of full scale: a null sink plays exact zeros where there is silence."""


class Monitor:
    """Times are milliseconds of the clock. The recorder asks for 10 ms blocks, so a time may be late by that much."""

    def __init__(self, sink: str, environment: Mapping[str, str], clock: Clock) -> None:
        self._clock = clock
        self._pieces: list[Samples] = []
        self._count = 0
        self._began_ms = float("inf")
        """The clock at sample 0: the earliest that any block allows, as blocks come late but never early."""
        self._more = Condition()
        self._recorder = subprocess.Popen(
            ["parec", f"--device={sink}.monitor", f"--rate={RATE_HZ}", *RECORDED_AS.split()],
            env=dict(environment),
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        self._thread = Thread(target=self._record, daemon=True)
        self._thread.start()

    def close(self) -> None:
        self._recorder.kill()
        self._recorder.wait()
        self._thread.join()
        if self._recorder.stdout:
            self._recorder.stdout.close()

    def wait_until_on(self, within_ms: int = 5_000) -> None:
        """A new sink takes two seconds to the first block."""
        with self._more:
            assert self._more.wait_for(lambda: self._count, within_ms / 1000), "the recorder does not start"

    def wait_until_ms(self, moment_ms: float, within_ms: int = 5_000) -> None:
        """Until the recording has got there."""
        with self._more:
            assert self._more.wait_for(lambda: self._end_ms >= moment_ms, within_ms / 1000), (
                "the recording stands still"
            )

    def since(self, begin_ms: float) -> Samples:
        """From a moment to now."""
        with self._more:
            return self._from(begin_ms)

    def first_sound_ms(self, after_ms: float, *, within_ms: int = 5_000) -> float | None:
        """When something is heard after a moment; None when nothing is, for `within_ms` of the recording."""
        with self._more:
            self._more.wait_for(
                lambda: self._loud(after_ms).size or self._end_ms > after_ms + within_ms, within_ms / 500
            )
            loud = self._loud(after_ms)
            return after_ms + float(loud[0]) * 1000 / RATE_HZ if loud.size else None

    def silent_from_ms(self, after_ms: float, *, for_ms: int = 400, within_ms: int = 5_000) -> float | None:
        """The moment after the last sound before `for_ms` of silence; None when there is no such silence."""

        def silence() -> float | None:
            edges = np.concatenate([[0.0], self._loud(after_ms) + 1, [len(self._from(after_ms))]])
            gaps = np.flatnonzero(np.diff(edges) >= for_ms * RATE_HZ / 1000)
            return after_ms + float(edges[gaps[0]]) * 1000 / RATE_HZ if len(gaps) else None

        with self._more:
            self._more.wait_for(lambda: silence() is not None, within_ms / 1000)
            return silence()

    @property
    def _end_ms(self) -> float:
        return self._began_ms + self._count * 1000 / RATE_HZ if self._count else -float("inf")

    def _from(self, begin_ms: float) -> Samples:
        if not self._pieces:
            return np.zeros(0, np.float32)
        whole = np.concatenate(self._pieces)
        self._pieces = [whole]
        return whole[max(0, round((begin_ms - self._began_ms) * RATE_HZ / 1000)) :]

    def _loud(self, after_ms: float) -> Samples:
        return np.flatnonzero(np.abs(self._from(after_ms)) >= SOUND_FROM).astype(np.float32)

    def _record(self) -> None:
        assert self._recorder.stdout
        left_over = b""
        while data := self._recorder.stdout.read1(65_536):  # type: ignore[attr-defined]
            data = left_over + data
            left_over = data[len(data) // 2 * 2 :]
            piece: Samples = np.frombuffer(data[: len(data) // 2 * 2], "<i2").astype(np.float32) / np.float32(32_768)
            now_ms = self._clock.since_start_ms()
            with self._more:
                self._pieces.append(piece)
                self._count += len(piece)
                self._began_ms = min(self._began_ms, now_ms - self._count * 1000 / RATE_HZ)
                self._more.notify_all()
