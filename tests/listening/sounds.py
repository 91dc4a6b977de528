"""The recordings that listening is measured on. Each maker of a set says in one sentence what is missing."""

import random
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
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
FLITE_VOICES = ("slt", "rms", "awb", "kal16")


class MissingError(Exception):
    """Something that the measurement needs is not on this machine."""


@dataclass(frozen=True, slots=True, eq=False)
class Clip:
    name: str
    said: int | None
    """The number said; None for a phrase that is none."""
    samples: Samples


@cache
def sound_file(path: Path) -> Samples:
    """Any file that ffmpeg reads, as LISTENING_RATE_HZ mono."""
    if not shutil.which("ffmpeg"):
        raise MissingError("ffmpeg is missing; on Debian: apt-get install ffmpeg")
    command = ["ffmpeg", "-v", "error", "-i", str(path), "-ac", "1", "-ar", str(LISTENING_RATE_HZ), "-f", "f32le", "-"]
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
    if value <= 20 or value % 10 == 0:
        return prompt(f"digits/{value}")
    return np.concatenate([prompt(f"digits/{value - value % 10}"), prompt(f"digits/{value % 10}")])


def prompt(name: str) -> Samples:
    _need_prompts()
    return sound_file(PROMPTS / f"{name}.g722")


def womans_numbers() -> list[Clip]:
    return [Clip(str(value), value, padded(womans_number(value))) for value in range(100)]


def womans_other_phrases(count: int) -> list[Clip]:
    """By a fixed seed, of everything she recorded that is speech and no number of its own."""
    _need_prompts()
    spoken = sorted(path for path in PROMPTS.resolve().rglob("*.g722") if _is_other_phrase(path))
    chosen = random.Random(SEED).sample(spoken, count)
    return [Clip(path.stem, None, padded(sound_file(path))) for path in chosen]


def _is_other_phrase(path: Path) -> bool:
    is_number = path.parent.name == "digits" and (path.stem.isdigit() or path.stem in ("hundred", "thousand"))
    return not is_number and path.parent.name != "silence" and path.stem not in _NO_SPEECH


def _need_prompts() -> None:
    if not (PROMPTS / "digits").is_dir():
        raise MissingError(f"The recorded prompts are missing; on Debian: apt-get install {PROMPTS_PACKAGE}")


def speakers(folder: Path) -> Iterator[tuple[str, list[Clip]]]:
    """Each folder of `VALUE-TAKE.wav` under `folder` is one speaker. None where the folder is not there."""
    homes = sorted({path.parent for path in folder.rglob("*.wav")}) if folder.is_dir() else []
    for home in homes:
        clips = [
            Clip(path.stem, int(path.stem.split("-")[0]), padded(sound_file(path)))
            for path in sorted(home.glob("*.wav"))
        ]
        yield home.name, clips


def flite_numbers(voice: str, count: int) -> list[Clip]:
    """Of 0 to 129 by a fixed seed, the same for each voice."""
    values = random.Random(SEED).sample(range(130), count)
    return [Clip(str(value), value, padded(flite(voice, words(value)))) for value in values]


@cache
def flite(voice: str, text: str) -> Samples:
    if not shutil.which("flite"):
        raise MissingError("flite is missing; on Debian: apt-get install flite")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True)
        return sound_file(path)
