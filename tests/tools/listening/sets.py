"""The sets of recordings by name."""

import os
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from tests.tools.listening.noises import NOISES, noise
from tests.tools.listening.other_people import (
    letters_and_syllables,
    timekeepers_numbers,
    timekeepers_other_words,
    umpires_numbers,
    umpires_other_words,
)
from tests.tools.listening.sounds import (
    FLITE_VOICES,
    Clip,
    flite_numbers,
    near_words,
    speaker,
    speakers,
    womans_numbers,
    womans_other_phrases,
)

TOP = Path(__file__).resolve().parents[3]
_NOISES_OF_EACH = 4
_FLITE_NUMBERS = 65


@dataclass(frozen=True, slots=True)
class Set:
    name: str
    clips: Callable[[], Iterable[Clip]]
    """Raises MissingError where they are not on this machine."""
    has_numbers: bool = True
    is_person: bool = True
    """Somebody real: what the aims and the limits are about."""
    is_speaker: bool = False
    """Of the folder that may be anybody's."""


def speakers_folder(given: str | None = None) -> Path:
    """A folder with one of VALUE-TAKE.wav for each speaker, somewhere inside it."""
    return Path(given or os.environ.get("SAYTHESUM_SOUNDS") or TOP / "../shared/sounds")


def sets(folder: Path) -> Iterator[Set]:
    yield Set("recorded woman, 0-99", womans_numbers)
    yield Set("timekeeper, 0-59", timekeepers_numbers)
    yield Set("umpire, 0-39", umpires_numbers)
    for home in speakers(folder):
        yield Set(home.name, partial(speaker, home), is_speaker=True)
    for voice in FLITE_VOICES:
        yield Set(f"flite {voice}, of 0-129", partial(flite_numbers, voice, _FLITE_NUMBERS), is_person=False)
    yield Set("woman's other phrases", womans_other_phrases, has_numbers=False)
    yield Set("the men's other words", lambda: timekeepers_other_words() + umpires_other_words(), has_numbers=False)
    yield Set("letters and syllables", letters_and_syllables, has_numbers=False)
    yield Set("flite, near words", near_words, has_numbers=False, is_person=False)
    yield Set("noises by rule", noises, has_numbers=False)


def noises() -> list[Clip]:
    return [
        Clip("noises", f"{make.__name__}-{seed}", None, partial(noise, make, seed))
        for make in NOISES
        for seed in range(_NOISES_OF_EACH)
    ]
