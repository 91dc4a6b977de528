"""Numbers, words and letters of people in other Debian packages."""

from functools import partial
from pathlib import Path

from saythesum.ports import Samples
from saythesum.wording.numbers import words
from tests.tools.listening.sounds import Clip, joined, need_folder, sound_file

TIMEKEEPER = Path("/usr/share/saytime")
"""One man, µ-law at 8 kHz."""
UMPIRE = Path("/usr/share/games/csmash/wav")
SYLLABLES = Path("/usr/share/klettres/en")
_COMMANDS = {"no"}
"""Of the syllables: it is heard as what it says."""


def timekeepers_numbers() -> list[Clip]:
    """0 to 59, as a clock needs them."""
    need_folder(TIMEKEEPER, "saytime")
    return [Clip("timekeeper", str(value), value, partial(joined, value, _timekeepers)) for value in range(60)]


def timekeepers_other_words() -> list[Clip]:
    need_folder(TIMEKEEPER, "saytime")
    names = sorted(path.stem for path in TIMEKEEPER.glob("*.au") if not path.stem.isdigit())
    return [Clip("timekeeper", name, None, partial(_timekeepers, name)) for name in names]


def _timekeepers(word: int | str) -> Samples:
    return sound_file(TIMEKEEPER / f"{word}.au", "-f", "mulaw", "-ar", "8000")


def umpires_numbers() -> list[Clip]:
    """0 to 39: he recorded 0 to 20 and thirty."""
    need_folder(UMPIRE, "csmash-data")
    return [Clip("umpire", str(value), value, partial(joined, value, _umpires)) for value in range(40)]


def umpires_other_words() -> list[Clip]:
    need_folder(UMPIRE, "csmash-data")
    return [Clip("umpire", name, None, partial(sound_file, UMPIRE / f"{name}.wav")) for name in ("all", "loveall")]


def _umpires(word: int) -> Samples:
    return sound_file(UMPIRE / f"{words(word)}.wav")


def letters_and_syllables() -> list[Clip]:
    need_folder(SYLLABLES, "klettres-data")
    paths = sorted(path for path in SYLLABLES.glob("*/*.ogg") if path.stem not in _COMMANDS)
    return [Clip("speller", path.stem, None, partial(sound_file, path)) for path in paths]
