"""What every voice must do, whoever it is."""

from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from saythesum.ports import Sound, Voice
from saythesum.settings import Speech
from saythesum.speaking.phrase_cache import KeptVoice
from saythesum.speaking.voice import ChildVoice

VOICES: dict[str, Callable[[Speech, Path], Voice]] = {
    "child": lambda speech, _: ChildVoice(speech),
    "kept": lambda speech, folder: KeptVoice(ChildVoice(speech), folder),
}


@pytest.fixture(params=VOICES)
def make(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[[Speech], Voice]:
    return lambda speech: VOICES[request.param](speech, tmp_path)


@pytest.fixture
def voice(make: Callable[[Speech], Voice]) -> Iterator[Voice]:
    voice = make(Speech())
    yield voice
    voice.close()


def test_sound_is_as_the_port_says(voice: Voice) -> None:
    sound = voice.render("Sixty-four add seven.")
    assert isinstance(sound, Sound)
    assert sound.samples.dtype == np.float32
    assert sound.samples.ndim == 1
    assert np.abs(sound.samples).max() <= 1
    assert 1_000 < sound.duration_ms < 4_000


def test_more_words_take_longer(voice: Voice) -> None:
    short, long = voice.render("Seventy-one."), voice.render("How many of the seven get you to seventy?")
    assert long.duration_ms > 1.5 * short.duration_ms


@pytest.mark.parametrize("nothing", ["", "  ", "…", "?!"])
def test_a_phrase_without_words_is_no_sound(voice: Voice, nothing: str) -> None:
    assert voice.render(nothing).duration_ms == 0


def test_any_text_can_be_said(voice: Voice) -> None:
    for odd in ("two\nlines", "a\0b", "<b>bold</b> & [[x]]", "vier­zig — fünfzig", "\ud800 six", "😀 seven", "--help"):
        assert voice.render(odd).duration_ms > 0


def test_a_phrase_can_be_said_again(voice: Voice) -> None:
    assert abs(voice.render("Ninety.").duration_ms - voice.render("Ninety.").duration_ms) < 30


def test_a_lower_rate_takes_longer(make: Callable[[Speech], Voice]) -> None:
    slow, fast = make(Speech(rate_wpm=90)), make(Speech(rate_wpm=180))
    phrase = "Sixty-four add seven."
    assert slow.render(phrase).duration_ms > 1.5 * fast.render(phrase).duration_ms
    slow.close()
    fast.close()


def test_closing_twice_is_no_fault(make: Callable[[Speech], Voice]) -> None:
    voice = make(Speech())
    voice.close()
    voice.close()
