"""What mouths, rooms and microphones do to speech, drawn from a seed's dice."""

import numpy as np

from saythesum.hearing.vocal_tract.warp import in_time, lowered
from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.listening.whisper import whispered
from tests.tools.second_opinion.other_sounds import Wave, coloured, of_power, within

Dice = np.random.Generator
FEWEST_SAMPLES = 1200
_SOUNDS_ABOVE = 1e-3
"""Of the loudest frame's power: what is quieter at either end is no speech."""
_BLOCK = 320


def heard_through(spoken: Samples, dice: Dice, others: list[Samples]) -> "Samples | None":
    """As the ear would cut it out of what a microphone hears: some room before and after. None where nothing is left.

    `others`: what else was said lately, for the talk behind it.
    """
    speech = speech_in(spoken)
    if len(speech) < FEWEST_SAMPLES:
        return None
    sound = in_a_room(_with_ends(_from_another_mouth(speech, dice), dice), dice)
    sound = _with_noises(sound, dice, others)
    sound = _by_a_microphone(sound, dice)
    rms = float(np.sqrt(np.mean(sound**2))) + 1e-9
    sound = sound * (_db(dice.uniform(-38, -13)) / rms)
    sound = sound + dice.standard_normal(len(sound)) * 10 ** dice.uniform(-4.3, -3)
    heard: Samples = np.clip(sound, -1, 1).astype(np.float32)
    return heard


def speech_in(samples: Samples) -> Samples:
    """Without the silence before and after."""
    if len(samples) < FEWEST_SAMPLES:
        return samples[:0]
    power = np.convolve(samples**2, np.full(_BLOCK, 1 / _BLOCK), "same")
    loud = np.flatnonzero(power > max(float(power.max()) * _SOUNDS_ABOVE, 1e-8))
    return samples[max(0, loud[0] - 300) : loud[-1] + 300] if len(loud) else samples[:0]


def _from_another_mouth(speech: Samples, dice: Dice) -> Samples:
    """Another pace and pitch, a shorter vocal tract as a child's or a longer one, a whisper, a beginning cut off."""
    if dice.random() < 0.3:
        step = dice.uniform(0.87, 1.15)
        speech = np.interp(np.arange(0, len(speech) - 1, step), np.arange(len(speech)), speech).astype(np.float32)
    size = dice.random()
    if size < 0.38:
        speech = lowered(speech, 1 / dice.uniform(1.05, 1.55))
    elif size < 0.46:
        speech = lowered(speech, 1 / dice.uniform(0.85, 0.97))
    if dice.random() < 0.3:
        pace = dice.uniform(0.7, 1.4)
        speech = in_time(speech, pace, int(len(speech) / pace))
    if dice.random() < 0.02:
        speech = whispered(speech, dice)
    if dice.random() < 0.08:
        cut = int(dice.uniform(0.01, 0.06) * LISTENING_RATE_HZ)
        speech = speech[cut:] if dice.random() < 0.5 else speech[:-cut]
    return speech


def _with_ends(speech: Samples, dice: Dice) -> Wave:
    """The ear cuts about 0.2 s before and after; now and then it is far off."""
    before_s, after_s = dice.uniform(0.12, 0.30), dice.uniform(0.12, 0.34)
    if dice.random() < 0.07:
        before_s = dice.uniform(0.02, 0.5)
    if dice.random() < 0.07:
        after_s = dice.uniform(0.02, 0.6)
    return np.pad(speech, (int(before_s * LISTENING_RATE_HZ), int(after_s * LISTENING_RATE_HZ))).astype(np.float64)


def in_a_room(sound: Wave, dice: Dice) -> Wave:
    """Noise that dies away stands for the echoes, 0 to 14 dB below the direct sound."""
    if dice.random() >= 0.45:
        return sound
    count = int(dice.uniform(0.12, 0.6) * LISTENING_RATE_HZ)
    echo = dice.standard_normal(count) * np.exp(-6.9 * np.arange(count) / count)
    echo[: int(0.003 * LISTENING_RATE_HZ)] = 0
    echo *= np.sqrt(_db(-dice.uniform(0, 14)) ** 2 / np.sum(echo**2))
    echo[0] = 1
    whole = len(sound) + count
    return np.fft.irfft(np.fft.rfft(sound, whole) * np.fft.rfft(echo, whole), whole)[: len(sound)]


def _with_noises(sound: Wave, dice: Dice, others: list[Samples]) -> Wave:
    power = float(np.mean(sound**2)) + 1e-12
    if dice.random() < 0.5:
        sound = sound + of_power(coloured(dice, len(sound)), power / _db(dice.uniform(5, 35)) ** 2)
    if dice.random() < 0.3 and len(others) > 20:
        sound = sound + of_power(talk(others, len(sound), dice), power / _db(dice.uniform(4, 25)) ** 2)
    return sound


def talk(others: list[Samples], count: int, dice: Dice) -> Wave:
    """Two to seven of them at once, over and over, each as near as it happens to be."""
    total = np.zeros(count)
    for _ in range(int(dice.integers(2, 8))):
        other = speech_in(others[dice.integers(len(others))])
        if len(other):
            wrapped = np.take(other, np.arange(count) + int(dice.integers(len(other))), mode="wrap")
            total += of_power(wrapped.astype(np.float64), 1.0) * dice.uniform(0.3, 1)
    return total


def _by_a_microphone(sound: Wave, dice: Dice) -> Wave:
    """It tilts the spectrum, cuts the band as a telephone does, clips, or loses blocks."""
    if dice.random() < 0.4:
        spectrum = np.fft.rfft(sound)
        octaves = np.log2(np.fft.rfftfreq(len(sound), 1 / LISTENING_RATE_HZ) / 1000 + 0.05)
        sound = np.fft.irfft(spectrum * 10 ** (dice.uniform(-5, 5) * octaves / 20), len(sound))
    band = dice.random()
    if band < 0.2:
        sound = within(sound, 300, 3400)
    elif band < 0.38:
        sound = within(sound, 60, 4000)
    elif band < 0.44:
        sound = within(sound, 150, 6500)
    if dice.random() < 0.1:
        sound = np.clip(sound / np.abs(sound).max() * dice.uniform(1.5, 6), -1, 1)
    if dice.random() < 0.03:
        blocks = [sound[at : at + _BLOCK] for at in range(0, len(sound), _BLOCK)]
        sound = np.concatenate([block for block in blocks if dice.random() >= 0.1] or blocks)
    return sound


def _db(decibels: float) -> float:
    """As a factor of the amplitude."""
    return float(10 ** (decibels / 20))
