"""Which small question tells most about the mistakes that may be behind one wrong answer.

The measure is expected information, as for whole sums (`information`); what each mistake would answer is the
exercise's own.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from math import log2

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.sums import Part

SHOWS = 0.6
"""How often a mistake that was made in the whole shows again in a small question where it can."""
STRAYS = 0.05
"""How often any other number is answered. Both are our own choice."""
NEARLY = 0.8
"""Of questions that tell nearly as much as the best, the one comes first that help would begin with anyway."""


def by_what_they_tell(
    asked: Exercise, weights: Mapping[str, float], liked: Sequence[Part | None] = ()
) -> tuple[Part, ...]:
    """The exercise's small questions, the most telling first. Of those that tell nearly as much, first the one that
    stands first in `liked`, then the one in which more of the mistakes show, then by the exercise's own order.

    `weights`: the mistakes that fit, by name, adding up to 1.
    """
    told = {part: information(asked, part, weights) for part in asked.small_questions}
    enough = NEARLY * max(told.values(), default=0.0)

    def order(part: Part) -> tuple[float, int, float]:
        shown = sum(weight for name, weight in weights.items() if asked.foretold(name, part))
        is_near = told[part] >= enough
        return (0.0 if is_near else -round(told[part], 6) + 1, _place(part, liked) if is_near else 0, -round(shown, 6))

    return tuple(sorted(asked.small_questions, key=order))


def _place(part: Part, liked: Sequence[Part | None]) -> int:
    return liked.index(part) if part in liked else len(liked)


def information(asked: Exercise, part: Part, weights: Mapping[str, float]) -> float:
    """In bits: how far the answer is expected to lower the doubt between these mistakes."""
    mixed: dict[int | None, float] = defaultdict(float)
    doubt_left = 0.0
    for name, weight in weights.items():
        chances = _chances(asked, part, name)
        for number, chance in chances.items():
            mixed[number] += weight * chance
        doubt_left += weight * _doubt(chances.values())
    return _doubt(mixed.values()) - doubt_left


def _chances(asked: Exercise, part: Part, name: str) -> dict[int | None, float]:
    """Of each answer by a pupil who makes this mistake; None stands for any other number."""
    numbers = asked.foretold(name, part)
    right = 1 - STRAYS - (SHOWS if numbers else 0)
    return {asked.answer_to(part): right, None: STRAYS, **{number: SHOWS / len(numbers) for number in numbers}}


def _doubt(chances: Iterable[float]) -> float:
    return -sum(chance * log2(chance) for chance in chances if chance)
