"""Makes the bank that the second opinion learns from: the encoder's frames of many thousand sayings.

    python -m tests.tools.second_opinion.bank FOLDER --encoder FILE [--recordings FILE] [--parts N]

Each part is drawn from a seed of its own, so that the same parts come out on any number of cores. A part holds about
a thousand clips, in FOLDER/PART.npz: `frames` of all its clips one after the other, `lengths`, `sources`, `meanings`,
and `words` as numbers with -1 between clips.
"""

import argparse
import os
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
import onnxruntime

from saythesum.hearing.embedded.recogniser import with_quiet_end
from saythesum.ports import LISTENING_RATE_HZ, Samples
from tests.tools.second_opinion import voices
from tests.tools.second_opinion.accents import accented
from tests.tools.second_opinion.effects import Dice, heard_through, in_a_room, talk
from tests.tools.second_opinion.other_sounds import other_sound
from tests.tools.second_opinion.recordings import Recording, packed_recordings
from tests.tools.second_opinion.sayings import Saying, drawn
from tests.tools.second_opinion.vocabulary import MEANINGS, OTHER, WORDS

PARTS = 96
FIRST_SEED = 1000
LONGEST_S = 4.2
_KEPT_OTHERS = 300
ESPEAK, ACCENTS, FLITE, HIBARI, FESTIVAL, NOISES = 230, 130, 50, 32, 14, 44
"""Sayings in a part. Each is heard through several rooms: of the few voices that sound most like people, more."""
_ROOMS = {"espeak": 2, "accent": 2, "flite": 3, "hibari": 5, "festival": 4}
_ROOMS_OF_A_PERSON = 6


@dataclass
class Part:
    """What has been made so far."""

    encoder: Any
    dice: Dice
    frames: list[np.ndarray[Any, np.dtype[np.float16]]] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)
    meanings: list[int] = field(default_factory=list)
    words: list[int] = field(default_factory=list)
    others: list[Samples] = field(default_factory=list)

    def add_saying(self, source: str, saying: Saying, spoken: Samples, rooms: int) -> None:
        self.others = [*self.others[-_KEPT_OTHERS:], spoken]
        for _ in range(rooms):
            heard = heard_through(spoken, self.dice, self.others)
            if heard is not None and len(heard) <= LONGEST_S * LISTENING_RATE_HZ:
                self.add(source, saying, heard)

    def add(self, source: str, saying: Saying, heard: Samples) -> None:
        whole = with_quiet_end(heard - heard.mean())[None]
        mask = np.ones(whole.shape, np.int64)
        frames = self.encoder.run(None, {"input_values": whole, "attention_mask": mask})[0][0]
        self.frames.append(frames.astype(np.float16))
        self.sources.append(source)
        self.meanings.append(MEANINGS.index(saying.meaning))
        self.words += [*(WORDS.index(word) for word in saying.words), -1]

    def save(self, path: Path) -> None:
        np.savez(
            path,
            frames=np.concatenate(self.frames),
            lengths=np.array([len(frames) for frames in self.frames]),
            sources=np.array(self.sources),
            meanings=np.array(self.meanings),
            words=np.array(self.words),
        )


def made(place: int, *, folder: Path, encoder: Path, recordings: Path | None, parts: int) -> Counter[str]:
    """One part, from its own seed. Gives the number of its clips by source."""
    random, dice = Random(FIRST_SEED + place), np.random.default_rng(FIRST_SEED + place)
    part = Part(_opened(encoder), dice)
    everybody = list(packed_recordings(recordings)) if recordings else []
    sayings = list(_sayings(random, everybody[place::parts]))
    random.shuffle(sayings)
    for source, saying, spoken, rooms in sayings:
        part.add_saying(source, saying, spoken, rooms)
    for _ in range(NOISES):
        sound = in_a_room(other_sound(dice).astype(np.float64), dice)
        part.add("noise", Saying("", (), OTHER), np.clip(sound, -1, 1).astype(np.float32))
    for _ in range(NOISES // 4):
        part.add("noise", Saying("", (), OTHER), _far_talk(part))
    part.save(folder / f"{place}.npz")
    return Counter(source.split(":")[0] for source in part.sources)


def _far_talk(part: Part) -> Samples:
    count = int(part.dice.uniform(0.6, 2.0) * LISTENING_RATE_HZ)
    total = talk(part.others, count, part.dice) + talk(part.others, count, part.dice)
    quiet: Samples = (total / (np.abs(total).max() + 1e-9) * part.dice.uniform(0.01, 0.5)).astype(np.float32)
    return quiet


def _sayings(random: Random, people: list[Recording]) -> Iterator[tuple[str, Saying, Samples, int]]:
    words = voices.lexicon()
    for _ in range(ESPEAK):
        saying = drawn(random, words)
        variant, spoken = voices.espeak(random.choice(voices.DIALECTS), saying.text, random)
        yield f"espeak:{variant}", saying, spoken, _ROOMS["espeak"]
    for _ in range(ACCENTS):
        language, saying = accented(random, words)
        variant, spoken = voices.espeak(language, saying.text, random)
        yield f"accent:{language}", saying, spoken, _ROOMS["accent"]
    for _ in range(FLITE):
        saying, voice = drawn(random, words), random.choice(list(voices.FLITE_PITCHES_HZ))
        yield f"flite:{voice}", saying, voices.flite(voice, saying.text, random), _ROOMS["flite"]
    for _ in range(HIBARI):
        saying = drawn(random, words, respelt=False)
        yield "hibari", saying, voices.hibari(saying.text, random), _ROOMS["hibari"]
    for voice in voices.FESTIVAL_VOICES:
        sayings = [drawn(random, words, respelt=False) for _ in range(FESTIVAL // len(voices.FESTIVAL_VOICES))]
        for saying, spoken in voices.festival(voice, sayings, random):
            yield f"festival:{voice}", saying, spoken, _ROOMS["festival"]
    for person in people:
        yield f"person:{person.speaker}", person.saying, person.samples, _ROOMS_OF_A_PERSON


def _opened(path: Path) -> Any:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = options.inter_op_num_threads = 1
    return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])


def main() -> None:
    asked = _asked()
    asked.folder.mkdir(parents=True, exist_ok=True)
    began, total = time.perf_counter(), Counter[str]()
    make = partial(
        made, folder=asked.folder, encoder=asked.encoder, recordings=asked.recordings, parts=asked.parts_in_all
    )
    with ProcessPoolExecutor(os.cpu_count()) as cores:
        for count, sources in enumerate(cores.map(make, range(asked.parts)), start=1):
            total += sources
            if count % 8 == 0 or count == asked.parts:
                print(f"{count} parts, {total.total()} clips, {time.perf_counter() - began:.0f} s", flush=True)
    print(", ".join(f"{source} {clips}" for source, clips in total.most_common()))


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.tools.second_opinion.bank")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--encoder", type=Path, required=True)
    parser.add_argument("--recordings", type=Path)
    parser.add_argument("--parts", type=int, default=PARTS, help="only the first so many")
    parser.add_argument("--parts-in-all", type=int, default=PARTS)
    return parser.parse_args()


if __name__ == "__main__":
    main()
