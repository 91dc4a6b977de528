"""The synthesisers that speak for the second opinion, each called with a seed's dice and giving sound to listen to.

They are found on the path, or in the folder that the environment variable SAYTHESUM_VOICES names: in its `bin`,
`lib` and `espeak-ng-data`. Festival's own files have to be where Debian puts them.
"""

import gzip
import json
import os
import shutil
import subprocess
import wave
from functools import cache
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.second_opinion.sayings import Saying, plain_words

ESPEAK_RATE_HZ, HIBARI_RATE_HZ = 22_050, 24_000
DIALECTS = (
    *("en-gb", "en-gb", "en-us", "en-us", "en-gb-scotland", "en-gb-x-gbclan", "en-gb-x-rp", "en-gb-x-gbcwmd"),
    *("en-029", "en-us-nyc"),
)
_UNLIKE_ANYBODY = (
    *("whisper", "demonic", "robosoft", "unirobot", "storm", "ricishay", "anikarobot", "anxious", "croak"),
)
_VARIED = 0.85
FLITE_PITCHES_HZ = {"slt": 170, "rms": 100, "kal": 100, "kal16": 100}
KEPT_FOR_DEVELOPMENT = "awb"
"""flite's Scottish voice: what it says is never learnt from."""
FESTIVAL_VOICES = ("cmu_us_slt_arctic_hts", "ked_diphone")
_FESTIVAL_LONGEST_S = 120


def espeak(language: str, text: str, dice: Random) -> tuple[str, Samples]:
    """The variant that spoke, and its sound."""
    variant = dice.choice(_variants()) if dice.random() < _VARIED else ""
    voice = f"{language}+{variant}" if variant else language
    pace, pitch = dice.randint(105, 225), dice.randint(10, 90)
    command = [_program("espeak-ng"), "-v", voice, "-s", str(pace), "-p", str(pitch), "--stdout", text]
    done = subprocess.run(command, capture_output=True, check=True, env=_environment())
    return variant, at_listening_rate(_pcm(done.stdout[44:]), ESPEAK_RATE_HZ)


@cache
def _variants() -> tuple[str, ...]:
    home = _home()
    folder = home / "espeak-ng-data" if home else _system_espeak_data()
    names = sorted(path.name for path in (folder / "voices" / "!v").iterdir())
    return tuple(name for name in names if not any(unlike in name.lower() for unlike in _UNLIKE_ANYBODY))


def _system_espeak_data() -> Path:
    return next(Path("/usr/lib").glob("*/espeak-ng-data"))


def flite(voice: str, text: str, dice: Random) -> Samples:
    pace, pitch_hz = dice.uniform(0.75, 1.4), FLITE_PITCHES_HZ[voice] * dice.uniform(0.8, 1.3)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        command = [_program(f"flite_cmu_us_{voice}"), "-t", text, "-o", str(path)]
        command += ["--setf", f"duration_stretch={pace:.2f}", "--setf", f"int_f0_target_mean={pitch_hz:.0f}"]
        subprocess.run(command, capture_output=True, check=True, env=_environment())
        return read_wave(path.read_bytes())


def festival(voice: str, sayings: list[Saying], dice: Random) -> list[tuple[Saying, Samples]]:
    """All of them in one go, for it takes longer to start than to speak. What it stumbles over is left out."""
    with TemporaryDirectory() as folder:
        lines = [f"(voice_{voice})"]
        for place, saying in enumerate(sayings):
            lines.append(f"(Parameter.set 'Duration_Stretch {dice.uniform(0.75, 1.35):.2f})")
            spoken = f'(utt.synth (Utterance Text "{saying.text}"))'
            lines.append(f'(utt.save.wave {spoken} "{folder}/{place}.wav" \'riff)')
        script = Path(folder) / "say.scm"
        script.write_text("\n".join(lines), encoding="utf-8")
        command = [_program("festival"), "-b", str(script)]
        subprocess.run(command, capture_output=True, check=False, env=_environment(), timeout=_FESTIVAL_LONGEST_S)
        paths = [(saying, Path(folder) / f"{place}.wav") for place, saying in enumerate(sayings)]
        return [(saying, read_wave(path.read_bytes())) for saying, path in paths if path.exists()]


def hibari(text: str, dice: Random) -> Samples:
    sound = np.asarray(_hibari()(text, speed=dice.uniform(0.7, 1.4), seed=dice.randrange(10**6)), np.float32).ravel()
    return at_listening_rate(sound / np.float32(max(float(np.abs(sound).max()), 0.01)), HIBARI_RATE_HZ)


@cache
def _hibari():  # type: ignore[no-untyped-def]
    from hibari import Hibari

    return Hibari()


@cache
def lexicon() -> list[str]:
    """English words that are no number: those of the package hibari-tts."""
    found = find_spec("hibari")
    assert found and found.submodule_search_locations, "hibari is missing; install it with: pip install hibari-tts"
    path = Path(found.submodule_search_locations[0]) / "assets" / "lexicon_gb_gold.json.gz"
    return plain_words(sorted(json.loads(gzip.decompress(path.read_bytes()))))


def read_wave(packed: bytes) -> Samples:
    with wave.open(BytesIO(packed)) as sound:
        return at_listening_rate(_pcm(sound.readframes(sound.getnframes())), sound.getframerate())


def _pcm(packed: bytes) -> Samples:
    return np.frombuffer(packed[: len(packed) // 2 * 2], np.int16).astype(np.float32) / np.float32(32768)


def at_listening_rate(samples: Samples, rate_hz: int) -> Samples:
    """Band-limited, by the spectrum of the whole."""
    if rate_hz == LISTENING_RATE_HZ or not len(samples):
        return samples
    whole = np.pad(samples, (0, 512))
    count = round(len(whole) * LISTENING_RATE_HZ / rate_hz)
    spectrum = np.fft.rfft(whole)[: count // 2 + 1]
    spectrum = np.pad(spectrum, (0, count // 2 + 1 - len(spectrum)))
    resampled: Samples = (np.fft.irfft(spectrum, count) * (LISTENING_RATE_HZ / rate_hz)).astype(np.float32)
    return resampled


def _home() -> Path | None:
    named = os.environ.get("SAYTHESUM_VOICES")
    return Path(named) if named else None


def _program(name: str) -> str:
    home = _home()
    found = str(home / "bin" / name) if home else shutil.which(name)
    assert found, f"{name} is missing; on Debian it comes with espeak-ng, flite and festival"
    return found


def _environment() -> dict[str, str]:
    home = _home()
    if home is None:
        return dict(os.environ)
    return os.environ | {"LD_LIBRARY_PATH": str(home / "lib"), "ESPEAK_DATA_PATH": str(home)}
