"""What a hearing gains or loses as each number by how like it is to the pupil's own sayings."""

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from saythesum.core.meanings import Number
from saythesum.hearing.embedded.own_words.comparable import comparable
from saythesum.hearing.embedded.own_words.own_words import WORDS, OwnWords, Take
from saythesum.hearing.embedded.own_words.warping import Stacked
from saythesum.ports import Frames, Hearing, Hypothesis

LIKE = 0.24
"""A saying less like a word than that is nothing in its favour: other sounds would be taken for words."""
NATS_A_DISTANCE = 24.0
"""Half of it for being like the word, half for being more like it than like any other. Measured with LIKE and MOST_NATS
by `python -m tests.tools.listening.own_words`; twice as much, or a limit on the second half, changes little."""
MOST_NATS = 6.0
A_LATER_DAY = 0.01
"""A take is so much less like anything for each later day with takes of its word: a voice changes, and a microphone.
Not measured, as no recordings of several days were to be had."""
BELOW_FLOOR_NATS = 1.0
"""A word that the search has dropped can have had this much less than the last that it kept, at most."""
RIVAL_NATS, BESIDE_NATS = 4.0, 2.0
"""A word this near to the likeliest may have been said. Where the pupil has no takes of it, no other gains that was not
so much likelier: else what sounds a little like a word would be that word. Measured by the same with one word's
takes left out: 11 of 398 of the hardest speaker's digits were taken wrongly with no such rule, 4 without own words."""


class Comparison:
    """Made once from a pupil's own words; any number of threads may use it."""

    def __init__(self, own: OwnWords) -> None:
        self.own = own
        self._numbers = np.array([take.number for take in own.takes])
        self._ages = np.array([_later_days(take, own) * A_LATER_DAY for take in own.takes], np.float32)
        self._stacked = Stacked([take.frames for take in own.takes]) if len(own.counts) > 1 else None

    @property
    def is_of_use(self) -> bool:
        """One word alone is more like itself than like nothing."""
        return self._stacked is not None

    def of(self, hearing: Hearing) -> Hearing:
        """With what its numbers gain and lose; words without takes are left as they are."""
        if hearing.frames is None or not hearing.ranked:
            return hearing
        bonuses = self.bonuses(hearing.frames)
        scores = {entry.meaning: entry.log_probability for entry in hearing.ranked}
        floor = hearing.ranked[-1].log_probability - BELOW_FLOOR_NATS
        gains_from = _likeliest_rival(hearing, bonuses) + BESIDE_NATS
        for number, bonus in bonuses.items():
            meaning = Number(number)
            before = scores.get(meaning, floor)
            gained = bonus if before > gains_from else min(bonus, 0.0)
            if meaning in scores or gained > 0:
                scores[meaning] = before + gained
        ranked = sorted(scores.items(), key=lambda entry: entry[1], reverse=True)
        return replace(hearing, ranked=tuple(Hypothesis(meaning, score) for meaning, score in ranked))

    def bonuses(self, frames: Frames) -> Mapping[int, float]:
        """Nats for each number that has takes; none where hardly anything was said."""
        inside = comparable(frames) if self._stacked else None
        if inside is None or self._stacked is None:
            return {}
        each = self._stacked.distances(inside) + self._ages
        nearest = {number: float(each[self._numbers == number].min()) for number in self.own.counts}
        return {number: _bonus(number, nearest) for number in nearest}


def _later_days(take: Take, own: OwnWords) -> int:
    return len({other.on for other in own.takes if other.number == take.number and other.on > take.on})


def _bonus(number: int, nearest: Mapping[int, float]) -> float:
    """A word that was hardly like its takes loses only where another was: one or two do not show all the ways in which
    a pupil says it."""
    own = nearest[number]
    other = min(distance for another, distance in nearest.items() if another != number)
    if min(own, other) > LIKE:
        return 0.0
    bonus = NATS_A_DISTANCE / 2 * (max(LIKE - own, 0.0) + other - own)
    return max(-MOST_NATS, min(bonus, MOST_NATS))


def _likeliest_rival(hearing: Hearing, bonuses: Mapping[int, float]) -> float:
    """The log-probability of the likeliest word without takes that may have been said."""
    least = hearing.ranked[0].log_probability - RIVAL_NATS
    return max(
        (
            entry.log_probability
            for entry in hearing.ranked
            if isinstance(entry.meaning, Number)
            and entry.meaning.value in WORDS - bonuses.keys()
            and entry.log_probability > least
        ),
        default=-math.inf,
    )
