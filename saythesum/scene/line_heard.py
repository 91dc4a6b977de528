"""The number line for the ear, as values: a note for each number that is passed, higher as the numbers are.

It is made from the same value as the line that is drawn, so that the two agree.
"""

from dataclasses import dataclass
from itertools import pairwise

from saythesum.scene.number_line import LineShown

_TEN = 10
MOST_STEPS = 10
"""A longer jump goes in strides of ten."""
SPAN_SEMITONES = 20
"""From one end of the line to the other; a line of two tens has a semitone for each number."""


@dataclass(frozen=True, slots=True)
class LineNote:
    """All are equally far apart in time."""

    number: int
    semitones: float
    """Above the line's left end."""
    is_ten: bool
    """With a chime."""
    is_stop: bool
    """The start, or where a jump lands: held for longer."""


def line_heard(line: LineShown) -> tuple[LineNote, ...]:
    """From the start over every jump that is known; the start alone where none is."""
    stops = [line.start, *(jump.lands_at for jump in line.jumps if jump.lands_at is not None)]
    numbers = [line.start]
    for begins, ends in pairwise(stops):
        numbers += _passed(begins, ends)
    per_number = SPAN_SEMITONES / (line.last - line.first)
    return tuple(
        LineNote(number, (number - line.first) * per_number, number % _TEN == 0, number in stops) for number in numbers
    )


def _passed(begins: int, ends: int) -> list[int]:
    """The numbers of one jump, the last one included."""
    steps = ends - begins
    stride = _TEN if abs(steps) > MOST_STEPS and steps % _TEN == 0 else 1
    way = stride if steps > 0 else -stride
    return list(range(begins + way, ends + way, way))
