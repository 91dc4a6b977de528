"""Our streaming change of rate beside libsoxr's: `python -m tests.tools.resampling`.

Sound, what stays back of it while it comes in blocks of 50 ms, and processor time.
"""

import time
from collections.abc import Callable
from statistics import median
from typing import Protocol

import numpy as np
import soxr

from saythesum.ports import Samples
from saythesum.sound.resample import RateChange

RATES_HZ = ((48_000, 16_000), (44_100, 16_000), (22_050, 48_000), (22_050, 44_100))
BLOCK_MS = 50
SECONDS = 10
EDGE = 1_000
"""Samples at both ends that are not compared."""


class Change(Protocol):
    def feed(self, samples: Samples) -> Samples: ...

    def rest(self) -> Samples: ...


class Soxr:
    def __init__(self, from_hz: int, to_hz: int, quality: str) -> None:
        self._stream = soxr.ResampleStream(from_hz, to_hz, 1, dtype="float32", quality=quality)

    def feed(self, samples: Samples) -> Samples:
        made: Samples = self._stream.resample_chunk(samples)
        return made

    def rest(self) -> Samples:
        made: Samples = self._stream.resample_chunk(np.zeros(0, np.float32), last=True)
        return made


WAYS: dict[str, Callable[[int, int], Change]] = {
    "ours": lambda from_hz, to_hz: RateChange(from_hz=from_hz, to_hz=to_hz),
    "soxr MQ": lambda from_hz, to_hz: Soxr(from_hz, to_hz, "MQ"),
    "soxr HQ": lambda from_hz, to_hz: Soxr(from_hz, to_hz, "HQ"),
}


def changed(change: Change, sound: Samples, from_hz: int, to_hz: int) -> tuple[Samples, list[float]]:
    """The sound, and after each block how many milliseconds of what was fed have not come out."""
    length = from_hz * BLOCK_MS // 1000
    pieces, back_ms, fed, made = [], [], 0, 0
    for at in range(0, len(sound), length):
        piece = change.feed(sound[at : at + length])
        fed, made = fed + len(sound[at : at + length]), made + len(piece)
        back_ms.append(1000 * (fed / from_hz - made / to_hz))
        pieces.append(piece)
    return np.concatenate([*pieces, change.rest()]), back_ms


def tone(pitch_hz: float, rate_hz: int, count: int) -> Samples:
    samples: Samples = np.sin(2 * np.pi * pitch_hz * np.arange(count) / rate_hz).astype(np.float32)
    return samples


def decibels(part: Samples, whole: Samples) -> float:
    return float(10 * np.log10(np.mean(part.astype(float) ** 2) / np.mean(whole.astype(float) ** 2) + 1e-20))


def figures(way: str, from_hz: int, to_hz: int) -> str:
    make, count = WAYS[way], from_hz * SECONDS
    made, back_ms = changed(make(from_hz, to_hz), tone(1_000, from_hz, count), from_hz, to_hz)
    right = tone(1_000, to_hz, len(made))
    off = f"1 kHz off by {decibels((made - right)[EDGE:-EDGE], right):6.1f} dB"
    if to_hz < from_hz:
        high = tone(9_000, from_hz, count)
        folded, _ = changed(make(from_hz, to_hz), high, from_hz, to_hz)
        off += f", 9 kHz folds back at {decibels(folded[EDGE:-EDGE], high):6.1f} dB"
    began = time.thread_time()
    changed(make(from_hz, to_hz), tone(440, from_hz, count), from_hz, to_hz)
    took_ms = (time.thread_time() - began) * 1000 / SECONDS
    back = f"stays back {median(back_ms):.0f} ms, {max(back_ms):.0f} at most"
    return f"{from_hz} to {to_hz}, {way}: {off}; {back}; {took_ms:.2f} ms of processor time a second"


def main() -> None:
    for from_hz, to_hz in RATES_HZ:
        for way in WAYS:
            print(figures(way, from_hz, to_hz))


if __name__ == "__main__":
    main()
