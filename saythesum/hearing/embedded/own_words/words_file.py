"""The one file in which a pupil's own words are kept, `pupils/CODE.words`. It holds no sound."""

import io
import zipfile
import zlib
from collections.abc import Callable
from datetime import date
from pathlib import Path
from tokenize import TokenError

import numpy as np

from saythesum.hearing.embedded.moonshine import encoder_sha256
from saythesum.hearing.embedded.own_words.own_words import WORDS, OwnWords, Take
from saythesum.settings.changing import replace_file

SUFFIX = ".words"
_VERSION = 1
_FEATURES = 288


def none_yet(factor: float) -> OwnWords:
    """Of a pupil who is heard lowered by that factor, with the embedded model. Raises ListeningError without it."""
    return OwnWords(encoder_sha256(), factor)


def read_own_words(path: Path, factor: float, report: Callable[[str], None]) -> OwnWords:
    """Those that are kept there, as far as they fit: none where there are none, or the file is left aside; then
    `report` gets a sentence. It stays as it is until words are kept there again.

    `factor`: the pupil's vocal-tract factor as it is now. Raises ListeningError without the embedded model.
    """
    empty = none_yet(factor)
    try:
        kept = _unpacked(path.read_bytes())
    except FileNotFoundError:
        return empty
    except OSError as error:
        report(f"{path} cannot be read ({error.strerror}); {_WITHOUT}")
        return empty
    except _NO_SUCH_FILE:
        report(f"{path} is cut off or damaged; {_WITHOUT}")
        return empty
    if kept.model != empty.model:
        report(f"{path} was made with another speech model; {_WITHOUT}")
        return empty
    if kept.factor != factor:
        was, now = f"{kept.factor:g}", f"{factor:g}"
        report(f"{path} was made while listening was lowered by {was}, and it is lowered by {now} now; {_WITHOUT}")
        return empty
    return kept


_NO_SUCH_FILE = (
    *(ValueError, TypeError, KeyError, EOFError, OverflowError, RuntimeError),
    *(zipfile.BadZipFile, zlib.error, TokenError),  # the last where the header of an array is damaged
)
"""What reading anything else than a file of ours may come to."""
_WITHOUT = "listening goes on without the pupil's own words, until they are said anew."


def keep_own_words(path: Path, own: OwnWords) -> None:
    """Whole or not at all, for the user's eyes only. Raises OSError."""
    replace_file(path, _packed(own))


def _packed(own: OwnWords) -> bytes:
    """Without compression: frames are noise to it. Each part has a checksum."""
    file = io.BytesIO()
    np.savez(
        file,
        version=np.int64(_VERSION),
        model=np.str_(own.model),
        factor=np.float64(own.factor),
        numbers=np.array([take.number for take in own.takes], np.int64),
        days=np.array([take.on.toordinal() for take in own.takes], np.int64),
        lengths=np.array([take.length for take in own.takes], np.int64),
        frames=np.frombuffer(b"".join(take.packed for take in own.takes), np.int8),
    )
    return file.getvalue()


def _unpacked(content: bytes) -> OwnWords:
    """Raises ValueError and the like where they are anything else than what was packed."""
    with np.load(io.BytesIO(content), allow_pickle=False) as held:
        if held["version"] != _VERSION:
            raise ValueError("of another version")
        numbers, days, lengths = (held[name].tolist() for name in ("numbers", "days", "lengths"))
        takes = _takes(numbers, days, lengths, held["frames"].tobytes())
        return OwnWords(str(held["model"]), float(held["factor"]), takes)


def _takes(numbers: list[int], days: list[int], lengths: list[int], frames: bytes) -> tuple[Take, ...]:
    if not set(numbers) <= WORDS or min(lengths, default=1) < 1 or sum(lengths) * _FEATURES != len(frames):
        raise ValueError("no takes of number words")
    file = io.BytesIO(frames)
    return tuple(
        Take(number, date.fromordinal(day), length, file.read(length * _FEATURES))
        for number, day, length in zip(numbers, days, lengths, strict=True)
    )
