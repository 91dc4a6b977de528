"""Sounds that nobody says anything with, for training: breath, coughs, taps, tones, far talk.

Made by other rules than `tests.tools.listening.noises`, which are asked about afterwards.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples

Dice = np.random.Generator
Wave = NDArray[np.float64]


def other_sound(dice: Dice) -> Samples:
    make = _MAKERS[int(dice.integers(len(_MAKERS)))]
    sound = make(int(dice.uniform(0.5, 2.2) * LISTENING_RATE_HZ), dice)
    sound = of_power(sound, 10 ** (dice.uniform(-50, -16) / 10)) + dice.standard_normal(len(sound)) * 1e-4
    heard: Samples = np.clip(sound, -1, 1).astype(np.float32)
    return heard


def coloured(dice: Dice, count: int) -> Wave:
    """Noise between white and a little darker than pink."""
    spectrum = np.fft.rfft(dice.standard_normal(count))
    return np.fft.irfft(spectrum / np.maximum(1, np.arange(len(spectrum))) ** dice.uniform(0, 1.1), count)


def within(sound: Wave, low_hz: float, high_hz: float) -> Wave:
    """What lies outside comes down by 40 dB."""
    spectrum = np.fft.rfft(sound)
    hz = np.fft.rfftfreq(len(sound), 1 / LISTENING_RATE_HZ)
    spectrum[(hz < low_hz) | (hz > high_hz)] *= 0.01
    return np.fft.irfft(spectrum, len(sound))


def of_power(sound: Wave, power: float) -> Wave:
    return sound * float(np.sqrt(power / (float(np.mean(sound**2)) + 1e-12)))


def _hiss(count: int, dice: Dice) -> Wave:
    return coloured(dice, count)


def _crackle(count: int, dice: Dice) -> Wave:
    is_click = dice.random(count) < float(dice.choice([0.0002, 0.001]))
    return dice.standard_normal(count) * is_click * 20 + dice.standard_normal(count) * 0.02


def _breath(count: int, dice: Dice) -> Wave:
    blown = within(dice.standard_normal(count), dice.uniform(200, 900), dice.uniform(1500, 6000))
    return blown * np.hanning(count) ** dice.uniform(0.5, 4)


def _cough(count: int, dice: Dice) -> Wave:
    sound = dice.standard_normal(count) * 0.005
    for _ in range(int(dice.integers(1, 4))):
        length = int(dice.uniform(0.08, 0.3) * LISTENING_RATE_HZ)
        begin = int(dice.integers(0, max(1, count - length)))
        at = np.arange(length)
        burst = within(dice.standard_normal(length), 200, dice.uniform(1500, 5000))
        burst = burst * np.exp(-at / length * dice.uniform(2, 7))
        voice = np.sin(2 * np.pi * dice.uniform(90, 300) * at / LISTENING_RATE_HZ) * np.exp(-at / length * 6)
        burst = burst + voice * dice.uniform(0, 2) * np.abs(burst).mean()
        sound[begin : begin + length] += burst[: count - begin]
    return sound


def _tones(count: int, dice: Dice) -> Wave:
    at = np.arange(count) / LISTENING_RATE_HZ
    sound = dice.standard_normal(count) * 0.01
    for _ in range(int(dice.integers(1, 5))):
        sound += np.sin(2 * np.pi * dice.uniform(100, 2500) * at + dice.uniform(0, 6))
    return sound * np.hanning(count) ** dice.uniform(0, 1)


def _taps(count: int, dice: Dice) -> Wave:
    sound = dice.standard_normal(count) * 0.003
    for _ in range(int(dice.integers(1, 6))):
        length = int(dice.uniform(0.01, 0.08) * LISTENING_RATE_HZ)
        begin = int(dice.integers(0, count - length))
        sound[begin : begin + length] += dice.standard_normal(length) * np.exp(-np.arange(length) / length * 8)
    return sound


def _thud(count: int, dice: Dice) -> Wave:
    """Something heavy falls, shuts or is put down: mostly low, with a clack before it now and then."""
    length = int(dice.uniform(0.1, 0.4) * LISTENING_RATE_HZ)
    at = np.arange(length) / length
    low = within(dice.standard_normal(length), dice.uniform(30, 80), dice.uniform(200, 900))
    sound, begin = dice.standard_normal(count) * 0.001, int(dice.uniform(0, 0.5) * (count - length))
    sound[begin : begin + length] += of_power(low * np.exp(-at * dice.uniform(3, 9)), 1.0)
    if dice.random() < 0.5:
        clack = int(dice.uniform(0.01, 0.05) * LISTENING_RATE_HZ)
        sound[begin : begin + clack] += dice.standard_normal(clack) * dice.uniform(0.1, 1.5)
    return sound


def _motor(count: int, dice: Dice) -> Wave:
    at = np.arange(count) / LISTENING_RATE_HZ
    buzz: Wave = np.sign(np.sin(2 * np.pi * dice.uniform(80, 400) * at))
    swelling: Wave = 1 + np.sin(2 * np.pi * dice.uniform(1, 8) * at)
    return buzz * swelling + coloured(dice, count) * 0.3


_MAKERS: tuple[Callable[[int, Dice], Wave], ...] = (
    *(_hiss, _crackle, _breath, _breath, _cough, _cough, _tones, _taps, _thud, _thud, _motor),
)
