"""Which mistakes a pupil may believe in, after all that was answered.

A mistake that is believed in comes again wherever it can; a slip does not (VanLehn 1982). So each answer is
weighed under every belief: none, each of the stable mistakes alone, and each two of them together.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from math import prod
from operator import itemgetter
from typing import Any

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.registry import EXERCISES, FARTHER
from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.adding_patterns import tens_and_ones_swapped
from saythesum.core.mistakes.pattern import Occasion, PartMistake
from saythesum.core.sums import Part
from saythesum.learner.evidence import Evidence

NAMES: tuple[str, ...] = tuple(pattern.name for pattern in CATALOGUE if pattern.is_stable)
"""The stable mistakes of adding, which are told apart from the first answer on. Another exercise's of the same name are
the same belief."""


@lru_cache(maxsize=1024)
def _stable_in(asked: Exercise) -> frozenset[str]:
    return frozenset(pattern.name for pattern in asked.patterns if pattern.is_stable)


ALL_NAMES: tuple[str, ...] = tuple(
    dict.fromkeys(
        (
            *NAMES,
            *(
                pattern.name
                for kind in (*EXERCISES.values(), *FARTHER.values())
                for pattern in kind.patterns
                if pattern.is_stable
            ),
        )
    )
)
"""And those of every other exercise, which are believed in only by a pupil who was asked it: so what is known of adding
does not change with them."""

SHOWS = 0.9
"""How often a mistake that is believed in shows where it can. This and the chances below are our own choice."""
STRAYS = 0.08
"""How often an answer is a slip or was misheard."""
NO_BELIEF, ONE_BELIEF, TWO_BELIEFS = 0.5, 0.4, 0.1

FORETELLS: Mapping[str, tuple[str, ...]] = {
    "gap-off-by-one": ("one-short", "one-over", "start-counted", "one-too-many"),
    "gap-to-a-later-ten": ("extra-ten", "extra-ten-taken"),
    "gap-to-the-ten-above": ("added",),
    "rest-as-gap": ("gap-used-twice", "first-jump-twice"),
    "rest-as-amount": ("whole-amount-after-bridging",),
    "rest-off-by-one": ("one-short", "one-over", "start-counted", "one-too-many"),
    "total-unjoined": ("stopped-at-the-ten",),
    "total-joined-as-digits": ("both-digits-written",),
}
"""A wrong step, and the wrong whole answers that the same habit gives, of adding and of taking away."""
STEP_SHOWS, STEP_STRAYS = 0.3, 0.05
"""Asked for one step, fewer pupils make the mistake than when they are asked for the sum."""


@dataclass(frozen=True, slots=True)
class Diagnosis:
    none: float
    """The chance that nothing stable is behind the wrong answers: slips at most."""
    shares: Mapping[str, float]
    """For each stable mistake, the chance that it is believed in, alone or beside another."""

    @property
    def ranked(self) -> tuple[str, ...]:
        """Likeliest first; of equals, in the catalogue's order."""
        return tuple(sorted(self.shares, key=lambda name: -self.shares[name]))


_TOLD_APART = frozenset(ALL_NAMES)


def diagnosed(evidence: Sequence[Evidence]) -> Diagnosis:
    names = _believable(evidence)
    pairs = _pairs(len(names))
    likelihoods = _all_likelihoods(evidence, names)
    none, *singles = _weights_alone(likelihoods, len(names))
    both = [
        prod([(one[first] + one[second]) / 2 for one in likelihoods]) * TWO_BELIEFS / len(pairs)
        for first, second in pairs
    ]
    whole = none + sum(singles) + sum(both)
    shares = list(singles)
    for (first, second), pair in zip(pairs, both, strict=True):
        shares[first - 1] += pair
        shares[second - 1] += pair
    return Diagnosis(none / whole, {name: share / whole for name, share in zip(names, shares, strict=True)})


def leaning(evidence: Sequence[Evidence], asked: Exercise | None = None) -> Mapping[str, float]:
    """What `diagnosed` comes to if nobody believes in two mistakes at once: rougher, and a tenth of the work.

    `asked`: what is asked now, whose mistakes may be believed in although no answer was to it yet.
    """
    names = _believable(evidence, asked)
    none, *singles = _weights_alone(_all_likelihoods(evidence, names), len(names))
    whole = none + sum(singles)
    return {name: single / whole for name, single in zip(names, singles, strict=True)}


def _believable(evidence: Sequence[Evidence], asked: Exercise | None = None) -> tuple[str, ...]:
    """In the order of all names."""
    of = {type(one.asked) for one in evidence} | ({type(asked)} if asked else set())
    return _names_of(frozenset(of))


@lru_cache(maxsize=256)
def _names_of(kinds: frozenset[type[Exercise]]) -> tuple[str, ...]:
    shown = {pattern.name for kind in kinds for pattern in kind.patterns if pattern.is_stable}
    return tuple(name for name in ALL_NAMES if name in _OF_ADDING or name in shown)


_OF_ADDING = frozenset(NAMES)


@lru_cache(maxsize=64)
def _pairs(names: int) -> tuple[tuple[int, int], ...]:
    return tuple(combinations(range(1, names + 1), 2))


