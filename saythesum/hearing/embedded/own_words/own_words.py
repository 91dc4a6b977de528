"""One pupil's own sayings of number words, as a value. They hold no sound, but could tell who speaks: voice data."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from statistics import median

import numpy as np

from saythesum.hearing.embedded.own_words.comparable import comparable, of_unit_length
from saythesum.hearing.embedded.own_words.warping import Stacked
from saythesum.ports import Frames
from saythesum.wording.numbers import TENS, UNDER_TWENTY

WORDS = frozenset({*range(len(UNDER_TWENTY)), *TENS})
"""The numbers that are one word. Others teach nothing: what is said of "forty-two" tells neither of its words apart."""
MOST_TAKES = 8
"""Of a word; the oldest goes. Eight understand the hardest speaker tried better than four, by a few in a hundred."""
ODD_TIMES, ODD_FROM, ODD_AT_MOST = 2.0, 0.20, 0.35
"""A take may be another word, or another person, where it is so many times less like the others of its word than the
pupil's takes are like each other, within these limits. Measured on three men with two takes of each digit: 1 to 10 in a
hundred of their own are odd for this or the next reason, and 13 to 77 of another man's in their place."""
CLEARLY_NEARER = 0.05
LIKE_ANOTHER = 0.15
"""It may also be another word where it is so much more like that; or, before there are takes of its own word, where it
is hardly less like another than that is like itself. Measured on the same: 0 to 6 in a hundred of their own."""

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
        if again and again.take.length and _nearest(inside, [again.take]) <= self._odd_from():
            return self._with(again.take)._with(take)
        return self._odd(take, inside) or self._with(take)

    def _odd(self, take: Take, frames: Frames) -> Odd | None:
        to_each = {number: _nearest(frames, takes) for number, takes in self._by_number().items()}
        to_own = to_each.pop(take.number, None)
        other = min(to_each, key=lambda number: to_each[number], default=None)
        if other is not None and to_each[other] < (LIKE_ANOTHER if to_own is None else to_own - CLEARLY_NEARER):
            return Odd(take, like=other)
        return Odd(take) if to_own is not None and to_own > self._odd_from() else None

    def _odd_from(self) -> float:
        several = [takes for takes in self._by_number().values() if len(takes) > 1]
        alike = [_nearest(newest.frames, others) for *others, newest in several]
        return max(ODD_FROM, min(ODD_TIMES * median(alike), ODD_AT_MOST)) if alike else ODD_AT_MOST

    def _by_number(self) -> Mapping[int, Sequence[Take]]:
        found: dict[int, list[Take]] = {}
        for take in self.takes:
            found.setdefault(take.number, []).append(take)
        return found

    def _with(self, take: Take) -> "OwnWords":
        same = [other for other in self.takes if other.number == take.number]
        too_old = same[: max(0, len(same) + 1 - MOST_TAKES)]
        return replace(self, takes=(*(other for other in self.takes if all(other is not old for old in too_old)), take))


def _taken(number: int, on: date, frames: Frames) -> Take:
    highest = np.abs(frames).max(axis=1, keepdims=True, initial=1e-9)
    return Take(number, on, len(frames), np.rint(frames / highest * _STEPS).astype(np.int8).tobytes())


def _nearest(frames: Frames, takes: Sequence[Take]) -> float:
    return float(Stacked([take.frames for take in takes]).distances(frames).min())
