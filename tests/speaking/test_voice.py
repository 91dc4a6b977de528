"""The real voice against its settings and against espeak-ng's own command."""

import subprocess
import wave
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from saythesum.ports import Sound
from saythesum.settings import Speech
from saythesum.speaking.loudness import SPEECH_RMS, active_rms
from saythesum.speaking.voice import ChildVoice

PHRASES = (
    "Yes.",
    "Not yet.",
    "Eighty-three.",
    "Twenty-six add five.",
    "Row twenty-six, add five.",
    "Eight of the nine are used, and one is left. How many tens are there in the number you have now?",
)


@pytest.fixture(scope="module")
def voice() -> Iterator[ChildVoice]:
    voice = ChildVoice(Speech())
    yield voice
    voice.close()


@pytest.mark.parametrize("phrase", PHRASES)
def test_as_long_as_from_the_command_of_espeak_ng(voice: ChildVoice, tmp_path: Path, phrase: str) -> None:
    """Outside reference: espeak-ng itself, whose silence at both ends is cut off in the same way here."""
    path = tmp_path / "command.wav"
    subprocess.run(["espeak-ng", "-v", "gmw/en", "-s", "140", "-w", str(path), phrase], check=True)
    with wave.open(str(path)) as file:
        theirs = np.abs(np.frombuffer(file.readframes(file.getnframes()), "<i2").astype(int))
    loud = np.flatnonzero(theirs > theirs.max() // 100)
    their_ms = 20 + (loud[-1] - loud[0]) * 1000 // 22_050 + 80
    assert abs(voice.render(phrase).duration_ms - their_ms) < 60


def test_all_phrases_are_equally_loud(voice: ChildVoice) -> None:
    for phrase in PHRASES:
        sound = voice.render(phrase)
        assert active_rms(sound) == pytest.approx(SPEECH_RMS * 0.9, rel=0.02)
        assert np.abs(sound.samples).max() <= 0.9


def test_half_the_volume_is_half_the_amplitude(voice: ChildVoice) -> None:
    quiet = ChildVoice(Speech(volume_percent=45))
    assert active_rms(quiet.render("Ninety.")) == pytest.approx(active_rms(voice.render("Ninety.")) / 2, rel=0.02)
    quiet.close()


def test_pitch_is_heard() -> None:
    low, middle, high = (_pitch_hz(pitch) for pitch in (10, 50, 90))
    assert low * 1.1 < middle < high / 1.1


def test_many_phrases_in_turn_keep_their_lengths(voice: ChildVoice) -> None:
    """An engine that ends a phrase too early would show as one that is shorter than the others."""
    lengths = [voice.render("Twenty-six add five.").duration_ms for _ in range(30)]
    assert max(lengths) - min(lengths) < 30


def test_the_first_phrases_after_a_start_are_whole(voice: ChildVoice) -> None:
    """Without its loops run again, pyttsx3 leaves about one in a hundred of these empty."""
    usual = {phrase: voice.render(phrase).duration_ms for phrase in PHRASES[:4]}
    for _ in range(6):
        fresh = ChildVoice(Speech())
        for phrase, usual_ms in usual.items():
            assert abs(fresh.render(phrase).duration_ms - usual_ms) < 30
        fresh.close()


@pytest.mark.parametrize(
    ("wanted", "speaks"),
    [
        ("en-gb", "gmw/en"),
        ("no such voice", "gmw/en"),
        ("gmw/en-gb-x-rq", "gmw/en-gb-x-rp"),
        ("gmw/en-uk", "gmw/en-us"),
    ],
)
def test_a_missing_voice_is_replaced_and_told(wanted: str, speaks: str) -> None:
    voice = ChildVoice(Speech(voice=wanted))
    assert voice.notice == f'The voice "{wanted}" is not on this machine; "{speaks}" speaks instead.'
    assert voice.render("Ninety.").duration_ms > 300
    voice.close()


@pytest.mark.parametrize("there", ["gmw/en", "gmw/en-gb-scotland", "gmw/en+f3"])
def test_nothing_is_told_of_a_voice_that_is_there(there: str) -> None:
    voice = ChildVoice(Speech(voice=there))
    assert voice.notice is None
    voice.close()


def test_identities_differ_where_the_sound_does() -> None:
    voices = [
        ChildVoice(speech)
        for speech in (
            Speech(),
            Speech(rate_wpm=150),
            Speech(pitch=40),
            Speech(volume_percent=50),
            Speech(voice="gmw/en+f3"),
        )
    ]
    identities = [voice.identity for voice in voices]
    assert len(set(identities)) == len(identities)
    assert all("espeak" in identity and "pyttsx3 " in identity for identity in identities)
    for voice in voices:
        voice.close()


def _pitch_hz(pitch: int) -> float:
    """The median over the voiced stretches, by autocorrelation."""
    voice = ChildVoice(Speech(pitch=pitch))
    sound = voice.render("Nine and nine and nine and nine.")
    voice.close()
    return float(np.median([_period_hz(sound, at) for at in range(0, len(sound.samples) - 1024, 512)]))


def _period_hz(sound: Sound, at: int) -> float:
    piece = sound.samples[at : at + 1024] - sound.samples[at : at + 1024].mean()
    alike = np.correlate(piece, piece, "full")[1023:]
    shortest, longest = sound.rate_hz // 400, sound.rate_hz // 60
    return sound.rate_hz / (shortest + int(alike[shortest:longest].argmax()))
