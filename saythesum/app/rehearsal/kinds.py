"""The kinds of made-up pupil that can be asked for by name. They are not evidence about children."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import Enum, auto
from random import Random
from typing import Any

from saythesum.app.rehearsal.simulated_pupil import Makeup, Mind
from saythesum.core.exercises.skills import Skill
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.farther import FARTHER_ADDED, FARTHER_TAKEN
from saythesum.core.mistakes.missing import MISSING_AMOUNT, NOT_UNDONE
from saythesum.core.mistakes.pattern import Mistake, Pattern
from saythesum.core.mistakes.taking import TAKE_MISTAKES


class Manner(Enum):
    """How a pupil goes about answering, whatever is in the mind."""

    PLAIN = auto()
    IS_MISHEARD = auto()
    """Another number at first in every third answer, put right while it is being said back."""
    COUNTS = auto()
    """Counts on aloud to every whole answer."""
    DOES_NOT_KNOW = auto()
    """Says so to every question for a whole answer."""


@dataclass(frozen=True, slots=True)
class PupilKind:
    name: str
    about: str
    """A description that continues "the made-up pupil"."""
    makeup: Makeup
    manner: Manner = Manner.PLAIN
    likes_patterns: bool = False
    """Says yes to a talk about a pattern, and knows what it asks; others say no."""
    mistakes_drawn: int = 0
    """So many of the seventeen mistakes are drawn by the seed."""


def mind_of(kind: PupilKind, seed: int, on: date) -> Mind:
    """The pupil's mind on that day; the same seed gives the same pupil."""
    drawn = Random(f"{seed} mistakes").sample(MISTAKES, kind.mistakes_drawn)  # noqa: S311
    makeup = replace(kind.makeup, mistakes=(*kind.makeup.mistakes, *drawn))
    return Mind(makeup, f"{seed} {kind.name}", on)


_NO_SLIPS = Makeup(slips=0.0)
_NOTHING_BY_HEART = Makeup(by_heart=0.0)
_LEARNS = Makeup(learns=True, forgets=True)

RIGHT = PupilKind("right", "knows every sum", _NO_SLIPS)
SLIPS_ONLY = PupilKind("slips-only", "knows every sum, and slips one time in twenty", Makeup())
LEARNING = PupilKind("learning", "knows three things in ten, and learns", replace(_LEARNS, by_heart=0.3, steps=0.3))
_OTHERS = (
    PupilKind("knows-most", "knows most sums and nearly all steps", replace(_LEARNS, by_heart=0.7, steps=0.9)),
    PupilKind("after-a-holiday", "knew everything two weeks ago", replace(_LEARNS, days_away=14)),
    PupilKind("two-mistakes", "makes two mistakes, drawn by the seed", _NOTHING_BY_HEART, mistakes_drawn=2),
    PupilKind(
        "bonds-broken",
        "knows no bond of ten and no sum by heart, and learns",
        replace(_LEARNS, by_heart=0.0, broken=(Skill.BOND,)),
    ),
    PupilKind("misheard", "is misheard in every third answer, and puts it right", _NO_SLIPS, Manner.IS_MISHEARD),
    PupilKind("counts", "counts on aloud", _NO_SLIPS, Manner.COUNTS),
    PupilKind("finds-patterns", "knows every sum, and talks about a pattern", _NO_SLIPS, likes_patterns=True),
    PupilKind("does-not-know", "knows the steps, but says of no sum what it is", _NO_SLIPS, Manner.DOES_NOT_KNOW),
)


def believing_in(mistake: Mistake | Pattern[Any]) -> PupilKind:
    about = "slips one time in twenty, and makes a mistake wherever it can show"
    return PupilKind(mistake.name, about, replace(_NOTHING_BY_HEART, mistakes=(mistake,)))


_ADDING = {mistake.name for mistake in MISTAKES}
_IN_TAKING_ALONE = tuple(mistake for mistake in TAKE_MISTAKES if mistake.name not in _ADDING)
"""Those that bear a name of adding are made in both by the pupil of that name."""
_KNOWN = {mistake.name for mistake in (*MISTAKES, *TAKE_MISTAKES)} | {one.name for one in CATALOGUE}
_OTHERS_MISTAKES: tuple[Pattern[Any], ...] = (*MISSING_AMOUNT, NOT_UNDONE, *FARTHER_ADDED, *FARTHER_TAKEN)
_BEYOND = {one.name: one for one in _OTHERS_MISTAKES if one.is_stable and one.name not in _KNOWN}
"""Those of missing numbers and of amounts of tens alone."""
NO_MISTAKE = (RIGHT, SLIPS_ONLY, LEARNING, *_OTHERS)
KINDS: Mapping[str, PupilKind] = {
    kind.name: kind
    for kind in (
        *NO_MISTAKE,
        *map(believing_in, (*MISTAKES, *_IN_TAKING_ALONE)),
        *map(believing_in, _BEYOND.values()),
    )
}
