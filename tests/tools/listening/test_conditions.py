"""Each condition does what its name says, measured on sounds whose values are known."""

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from text_to_num import alpha2digit

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.listening.babble import SAYINGS, voices
from tests.tools.listening.conditions import CLIPPED_BY_DB, CONDITIONS, DROPPED_SHARE, OFFSET, raised
from tests.tools.listening.levels import speech_rms
from tests.tools.listening.noises import NOISES, Dice, Wave, noise
from tests.tools.listening.room_echo import ABSORBED, ROOM_M, SOUND_M_A_SECOND, impulse_response
from tests.tools.listening.sounds import LEAD_S, TAIL_S, Clip

TONE_RMS = 0.05
BY_NAME = {condition.name: condition for condition in CONDITIONS}


def tone(hz: float, seconds: float = 1.0) -> Samples:
    at = np.arange(int(seconds * LISTENING_RATE_HZ)) / LISTENING_RATE_HZ
    sound: Samples = (TONE_RMS * np.sqrt(2) * np.sin(2 * np.pi * hz * at)).astype(np.float32)
    return sound


def clip(sound: Samples, voice: str = "rower", name: str = "7") -> Clip:
    return Clip(voice, name, 7, lambda: sound)


TONE = clip(tone(440.0))


def heard(name: str, of: Clip = TONE) -> Samples:
    sound = BY_NAME[name].of(of)
    assert sound.dtype == np.float32
    assert np.abs(sound).max() <= 1.0
    return sound


def rms(samples: NDArray[np.floating]) -> float:
    return float(np.sqrt(np.mean(samples.astype(np.float64) ** 2)))


def middle_hz(samples: Samples) -> float:
    """The centre of the power spectrum."""
    power = np.abs(np.fft.rfft(samples)) ** 2
    return float((np.fft.rfftfreq(len(samples), 1 / LISTENING_RATE_HZ) * power).sum() / power.sum())


@pytest.mark.parametrize(
    ("name", "snr_db"), [("babble 10 dB", 10.0), ("babble 5 dB", 5.0), ("white noise 10 dB", 10.0)]
)
def test_noise_is_so_far_below_the_speech_and_in_the_pauses_too(name: str, snr_db: float) -> None:
    added = heard(name) - TONE.samples
    assert 20 * np.log10(TONE_RMS / rms(added)) == pytest.approx(snr_db, abs=0.2)
    assert rms(added[: int(LEAD_S * LISTENING_RATE_HZ)]) > 0.3 * rms(added)


def test_a_voice_is_not_in_its_own_babble() -> None:
    assert "slt" in voices(without="woman")
    assert "slt" not in voices(without="slt")
    assert len(voices(without="slt")) >= 4


@pytest.mark.parametrize("saying", SAYINGS)
def test_no_number_is_said_in_the_babble(saying: str) -> None:
    assert alpha2digit(saying, "en") == saying


@pytest.mark.parametrize("factor", [1.2, 1.35, 1.5])
def test_a_childs_voice_is_higher_and_lasts_as_long(factor: float) -> None:
    sound = heard(f"child {factor}", clip(tone(600.0)))
    assert len(sound) == pytest.approx(len(TONE.samples), abs=0.04 * LISTENING_RATE_HZ)
    assert middle_hz(sound) == pytest.approx(600.0 * factor, rel=0.02)
    assert speech_rms(sound) == pytest.approx(TONE_RMS, rel=0.15)
    began = np.flatnonzero(np.abs(sound) > TONE_RMS / 4)
    assert began[0] / LISTENING_RATE_HZ == pytest.approx(LEAD_S, abs=0.05)
    assert (len(sound) - began[-1]) / LISTENING_RATE_HZ == pytest.approx(TAIL_S, abs=0.05)


def test_formants_rise_with_the_pitch() -> None:
    """Noise in one band stands for a formant: it has no pitch."""
    spectrum = np.fft.rfft(np.random.default_rng(1).standard_normal(LISTENING_RATE_HZ))
    spectrum[:900], spectrum[1101:] = 0, 0
    band = (np.fft.irfft(spectrum) * 0.5).astype(np.float32)
    assert middle_hz(raised(band, 1.35)) == pytest.approx(1.35 * middle_hz(band), rel=0.03)


