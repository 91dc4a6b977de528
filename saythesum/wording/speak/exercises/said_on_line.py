"""The number line in words: "Three to fifty, two past it." """

from collections.abc import Iterator

from saythesum.core.exercises.exercise import Exercise
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import capital


def along_the_line(asked: Exercise) -> str:
    """Jump by jump, for an exercise that has jumps."""
    return capital(f"{', '.join(_jumps(asked))}.")


def _jumps(asked: Exercise) -> Iterator[str]:
    jumps = asked.jumps
    is_up = jumps[-1].to > asked.start
    for place, jump in enumerate(jumps, start=1):
        if jump.to % 10 == 0 or place < len(jumps):
            yield f"{words(jump.by)} {'to' if is_up else 'back to'} {words(jump.to)}"
        else:
            beside = "it" if place > 1 else words(asked.start)
            yield f"{words(jump.by)} {'past' if is_up else 'below'} {beside}"
