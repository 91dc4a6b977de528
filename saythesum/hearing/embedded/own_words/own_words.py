"""One pupil's own sayings of number words, as a value. They hold no sound, but could tell who speaks: voice data."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from saythesum.hearing.embedded.own_words.comparable import comparable, of_unit_length
from saythesum.hearing.embedded.own_words.warping import Stacked
from saythesum.ports import Frames
from saythesum.wording.numbers import TENS, UNDER_TWENTY

WORDS = frozenset({*range(len(UNDER_TWENTY)), *TENS})
"""The numbers that are one word. Others teach nothing: what is said of "forty-two" tells neither of its words apart."""
MOST_TAKES = 8
"""Of a word; the oldest goes. Eight understand the hardest speaker tried better than four, by a few in a hundred."""
ODD_ABOVE = 0.30
"""A take this unlike every other of its word may be another word, or another person."""
CLEARLY_NEARER = 0.03
"""So much more like another word than like its own, it may be that."""

_STEPS = 127
"""Kept as whole numbers of so many steps: a frame's direction is told to less than a degree."""


@dataclass(frozen=True, slots=True)
class Take:
    """One saying of a number word."""

    number: int
    on: date
    length: int
    """In frames; 0 where it was too short to be a word."""
    packed: bytes
    """Frames without the quiet around them, a signed byte for each feature."""

    @property
    def frames(self) -> Frames:
        """[frames, features], each of unit length."""
        return of_unit_length(np.frombuffer(self.packed, np.int8).reshape(self.length, -1).astype(np.float32))


@dataclass(frozen=True, slots=True)
class Odd:
    """A take that is not kept by itself: it is unlike the pupil's others of that word, or like another word of
    theirs. Whoever said it may be asked to say it once more."""

    take: Take
    like: int | None = None
    """The number that it is more like; None where it is like none, or too short to be a word."""


@dataclass(frozen=True, slots=True)
class OwnWords:
    """What a pupil's words are compared with."""

    model: str
    """SHA-256 of the encoder that made the frames."""
    factor: float
    """The vocal-tract factor by which the sound was lowered before."""
    takes: tuple[Take, ...] = ()
    """Oldest first."""

    @property
    def counts(self) -> Mapping[int, int]:
        """Takes of each number that has any."""
        return Counter(take.number for take in self.takes)

    def with_take(self, number: int, frames: Frames, *, on: date, again: Odd | None = None) -> "OwnWords | Odd":
        """`frames` as the encoder made them (`Hearing.frames`). `again`: what was odd before, of the same number; two
        that are alike are kept, both. Raises ValueError for a number that is not one word."""
        if number not in WORDS:
            raise ValueError(f"{number} is not one word; right would be one of {sorted(WORDS)}")
        inside = comparable(frames)
        take = _taken(number, on, frames[:0] if inside is None else inside)
        if inside is None:
            return Odd(take)
        if again and again.take.length and _nearest(inside, [again.take]) <= ODD_ABOVE:
            return self._with(again.take)._with(take)
        return self._odd(take, inside) or self._with(take)

    def _odd(self, take: Take, frames: Frames) -> Odd | None:
        to_own = _nearest(frames, [other for other in self.takes if other.number == take.number])
        to_others = {
            number: _nearest(frames, [other for other in self.takes if other.number == number])
            for number in self.counts.keys() - {take.number}
        }
        nearest = min(to_others, key=lambda number: to_others[number], default=None)
        if nearest is not None and to_others[nearest] < min(to_own, ODD_ABOVE) - CLEARLY_NEARER:
            return Odd(take, like=nearest)
        return Odd(take) if self.counts[take.number] and to_own > ODD_ABOVE else None

    def _with(self, take: Take) -> "OwnWords":
        same = [other for other in self.takes if other.number == take.number]
        gone = set(map(id, same[: len(same) + 1 - MOST_TAKES]))
        return replace(self, takes=(*(other for other in self.takes if id(other) not in gone), take))


def _taken(number: int, on: date, frames: Frames) -> Take:
    highest = np.abs(frames).max(axis=1, keepdims=True, initial=1e-9)
    return Take(number, on, len(frames), np.rint(frames / highest * _STEPS).astype(np.int8).tobytes())


def _nearest(frames: Frames, takes: Sequence[Take]) -> float:
    return float(Stacked([take.frames for take in takes]).distances(frames).min()) if takes else np.inf
