import pytest

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase, recording_name
from saythesum.ports import LISTENING_RATE_HZ, Sound
from saythesum.settings.shipped_files import audio_folder, models_folder
from saythesum.speaking.loudness import SPEECH_RMS, active_rms, trimmed
from saythesum.wording.numbers import words
from tests.tools.make_pupil_audio import SAID

MOST_BYTES = 4_000_000


def phrase(text: str) -> Sound:
    sound = pupil_phrase(text)
    assert sound is not None, text
    return sound


def test_every_number_that_can_be_awaited_is_there() -> None:
    for number in (*range(0, 140), *range(140, 1_100, 7)):
        assert 250 < phrase(words(number)).duration_ms < 3_000, number


@pytest.mark.parametrize("said", SAID)
def test_everything_else_that_is_said_is_there(said: str) -> None:
    assert 100 < phrase(said).duration_ms < 2_500


def test_recordings_are_as_the_ear_takes_them() -> None:
    for path in (audio_folder() / "pupil").glob("*.wav"):
        sound = phrase(path.stem.replace("-", " "))
        assert sound.rate_hz == LISTENING_RATE_HZ
        assert active_rms(sound) == pytest.approx(SPEECH_RMS, rel=0.05)
        assert abs(trimmed(sound).duration_ms - sound.duration_ms) <= 40, path.name


def test_a_comma_is_a_short_silence() -> None:
    corrected = phrase("no, eighty-one")
    apart_ms = phrase("no").duration_ms + phrase("eighty-one").duration_ms
    assert corrected.duration_ms == pytest.approx(apart_ms + 250, abs=2)
    assert phrase("I don't know").duration_ms == phrase("i dont know").duration_ms


def test_what_was_never_recorded_is_none() -> None:
    for never in ("good morning", "no, good morning", "", ",", "seven and eight", "../ear-open"):
        assert pupil_phrase(never) is None


def test_a_file_is_named_by_its_words() -> None:
    assert recording_name("That's what I said first") == "thats-what-i-said-first.wav"


def test_the_recordings_stay_small() -> None:
    assert sum(path.stat().st_size for path in (audio_folder() / "pupil").iterdir()) < MOST_BYTES


def test_the_folders_are_found_in_a_checkout() -> None:
    assert (audio_folder() / "ear-open.wav").is_file()
    assert (models_folder() / "README.md").is_file()
