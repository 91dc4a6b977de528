"""The recordings that listening is measured on. Each maker of a set says in one sentence what is missing."""

import random
import shutil
import subprocess
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.wording.numbers import words

PROMPTS = Path("/usr/share/asterisk/sounds/en")
"""Where Debian's package puts the recorded prompts of one woman, in G.722."""
PROMPTS_PACKAGE = "asterisk-core-sounds-en-g722"
SEED = 1
LEAD_S, TAIL_S = 0.4, 0.9
NEAR_SILENCE = 1e-4
_NO_SPEECH = {"beep", "beeperr", "ascending-2tone", "descending-2tone"}
_SOUNDS_LIKE_FOUR = {"for", "vm-for"}
FLITE_VOICES = ("slt", "rms", "awb", "kal16")


class MissingError(Exception):
    """Something that the measurement needs is not on this machine."""


@dataclass(frozen=True, slots=True, eq=False)
class Clip:
    voice: str
    name: str
    said: int | None
    """The number said; None for a phrase that is none."""
    recorded: Callable[[], Samples]
    """As it is; read when it is first needed."""

    @property
    def samples(self) -> Samples:
        return padded(self.recorded())


def need(program: str) -> None:
    """Debian's packages of the programs used here have their names."""
    if not shutil.which(program):
        raise MissingError(f"{program} is missing; on Debian: apt-get install {program}")


@cache
def sound_file(path: Path, *raw: str) -> Samples:
    """Any file that ffmpeg reads, as LISTENING_RATE_HZ mono. `raw`: what ffmpeg is to know of one without a header."""
    need("ffmpeg")
    command = ["ffmpeg", "-v", "error", *raw, "-i", str(path)]
    command += ["-ac", "1", "-ar", str(LISTENING_RATE_HZ), "-f", "f32le", "-"]
    return np.frombuffer(subprocess.run(command, capture_output=True, check=True).stdout, dtype=np.float32)


def padded(samples: Samples) -> Samples:
    """With near-silence before and after, as a microphone would have it."""
    dice = np.random.default_rng(SEED)
    lead, tail = (
        (dice.standard_normal(int(seconds * LISTENING_RATE_HZ)) * NEAR_SILENCE).astype(np.float32)
        for seconds in (LEAD_S, TAIL_S)
    )
    return np.concatenate([lead, samples, tail])


def womans_number(value: int) -> Samples:
    """0 to 99; she recorded 0 to 20 and the tens, the others are two of her words joined without a gap."""
    return joined(value, _womans_word)


def _womans_word(value: int) -> Samples:
    return prompt(f"digits/{value}")


def prompt(name: str) -> Samples:
    need_folder(PROMPTS / "digits", PROMPTS_PACKAGE)
    return sound_file(PROMPTS / f"{name}.g722")


def womans_numbers() -> list[Clip]:
    need_folder(PROMPTS / "digits", PROMPTS_PACKAGE)
    return [Clip("woman", str(value), value, partial(womans_number, value)) for value in range(100)]


def womans_other_phrases(count: int | None = None) -> list[Clip]:
    """All that she recorded that is speech and no number of its own, or so many of it by a fixed seed."""
    need_folder(PROMPTS / "digits", PROMPTS_PACKAGE)
    spoken = sorted(path for path in PROMPTS.resolve().rglob("*.g722") if _is_other_phrase(path))
    chosen = spoken if count is None else random.Random(SEED).sample(spoken, count)
    return [Clip("woman", f"{path.parent.name}/{path.stem}", None, partial(sound_file, path)) for path in chosen]


def _is_other_phrase(path: Path) -> bool:
    is_number = path.parent.name == "digits" and (path.stem.isdigit() or path.stem in ("hundred", "thousand"))
    return not is_number and path.parent.name != "silence" and path.stem not in _NO_SPEECH | _SOUNDS_LIKE_FOUR


def need_folder(folder: Path, package: str) -> None:
    if not folder.is_dir():
        raise MissingError(f"Recordings are missing; on Debian: apt-get install {package}")


def joined(value: int, word: Callable[[int], Samples]) -> Samples:
    """Below a hundred: one word, or the ten's and the one's."""
    if value <= 20 or value % 10 == 0:
        return word(value)
    return np.concatenate([word(value - value % 10), word(value % 10)])


def speakers(folder: Path) -> list[Path]:
    """The folder of each speaker in `folder`. None where it is not there."""
    return sorted({path.parent for path in folder.rglob("*.wav")}) if folder.is_dir() else []


def speaker(home: Path) -> list[Clip]:
    """Their recordings are named VALUE-TAKE.wav."""
    return [
        Clip(home.name, path.stem, int(path.stem.split("-")[0]), partial(sound_file, path))
        for path in sorted(home.glob("*.wav"))
    ]


def flite_numbers(voice: str, count: int) -> list[Clip]:
    """Of 0 to 129 by a fixed seed, the same for each voice."""
    need("flite")
    values = random.Random(SEED).sample(range(130), count)
    return [Clip(voice, str(value), value, partial(flite, voice, words(value))) for value in values]


NEAR_WORDS = (
    *("fix", "shoe", "swan", "degree", "won't", "tune", "sieve", "feet"),
    *("wane", "tend", "naval", "pour", "trick", "eager", "heathen", "bright"),
)
"""They sound like number words. Neither they nor the voice that says them here belong to what the second opinion
learns from."""
NEAR_WORDS_VOICE = "awb"


def near_words() -> list[Clip]:
    need("flite")
    return [Clip(NEAR_WORDS_VOICE, word, None, partial(flite, NEAR_WORDS_VOICE, word)) for word in NEAR_WORDS]


@cache
def flite(voice: str, text: str) -> Samples:
    need("flite")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True)
        return sound_file(path)
