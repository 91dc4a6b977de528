"""The sound cues as they lie in audio."""

from itertools import combinations, groupby
from random import Random

import numpy as np
import pytest

from saythesum.ports import LISTENING_RATE_HZ, Sound
from saythesum.settings import Speech
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.wav import read_wav
from saythesum.speaking.loudness import HIGHEST_PEAK, SPEECH_RMS, active_rms
from saythesum.speaking.notes import Note, sounded
from saythesum.speaking.voice import ToolVoice
from tests.tools.k_weighting import loudness_db
from tests.tools.make_sound_cues import CUES

MS = LISTENING_RATE_HZ // 1000


def kept(name: str) -> Sound:
    return read_wav(audio_folder() / f"{name}.wav")


@pytest.mark.parametrize("name", CUES)
def test_the_script_makes_what_is_kept(name: str) -> None:
    assert np.abs(kept(name).samples - sounded(CUES[name]).samples).max() <= 1 / 32_768


@pytest.mark.parametrize("name", CUES)
def test_as_loud_as_speech_and_soft_at_both_ends(name: str) -> None:
    sound = kept(name)
    assert sound.rate_hz == LISTENING_RATE_HZ
    assert active_rms(sound) == pytest.approx(SPEECH_RMS, rel=0.02)
    loudest = np.abs(sound.samples).max()
    assert loudest <= HIGHEST_PEAK
    assert np.abs(sound.samples[: 2 * MS]).max() < 0.1 * loudest
    assert np.abs(sound.samples[-2 * MS :]).max() < 0.1 * loudest


@pytest.mark.parametrize("name", CUES)
def test_no_click_in_it(name: str) -> None:
    """A click spreads over all pitches; the highest overtone of the cues lies below 3 kHz."""
    power = np.abs(np.fft.rfft(kept(name).samples)) ** 2
    high = np.fft.rfftfreq(len(kept(name).samples), 1 / LISTENING_RATE_HZ) > 4_000
    assert power[high].sum() < 1e-6 * power.sum()


@pytest.mark.parametrize(("name", "other"), [*combinations(CUES, 2)])
def test_rhythm_alone_tells_them_apart(name: str, other: str) -> None:
    """Another number of notes, or one of them lasts at least half as long again."""
    ours, theirs = CUES[name], CUES[other]
    assert len(ours) != len(theirs) or any(_longer(one, two) for one, two in zip(ours, theirs, strict=True))


def _longer(one: Note, two: Note) -> bool:
    shorter, longer = sorted((one.long_ms, two.long_ms))
    return longer >= 1.5 * shorter


def test_the_ear_is_told_of_at_once_and_all_are_short() -> None:
    assert max(kept("ear-open").duration_ms, kept("ear-shut").duration_ms) <= 200
    assert all(kept(name).duration_ms <= 1_000 for name in CUES)


# ---- known by rhythm alone


def rhythm(sound: Sound) -> list[int]:
    """How long each note and each silence between two of them lasts, in ms, whatever its pitch."""
    frame = 4 * MS
    loud = [np.abs(sound.samples[at : at + frame]).max() for at in range(0, len(sound.samples) - frame, frame)]
    is_on = [level > 0.12 * max(loud) for level in loud]
    return [4 * len(list(run)) for _, run in groupby(is_on)]


def distance(one: list[int], other: list[int]) -> float:
    if len(one) != len(other):
        return 10.0 * abs(len(one) - len(other))
    return float(sum(abs(np.log(ours / theirs)) for ours, theirs in zip(one, other, strict=True)))


def known_as(sound: Sound) -> str:
    """The cue whose rhythm is nearest."""
    return min(CUES, key=lambda name: distance(rhythm(kept(name)), rhythm(sound)))


@pytest.mark.parametrize("name", CUES)
def test_a_classifier_that_hears_no_pitch_knows_each_at_any_pitch_and_a_little_slower_or_quicker(name: str) -> None:
    dice = Random(name)
    for _ in range(50):
        tempo, pitch_hz = dice.uniform(0.85, 1.15), dice.uniform(400, 900)
        notes = tuple(
            Note(pitch_hz, max(48, round(note.long_ms * tempo)), round(note.then_ms * tempo)) for note in CUES[name]
        )
        assert known_as(sounded(notes)) == name


def test_the_weighting_is_the_standards() -> None:
    """Source: ITU-R BS.1770-4, annex 1: a sine of 997 Hz at full scale in one channel is -3.01 LKFS."""
    sine = np.sin(2 * np.pi * 997 * np.arange(48_000) / 48_000).astype(np.float32)
    assert loudness_db(Sound(sine, 48_000)) == pytest.approx(-3.01, abs=0.01)


@pytest.fixture(scope="module")
def speech_db(tmp_path_factory: pytest.TempPathFactory) -> float:
    voice = ToolVoice(Speech(volume_percent=100), tmp_path_factory.mktemp("voice"))
    said = [voice.render(text) for text in ("Thirty-eight add five.", "Four.", "How many of the five are left?")]
    voice.close()
    return float(np.mean([loudness_db(sound) for sound in said]))


@pytest.mark.parametrize("name", CUES)
def test_level_with_speech(name: str, speech_db: float) -> None:
    """Source of the weighting: ITU-R BS.1770; 1 dB is about the least difference that is heard (common practice)."""
    assert loudness_db(kept(name)) == pytest.approx(speech_db, abs=1.0)
