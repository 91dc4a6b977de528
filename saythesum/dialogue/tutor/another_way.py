"""When help tries another way than through the next ten: when that way has not helped twice in this practice."""

from collections.abc import Iterator

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.ways.other_way import other_way
from saythesum.core.records.rows import Answer, Ask, Support
from saythesum.core.sums import Part
from saythesum.dialogue.tutor.hard_going import Visit, visits
from saythesum.dialogue.tutor.progress import Progress

TIMES = 2
"""Our own choice."""
_STEPS = frozenset({Part.NEXT_TEN, Part.GAP, Part.REST})


def another_way(progress: Progress, asked: Exercise) -> Exercise | None:
    """The same sum by another way, where it has one; None as long as the way through the ten may yet help."""
    found = other_way(asked)
    has_not_helped = found is not None and sum(1 for _ in _in_vain(progress)) >= TIMES
    return found if has_not_helped else None


def _in_vain(progress: Progress) -> Iterator[Visit]:
    """The sums that were talked through by way of the ten, and still had to be told."""
    for visit in visits(progress):
        asks = [row for row in visit if isinstance(row, Ask)]
        by_the_ten = any(row.part in _STEPS for row in visit if isinstance(row, Ask | Answer))
        if by_the_ten and any(row.support is Support.MODELLED for row in asks):
            yield visit
