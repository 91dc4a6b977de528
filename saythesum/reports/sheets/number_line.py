"""The number line beneath a sum: from where the sum begins as far as any amount of one digit goes, so that its ends
give nothing away; with the jumps where the sheet has answers or steps."""

from dataclasses import dataclass

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.sums import Hidden

FURTHEST = 10
"""One more than the largest amount."""


@dataclass(frozen=True, slots=True)
class LineJump:
    begins: int
    lands: int
    by: int | None
    """None: a blank to be filled in."""


@dataclass(frozen=True, slots=True)
class SheetNumberLine:
    first: int
    last: int
    start: int
    sign: str
    jumps: tuple[LineJump, ...]
    total: int | None
    """None where it is not to be seen."""

    @property
    def numbers(self) -> range:
        return range(self.first, self.last + 1)

    @property
    def tens(self) -> tuple[int, ...]:
        return tuple(number for number in self.numbers if number % 10 == 0)


def number_line(asked: Exercise, *, with_jumps: bool, is_filled: bool) -> SheetNumberLine | None:
    """None where no line helps."""
    if not asked.jumps:
        return None
    lands = [jump.to for jump in asked.jumps]
    begins = (asked.start, *lands)
    jumps = tuple(
        LineJump(begin, jump.to, jump.by if is_filled else None)
        for begin, jump in zip(begins, asked.jumps, strict=False)
    )
    is_up = lands[-1] > asked.start
    first = min(asked.start - (1 if is_up else FURTHEST), min(lands) - (not is_up))
    last = max(asked.start + (FURTHEST if is_up else 1), max(lands) + is_up)
    total = lands[-1] if is_filled or asked.hidden is not Hidden.TOTAL else None
    return SheetNumberLine(max(0, first), last, asked.start, asked.operator.sign, jumps if with_jumps else (), total)
