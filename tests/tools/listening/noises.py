"""Sounds of a classroom that nobody says anything with, made by rule from a seed: for refusing, not for beauty.

They are no recordings: what is refused here may still be taken when it is real.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.listening.levels import within_full_scale
from tests.tools.listening.room_echo import impulse_response

Dice = np.random.Generator
Wave = NDArray[np.float64]
_LEVEL = 0.3


def cough(dice: Dice) -> Wave:
    """Two or three bursts of noise, the last with some voice in it."""
    bursts = [_burst(_between(dice, 900, 1600), dice) for _ in range(int(dice.integers(2, 4)))]
    voiced = _voice(_between(dice, 150, 260), 0.15, (650, 1100, 2500)) * _fading(0.15, 0.06)
    return np.concatenate([*bursts, voiced * 0.4])


def sneeze(dice: Dice) -> Wave:
    """Breath drawn in, a rest, a long hiss."""
    drawn = _band(_hiss(0.5, dice), 800, 3000) * _swelling(0.5)
    hiss = _band(_hiss(0.45, dice), 2500, 7000) * _fading(0.45, 0.12)
    return np.concatenate([drawn * 0.4, np.zeros(_count(0.12)), hiss])


def breath(dice: Dice) -> Wave:
    drawn = _between(dice, 0.5, 1.1)
    return _band(_hiss(drawn, dice), 400, _between(dice, 1800, 3500)) * _swelling(drawn)


def laughter(dice: Dice) -> Wave:
    """Ha, four to seven times, falling."""
    pitch_hz = _between(dice, 220, 420)
    parts: list[Wave] = []
    for turn in range(int(dice.integers(4, 8))):
        ha = _voice(pitch_hz * 0.95**turn, 0.11, (850, 1400, 2900)) * _swelling(0.11)
        parts += [_band(_hiss(0.07, dice), 700, 3500) * 0.15, ha * 0.9**turn]
    return np.concatenate(parts)


def slammed_door(dice: Dice) -> Wave:
    """A thump, in a room."""
    thump = _band(_hiss(0.25, dice), 40, _between(dice, 250, 500)) * _fading(0.25, 0.05)
    latch = _band(_hiss(0.02, dice), 1500, 6000) * 0.3
    return np.convolve(np.concatenate([latch, thump]), impulse_response())


def knocking(dice: Dice) -> Wave:
    knock = _band(_hiss(0.08, dice), 150, _between(dice, 700, 1500)) * _fading(0.08, 0.015)
    return np.concatenate([part for _ in range(int(dice.integers(2, 5))) for part in (knock, np.zeros(_count(0.17)))])


def music(dice: Dice) -> Wave:
    """A tune of plucked chords, eight notes of a major scale."""
    scale_hz = 220 * 2 ** (np.array([0, 2, 4, 5, 7, 9, 11, 12]) / 12)
    return np.concatenate([_plucked(float(dice.choice(scale_hz)), 0.25) for _ in range(8)])


def hum(dice: Dice) -> Wave:
    """The mains and its overtones."""
    at = np.arange(_count(2.0)) / LISTENING_RATE_HZ
    return sum((np.sin(2 * np.pi * 50 * n * at + dice.random()) / n for n in range(1, 12)), np.zeros(len(at)))


def humming(dice: Dice) -> Wave:
    """A closed mouth that sings to itself: mm."""
    notes = [_voice(_between(dice, 180, 380), 0.35, (280, 1000, 2200)) * _swelling(0.35) for _ in range(4)]
    return np.concatenate(notes)


def chair(dice: Dice) -> Wave:
    """Dragged over the floor: it sticks and slips."""
    slips = _voice(_between(dice, 60, 140), 0.7, (_between(dice, 900, 1500), 2300, 3600))
    return slips * _swelling(0.7) + 0.1 * _hiss(0.7, dice)


def typing(dice: Dice) -> Wave:
    clicks = [_band(_hiss(0.015, dice), 2000, 7000) * _fading(0.015, 0.004) for _ in range(8)]
    return np.concatenate([part for click in clicks for part in (click, np.zeros(_count(_between(dice, 0.05, 0.2))))])


def whistle(dice: Dice) -> Wave:
    at = np.arange(_count(0.8)) / LISTENING_RATE_HZ
    glide_hz = np.linspace(_between(dice, 900, 1400), _between(dice, 1500, 2200), len(at))
    return np.sin(2 * np.pi * np.cumsum(glide_hz) / LISTENING_RATE_HZ) * _swelling(0.8)


NOISES: tuple[Callable[[Dice], Wave], ...] = (
    *(cough, sneeze, breath, laughter, slammed_door, knocking),
    *(music, hum, humming, chair, typing, whistle),
)


def noise(make: Callable[[Dice], Wave], seed: int) -> Samples:
    wave = make(np.random.default_rng(seed))
    return within_full_scale(wave / np.abs(wave).max() * _LEVEL)


def _between(dice: Dice, low: float, high: float) -> float:
    return float(dice.uniform(low, high))


def _count(seconds: float) -> int:
    return int(seconds * LISTENING_RATE_HZ)


def _hiss(seconds: float, dice: Dice) -> Wave:
    return dice.standard_normal(_count(seconds))


def _band(wave: Wave, low_hz: float, high_hz: float) -> Wave:
    spectrum = np.fft.rfft(wave)
    hz = np.fft.rfftfreq(len(wave), 1 / LISTENING_RATE_HZ)
    spectrum[(hz < low_hz) | (hz > high_hz)] = 0
    return np.fft.irfft(spectrum, len(wave))


def _voice(pitch_hz: float, seconds: float, formants_hz: tuple[float, ...]) -> Wave:
    """Pulses through resonances 100 Hz wide."""
    wave = np.zeros(_count(seconds))
    wave[:: max(1, int(LISTENING_RATE_HZ / pitch_hz))] = 1.0
    hz = np.fft.rfftfreq(len(wave), 1 / LISTENING_RATE_HZ)
    shape = sum((1 / (1 + ((hz - formant) / 100) ** 2) for formant in formants_hz), np.zeros(len(hz)))
    voiced = np.fft.irfft(np.fft.rfft(wave) * shape, len(wave))
    return voiced / float(np.abs(voiced).max())


def _plucked(root_hz: float, seconds: float) -> Wave:
    at = np.arange(_count(seconds)) / LISTENING_RATE_HZ
    chord = [np.sin(2 * np.pi * root_hz * tone * n * at) / n for tone in (1, 1.25, 1.5) for n in range(1, 6)]
    return sum(chord, np.zeros(len(at))) * _fading(seconds, 0.15)


def _burst(middle_hz: float, dice: Dice) -> Wave:
    return _band(_hiss(0.18, dice), middle_hz / 2, middle_hz * 2.5) * _fading(0.18, 0.05)


def _fading(seconds: float, falls_in_s: float) -> Wave:
    return np.exp(-np.arange(_count(seconds)) / LISTENING_RATE_HZ / falls_in_s)


def _swelling(seconds: float) -> Wave:
    return np.hanning(_count(seconds))
