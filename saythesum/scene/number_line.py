"""A number line to scale with a tick for every one, and what the pupil has found of the one or two jumps on it."""

from collections.abc import Set
from dataclasses import dataclass

from saythesum.core.exercises import exercise
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.sums import Hidden, Part
from saythesum.wording.speak.said_shown import line_in_words

_TEN = 10
_LENGTH = 2 * _TEN
"""From the ten at a start two tens hold every amount of one digit, so that the line's ends give nothing away."""


@dataclass(frozen=True, slots=True)
class Jump:
    by: int | None
    """How far; None where the pupil has not got there yet, as in `to`."""
    to: int | None
    lands_at: int | None
    """Where it ends on the line: drawn once help has begun and either is known, and then it can be counted on the
    ticks, as on paper. None where no arc is drawn.
    """


@dataclass(frozen=True, slots=True)
class LineShown:
    first: int
    """The number at the line's left end, a ten."""
    last: int
    start: int
    sign: str
    """Before how far a jump goes."""
    jumps: tuple[Jump, ...]
    name: str


def line_shown(asked: Exercise, part: Part, known: Set[Part]) -> LineShown | None:
    """`known`: the parts whose answers may be seen. One jump for the whole amount until it is talked through in steps.

    None where no line helps.
    """
    is_hidden = asked.hidden is not Hidden.TOTAL
    if is_hidden and part is Part.WHOLE and Part.TOTAL not in known:
        return None  # both ends of a missing amount are said, so that its jump could be counted on the ticks
    asked = asked.on_line
    if not asked.jumps:
        return None
    if part is Part.WHOLE and Part.TOTAL not in known:
        jumps: tuple[Jump, ...] = (Jump(asked.amount, None, None),)
    else:
        jumps = tuple(_jump(jump, known) for jump in asked.jumps)
    name = line_in_words(asked.start, [(jump.by, jump.to) for jump in jumps])
    first, last = _ends(asked)
    return LineShown(first, last, asked.start, asked.operator.sign, jumps, name)


def whole_line(asked: Exercise) -> LineShown:
    """With every jump, for an exercise that has jumps."""
    line = line_shown(asked, Part.TOTAL, {*Part})
    assert line is not None
    return line


def _jump(jump: exercise.Jump, known: Set[Part]) -> Jump:
    by = jump.by if jump.by_part is None or jump.by_part in known else None
    to = jump.to if jump.to_part is None or jump.to_part in known else None
    return Jump(by, to, None if by is None and to is None else jump.to)


def _ends(asked: Exercise) -> tuple[int, int]:
    """The same for every amount of one digit; longer where the jumps go further."""
    stops = [jump.to for jump in asked.jumps]
    below = asked.start // _TEN * _TEN
    if max(stops) > asked.start:
        return below, max(below + _LENGTH, -(-max(stops) // _TEN) * _TEN)
    above = -(-asked.start // _TEN) * _TEN
    return max(0, min(above - _LENGTH, min(stops) // _TEN * _TEN)), above
