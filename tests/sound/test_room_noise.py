"""Made rooms, each with one thing wrong, with and without the real finder of speech."""

import numpy as np
import pytest

from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.sound.room_noise import FRAME_SAMPLES, TEN_SECONDS, RoomState, judged

TIMES = np.arange(TEN_SECONDS) / LISTENING_RATE_HZ


def _noise(level: float, seed: int = 1) -> Samples:
    return (np.random.default_rng(seed).standard_normal(TEN_SECONDS) * level).astype(np.float32)


def _hum(hz: float, level: float) -> Samples:
    """The mains with a strong third overtone, as a bad cable gives it."""
    wave = np.sin(2 * np.pi * hz * TIMES) + 0.4 * np.sin(2 * np.pi * 3 * hz * TIMES)
    return (wave * level).astype(np.float32)


def never(frame: Samples) -> float:
    return 0.0


def loud_is_speech(frame: Samples) -> float:
    return float(np.abs(frame).max() > 0.05)


def _talk(share: float) -> Samples:
    room = _noise(0.001)
    room[: int(share * TEN_SECONDS)] += _noise(0.1, seed=2)[: int(share * TEN_SECONDS)]
    return room


@pytest.mark.parametrize(
    ("samples", "state"),
    [
        (_noise(0.002), RoomState.QUIET_ENOUGH),
        (_noise(0.0001), RoomState.QUIET_ENOUGH),
        (np.zeros(TEN_SECONDS, np.float32), RoomState.SILENT_MICROPHONE),
        (np.full(TEN_SECONDS, 0.1, np.float32), RoomState.SILENT_MICROPHONE),  # an offset is no sound
        (np.zeros(0, np.float32), RoomState.SILENT_MICROPHONE),
        (_hum(50, 0.02) + _noise(0.001), RoomState.HUM),
        (_hum(60, 0.02) + _noise(0.001), RoomState.HUM),
        (_hum(49.8, 0.02) + _noise(0.001), RoomState.HUM),
        (_hum(50, 0.0003) + _noise(0.00005), RoomState.QUIET_ENOUGH),  # too faint to matter
        (_hum(83, 0.02) + _noise(0.001), RoomState.QUIET_ENOUGH),  # a tone, but not the mains
        (np.clip(_noise(0.6), -1, 1), RoomState.CLIPPING),
    ],
)
def test_each_room(samples: Samples, state: RoomState) -> None:
    assert judged(samples, never).state is state


@pytest.mark.parametrize(
    ("share", "state"),
    [(0.0, RoomState.QUIET_ENOUGH), (0.1, RoomState.QUIET_ENOUGH), (0.4, RoomState.TOO_MUCH_TALKING)],
)
def test_talk_counts_by_its_share_of_the_time(share: float, state: RoomState) -> None:
    room = judged(_talk(share), loud_is_speech)
    assert room.state is state
    assert room.speech == pytest.approx(share, abs=FRAME_SAMPLES / TEN_SECONDS * 2)


def test_the_figures_are_what_was_made() -> None:
    room = judged(_noise(0.01), never)
    assert room.level == pytest.approx(0.01, rel=0.02)
    assert room.hum < 0.05
    assert room.clipped == 0


def test_what_can_be_put_right_is_told_before_the_talking() -> None:
    assert judged(np.clip(_noise(0.6), -1, 1), loud_is_speech).state is RoomState.CLIPPING


def test_a_moment_of_sound_is_enough_for_an_answer() -> None:
    assert judged(_noise(0.002)[:100], never).state is RoomState.QUIET_ENOUGH