@lru_cache(maxsize=64)
def _columns_of(names: tuple[str, ...]) -> Callable[[tuple[float, ...]], tuple[float, ...]]:
    return itemgetter(0, *(ALL_NAMES.index(name) + 1 for name in names))


def _all_likelihoods(evidence: Sequence[Evidence], names: tuple[str, ...]) -> list[tuple[float, ...]]:
    """Of no belief, then of each of these."""
    columns = _columns_of(names)
    return [columns(_likelihoods(one.asked, one.part, one.given)) for one in evidence]


def _weights_alone(likelihoods: Sequence[tuple[float, ...]], names: int) -> list[float]:
    """The weight of no belief, then of each one alone."""
    priors = [NO_BELIEF] + [ONE_BELIEF / names] * names
    if not likelihoods:
        return priors
    return [prior * prod(column) for prior, column in zip(priors, zip(*likelihoods, strict=True), strict=True)]


@lru_cache(maxsize=1024)
def numbers_shown(asked: Exercise) -> tuple[tuple[int, ...], ...]:
    """For each stable mistake, the wrong numbers by which it shows in this exercise; none where it cannot show."""
    occasion = Occasion(asked)
    given = {pattern.name: pattern.gives(occasion) for pattern in asked.patterns if pattern.is_stable}
    return tuple(tuple(number for number in given.get(name, ()) if _is_wrong(asked, number)) for name in ALL_NAMES)


def _is_wrong(asked: Exercise, number: int) -> bool:
    return 0 <= number <= LARGEST_NUMBER and number != asked.total


@lru_cache(maxsize=65_536)
def _likelihoods(asked: Exercise, part: Part, given: int) -> tuple[float, ...]:
    """The chance of this answer under no mistake, then under each of the stable ones."""
    return _of_whole(asked, given) if part is Part.WHOLE else _of_step(asked, part, given)


def _of_whole(asked: Exercise, given: int) -> tuple[float, ...]:
    is_right = given == asked.total
    stray = STRAYS * chance_of_slip(asked, given)
    likelihoods = [stray + (1 - STRAYS) * is_right]
    for numbers in numbers_shown(asked):
        shown = SHOWS * (given in numbers) / len(numbers) + (1 - SHOWS) * is_right if numbers else float(is_right)
        likelihoods.append(stray + (1 - STRAYS) * shown)
    return tuple(likelihoods)


def chance_of_slip(asked: Exercise, given: int) -> float:
    """Which number a slip gives: often one or two beside, a ten beside or turned round, else any."""
    if given == asked.total:
        return 0.0
    beside = {1: 0.1, 2: 0.05, 10: 0.06}.get(abs(given - asked.total), 0.0)
    turned = 0.04 if given == tens_and_ones_swapped(asked.total) else 0.0
    return beside + turned + 0.54 / LARGEST_NUMBER


def _of_step(asked: Exercise, part: Part, given: int) -> tuple[float, ...]:
    right = asked.answer_to(part)
    small = {name: asked.foretold(name, part) for name in ALL_NAMES} if part in asked.small_questions else {}
    foretold = _foretold(asked, part, lambda pattern: pattern.fits(asked, part, given))
    foretold |= {name for name, numbers in small.items() if given in numbers}
    able = _foretold(asked, part, lambda pattern: any(number != right for number in pattern.gives(asked)))
    able |= {name for name, numbers in small.items() if numbers}
    likelihoods = [1 - STEP_STRAYS if given == right else STEP_STRAYS]
    for name in ALL_NAMES:
        if given == right:
            likelihoods.append(1 - STEP_STRAYS - STEP_SHOWS * (name in able))
        else:
            likelihoods.append(STEP_STRAYS + STEP_SHOWS * (name in foretold))
    return tuple(likelihoods)


def _foretold(asked: Exercise, part: Part, chosen: Callable[[PartMistake[Any]], bool]) -> frozenset[str]:
    patterns = (pattern for pattern in asked.part_mistakes if part in pattern.parts and chosen(pattern))
    names = frozenset(name for pattern in patterns for name in FORETELLS.get(pattern.name, ()))
    return names & _stable_in(asked)


SLIP_SHARE = 0.2 / len(NAMES)
"""Of a pattern that nobody believes in, beside the share of one that somebody may."""


def weighed(occasion: Occasion[Exercise], given: int, shares: Mapping[str, float]) -> dict[str, float]:
    """All patterns that give the number, with weights that add up to 1, heaviest first; none where unexplained.

    A pattern weighs as much as its share after the other answers, divided by how many numbers it could give.
    """
    weights = {name: shares.get(name, SLIP_SHARE) / ways for name, ways in _ways(occasion.asked, given)}
    for pattern in occasion.asked.patterns:
        if pattern.name not in _TOLD_APART and pattern.fits(occasion, given):
            weights[pattern.name] = SLIP_SHARE / len(set(pattern.gives(occasion)))
    whole = sum(weights.values())
    return {name: weights[name] / whole for name in sorted(weights, key=lambda name: -weights[name])}


@lru_cache(maxsize=16_384)
def _ways(asked: Exercise, given: int) -> tuple[tuple[str, int], ...]:
    """The stable mistakes that give this number, each with how many numbers it may give."""
    shown = zip(ALL_NAMES, numbers_shown(asked), strict=True)
    return tuple((name, len(set(numbers))) for name, numbers in shown if given in numbers)
