"""Another rate, against the formula of a tone and against two converters of others."""

import subprocess
from pathlib import Path

import numpy as np
import pytest
import soxr

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.sound.resample import for_listening, resampled
from saythesum.sound.wav import read_wav, write_wav

EDGE = 500
"""Samples at both ends that are not compared: a tone that begins at once is no band-limited sound."""


def tone(pitch_hz: float, rate_hz: int, count: int | None = None) -> Samples:
    samples: Samples = np.sin(2 * np.pi * pitch_hz * np.arange(count or rate_hz) / rate_hz).astype(np.float32)
    return samples


def decibels(part: Samples, whole: Samples) -> float:
    return float(10 * np.log10(np.mean(part.astype(float) ** 2) / np.mean(whole.astype(float) ** 2)))


@pytest.mark.parametrize("rate_hz", [8_000, 11_025, 22_050, 32_000, 44_100, 48_000, 96_000, 22_051])
def test_a_tone_stays_the_tone_of_the_formula(rate_hz: int) -> None:
    for pitch_hz in (110, 1_000, 3_400, 7_000):
        if pitch_hz < 0.45 * rate_hz:
            _stays_a_tone(pitch_hz, rate_hz)


def _stays_a_tone(pitch_hz: float, rate_hz: int) -> None:
    made = for_listening(Sound(tone(pitch_hz, rate_hz, rate_hz // 4), rate_hz))
    right = tone(pitch_hz, LISTENING_RATE_HZ, len(made))
    assert abs(len(made) - LISTENING_RATE_HZ // 4) <= 1
    assert decibels((made - right)[EDGE:-EDGE], right) < -75


@pytest.mark.parametrize("rate_hz", [22_050, 44_100, 48_000])
@pytest.mark.parametrize("pitch_hz", [8_300, 9_000, 10_500])
def test_what_is_too_high_is_left_out_and_does_not_fold_back(rate_hz: int, pitch_hz: int) -> None:
    high = tone(pitch_hz, rate_hz)
    assert decibels(for_listening(Sound(high, rate_hz))[EDGE:-EDGE], high) < -75


@pytest.mark.parametrize("rate_hz", [8_000, 22_050, 44_100, 48_000])
def test_speech_comes_out_as_from_ffmpeg(tmp_path: Path, rate_hz: int) -> None:
    """Outside reference: ffmpeg's converter at its longest filter. Both keep less than the whole band near its edge,
    so the two are compared below 90 % of the lower rate's band."""
    spoken = pupil_phrase("no, a hundred and sixty-two")
    assert spoken is not None
    theirs, source = tmp_path / "theirs.wav", tmp_path / "source.wav"
    write_wav(source, [resampled(spoken.samples, from_hz=spoken.rate_hz, to_hz=rate_hz)], rate_hz)
    convert = ["-af", "aresample=16000:filter_size=128:cutoff=0.97", "-c:a", "pcm_f32le", str(theirs)]
    subprocess.run(["ffmpeg", "-v", "error", "-i", str(source), *convert], check=True)
    ours, right = for_listening(read_wav(source)), read_wav(theirs).samples
    count = min(len(ours), len(right))
    edge_hz = 0.45 * min(rate_hz, LISTENING_RATE_HZ)
    ours, right = below(ours[:count], edge_hz), below(right[:count], edge_hz)
    assert decibels(ours - right, right) < -60


@pytest.mark.parametrize(("from_hz", "to_hz"), [(8_000, 16_000), (22_050, 48_000), (44_100, 16_000), (22_050, 44_100)])
def test_speech_comes_out_as_from_soxr(from_hz: int, to_hz: int) -> None:
    """Outside reference: libsoxr at its highest quality, compared below 90 % of the lower rate's band, as above."""
    spoken = pupil_phrase("no, a hundred and sixty-two")
    assert spoken is not None
    sound = resampled(spoken.samples, from_hz=spoken.rate_hz, to_hz=from_hz)
    ours = resampled(sound, from_hz=from_hz, to_hz=to_hz)
    theirs = soxr.resample(sound, from_hz, to_hz, quality="VHQ")
    count = min(len(ours), len(theirs))
    edge_hz = 0.45 * min(from_hz, to_hz)
    left, right = below(ours[:count], edge_hz, to_hz), below(theirs[:count], edge_hz, to_hz)
    assert decibels(left - right, right) < -60


def test_the_same_rate_is_the_same_sound() -> None:
    said = tone(300, 16_000)
    assert for_listening(Sound(said, 16_000)) is said


def test_nothing_stays_nothing() -> None:
    assert len(for_listening(Sound(tone(300, 44_100)[:0], 44_100))) == 0


@pytest.mark.parametrize("rate_hz", [4_000, 16_001, 44_100, 192_000])
def test_any_length_and_rate_keeps_its_duration(rate_hz: int) -> None:
    for count in (1, 2, 63, 5_000):
        made = for_listening(Sound(tone(300, rate_hz, count), rate_hz))
        assert 0 <= len(made) - count * LISTENING_RATE_HZ / rate_hz < 1
        assert made.dtype == np.float32


def below(samples: Samples, edge_hz: float, rate_hz: int = LISTENING_RATE_HZ) -> Samples:
    spectrum = np.fft.rfft(samples)
    spectrum[np.fft.rfftfreq(len(samples), 1 / rate_hz) > edge_hz] = 0
    lower: Samples = np.fft.irfft(spectrum, len(samples)).astype(np.float32)
    return lower
