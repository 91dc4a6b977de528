"""What it costs to understand one answer, by the embedded engine and by Vosk; of one core's time and by the clock."""

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator

from saythesum.core.meanings import Awaiting
from saythesum.hearing.embedded.recogniser import NeuralRecogniser, tree
from saythesum.hearing.vocal_tract.factor import FACTORS
from saythesum.ports import Samples
from saythesum.wording.numbers import words
from tests.by_sound import recorded, with_noise
from tests.tools.bench.lines import TIMES, Figure

NUMBERS = tuple(range(40, 40 + TIMES))
AIM_MS, SECOND_VIEW_AIM_MS, HOLD_AIM_MS = 60, 100, 5
CHILD = 1.3
NOISE_DB = 10.0
"""In which about half of the answers take a second view where there is no second opinion."""


def answers() -> Iterator[Figure]:
    """Numbers of about a second, clean and in noise, with the second opinion and without."""
    tree(Awaiting.NUMBER)
    engine, plain, child = NeuralRecogniser(), NeuralRecogniser(), NeuralRecogniser(CHILD)
    plain.second_opinion = None
    seconded: list[float] = []
    alone: list[float] = []
    lowered: list[float] = []
    for number in NUMBERS:
        clean = recorded(words(number))
        lowered.append(_decoded_ms(child, clean))
        for sound in (clean, with_noise(clean, NOISE_DB, number)):
            seconded.append(_decoded_ms(engine, sound))
            alone.append(_decoded_ms(plain, sound))
    print(f"other programs on this machine, on average over a minute: {os.getloadavg()[0]:.1f} at a time")
    yield Figure("an answer decoded: of one core's time; worst aim 90", seconded, "ms", AIM_MS)
    yield Figure("  without the second opinion, near the line two views", alone, "ms", SECOND_VIEW_AIM_MS)
    yield Figure("  lowered by the pupil's factor", lowered, "ms", AIM_MS)


def _decoded_ms(engine: NeuralRecogniser, sound: Samples) -> float:
    engine.open(Awaiting.NUMBER)
    engine.feed(sound)
    began = time.thread_time()
    engine.close()
    return (time.thread_time() - began) * 1000


def holds() -> Iterator[Figure]:
    """For how long a thread that wants to run every millisecond is held up, by decoding and by nothing."""
    engine = NeuralRecogniser(CHILD)
    decoding, learning, idle = [], [], []
    for number in NUMBERS:
        sound = recorded(words(number))
        ticking = _Ticking()
        _decoded_ms(engine, sound)
        decoding.append(ticking.longest_ms())
        ticking = _Ticking()
        engine.log_probabilities(sound, Awaiting.NUMBER, FACTORS[:2])
        learning.append(ticking.longest_ms())
        ticking = _Ticking()
        time.sleep(0.1)
        idle.append(ticking.longest_ms())
    yield Figure("longest time another thread is held up while decoding", decoding, "ms", HOLD_AIM_MS)
    yield Figure("  the same while a factor is learnt", learning, "ms", HOLD_AIM_MS)
    yield Figure("  the same while nothing is decoded", idle, "ms")


def learning() -> Iterator[Figure]:
    engine = NeuralRecogniser()
    took = []
    for number in NUMBERS:
        began = time.thread_time()
        engine.log_probabilities(recorded(words(number)), Awaiting.NUMBER, FACTORS)
        took.append((time.thread_time() - began) * 1000)
    yield Figure(f"a kept answer scored at {len(FACTORS)} factors, beside the practice", took, "ms")


def engines(times: int = 3) -> Iterator[Figure]:
    """Side by side, in processes of their own. Vosk has the Korean model: what it understands is not judged."""
    for name, called in (("neural", "the embedded engine"), ("vosk", "Vosk, a Korean model")):
        runs = []
        for _ in range(times):
            command = [sys.executable, "-m", "tests.tools.bench.started.one_engine", name]
            done = subprocess.run(command, capture_output=True, text=True, check=True)
            runs.append([float(value) for value in done.stdout.split()])
        yield Figure(f"{called}: loaded", [run[0] for run in runs], "ms")
        yield Figure(f"{called}: memory for it", [run[1] for run in runs], "MB")
        yield Figure(f"{called}: an answer, of all processor time", [ms for run in runs for ms in run[2:]], "ms")


class _Ticking:
    """A thread that wants to run every millisecond."""

    def __init__(self) -> None:
        self._is_over = False
        self._longest_s = 0.0
        self._thread = threading.Thread(target=self._run)
        self._thread.start()

    def longest_ms(self) -> float:
        self._is_over = True
        self._thread.join()
        return self._longest_s * 1000

    def _run(self) -> None:
        last = time.perf_counter()
        while not self._is_over:
            time.sleep(0.001)
            now = time.perf_counter()
            self._longest_s = max(self._longest_s, now - last)
            last = now