def test_twenty_db_quieter() -> None:
    assert 20 * np.log10(TONE_RMS / speech_rms(heard("20 dB quieter"))) == pytest.approx(20.0, abs=0.01)


def test_clipped_at_full_scale_and_elsewhere_louder() -> None:
    sound = heard("clipped")
    spoken = sound[int(LEAD_S * LISTENING_RATE_HZ) :][:LISTENING_RATE_HZ]
    # A sine of this amplitude is above 1 for all but asin(1 / amplitude) of each quarter.
    beyond = 1 - np.arcsin(10 ** (-CLIPPED_BY_DB / 20)) / (np.pi / 2)
    assert np.mean(np.abs(spoken) == 1.0) == pytest.approx(beyond, abs=0.02)


def test_the_room_rings_as_long_as_sabine_says() -> None:
    """Source: W. C. Sabine, Collected Papers on Acoustics (1922): 0.161 s/m × volume / absorbing area, for 60 dB.

    The decay is measured as M. R. Schroeder, New method of measuring reverberation time (1965), does: backwards
    summed energy, here from -5 to -25 dB. The formula wants sound from all sides at once; the images of a bare box
    ring longer, for what runs between two walls only is swallowed last.
    """
    length, width, height = ROOM_M
    area = 2 * (length * width + length * height + width * height)
    sabine_s = 24 * np.log(10) / SOUND_M_A_SECOND * length * width * height / (area * ABSORBED)
    energy = np.cumsum(impulse_response()[::-1].astype(np.float64) ** 2)[::-1]
    level_db = 10 * np.log10(energy / energy[0])
    fell = (np.flatnonzero(level_db < -25)[0] - np.flatnonzero(level_db < -5)[0]) / LISTENING_RATE_HZ
    assert sabine_s < 3 * fell < 1.5 * sabine_s
    assert impulse_response()[0] == 1.0


def test_the_echo_comes_after_the_sound_and_changes_no_level() -> None:
    sound = heard("small room")
    assert speech_rms(sound) == pytest.approx(TONE_RMS, rel=0.01)
    after = int((LEAD_S + 1.05) * LISTENING_RATE_HZ)
    assert rms(sound[after : after + 800]) > 10 * rms(TONE.samples[after : after + 800])


def test_a_whisper_has_no_pitch_and_the_same_resonances() -> None:
    pulses = np.zeros(LISTENING_RATE_HZ, dtype=np.float32)
    pulses[::80] = 1.0
    hz = np.fft.rfftfreq(len(pulses), 1 / LISTENING_RATE_HZ)
    vowel = np.fft.irfft(np.fft.rfft(pulses) / (1 + ((hz - 1100) / 150) ** 2)).astype(np.float32)
    whisper = heard("whispered", clip(vowel))
    spoken = whisper[int((LEAD_S + 0.1) * LISTENING_RATE_HZ) :][: LISTENING_RATE_HZ // 2]
    assert _at_lag(vowel[1000:9000], 80) > 0.9
    assert abs(_at_lag(spoken, 80)) < 0.3
    assert middle_hz(spoken) == pytest.approx(middle_hz(vowel), rel=0.15)


def _at_lag(samples: Samples, lag: int) -> float:
    """How alike it is to itself a little later."""
    return float(np.corrcoef(samples[:-lag], samples[lag:])[0, 1])


def test_an_offset_and_lost_blocks() -> None:
    assert float(np.mean(heard("offset") - TONE.samples)) == pytest.approx(OFFSET, abs=1e-3)
    lost = 1 - len(heard("blocks lost")) / len(TONE.samples)
    assert lost == pytest.approx(DROPPED_SHARE, abs=0.06)


@pytest.mark.parametrize("name", BY_NAME)
def test_a_clip_sounds_the_same_every_time(name: str) -> None:
    assert np.array_equal(heard(name), heard(name, clip(tone(440.0))))


@pytest.mark.parametrize("make", NOISES)
def test_noises_are_audible_and_differ_by_seed(make: Callable[[Dice], Wave]) -> None:
    one, other = (noise(make, seed) for seed in (0, 1))
    assert 0.2 * LISTENING_RATE_HZ < len(one) < 4 * LISTENING_RATE_HZ
    assert np.abs(one).max() == pytest.approx(0.3)
    assert len(one) != len(other) or not np.array_equal(one, other)
