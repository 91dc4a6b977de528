"""Packs the recordings of people into one file, so that the bank can be made on another machine.

    python -m tests.tools.second_opinion.recordings SPEAKERS FILE

SPEAKERS as for `tests.tools.listening`: of each speaker there, every VALUE-TAKE.wav. The woman of the prompts comes
from Debian's package. FILE is an npz of 16-bit sound at LISTENING_RATE_HZ, named SPEAKER/SAID/CLIP.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.listening.sounds import Clip, speaker, speakers, womans_numbers, womans_other_phrases
from tests.tools.second_opinion.sayings import Saying, number_meaning, number_words
from tests.tools.second_opinion.vocabulary import OTHER, OTHER_WORD

_MOST_WORDS = 6
_LONGEST_S = 1.8
"""Longer ones are sentences, of which one more or less teaches nothing."""


@dataclass(frozen=True, slots=True, eq=False)
class Recording:
    speaker: str
    saying: Saying
    samples: Samples


def main() -> None:
    folder, file = Path(sys.argv[1]), Path(sys.argv[2])
    clips = [clip for home in speakers(folder) for clip in speaker(home)]
    clips += womans_numbers() + womans_other_phrases()
    packed = {_name(clip): _as_integers(clip.recorded()) for clip in clips}
    packed = {name: whole for name, whole in packed.items() if len(whole) <= _LONGEST_S * LISTENING_RATE_HZ}
    np.savez(file, allow_pickle=False, **packed)
    print(f"{len(packed)} recordings, {file.stat().st_size / 1e6:.1f} MB")


def _as_integers(samples: Samples) -> np.ndarray[tuple[int], np.dtype[np.int16]]:
    return (samples * 32767).clip(-32768, 32767).astype(np.int16)


def _name(clip: Clip) -> str:
    said = OTHER if clip.said is None else str(clip.said)
    return f"{clip.voice}/{said}/{clip.name.replace('/', ' ')}"


def packed_recordings(file: Path) -> Iterator[Recording]:
    with np.load(file) as found:
        for name in sorted(found.files):
            who, said, clip = name.split("/")
            yield Recording(who, _saying(said, clip), found[name].astype(np.float32) / 32768)


def _saying(said: str, clip: str) -> Saying:
    if said != OTHER:
        value = int(said)
        return Saying(said, tuple(number_words(value)[0]), number_meaning(value))
    is_letter = clip.startswith("letters ")
    count = 1 if is_letter else min(_MOST_WORDS, len(clip.rsplit(" ", maxsplit=1)[-1].split("-")))
    return Saying(clip, (OTHER_WORD,) * count, OTHER)


if __name__ == "__main__":
    main()
