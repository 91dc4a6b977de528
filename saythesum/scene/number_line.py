"""A number line to scale with a tick for every one, and what the pupil has found of the one or two jumps on it."""

from collections.abc import Set
from dataclasses import dataclass

from saythesum.core.sums import CLOSING_PARTS, Kind, Part, Sum
from saythesum.wording.speak.said_shown import amount_in_digits, line_in_words

_LENGTH = 20
"""From the ten before a start two tens hold every amount of one digit, so that the line's ends give nothing away."""


@dataclass(frozen=True, slots=True)
class Jump:
    by: int | None
    """How far; None where the pupil has not got there yet, as in `to`."""
    to: int | None
    lands_at: int | None
    """Where it ends on the line: drawn once help has begun and either is known, and then it can be counted on the
    ticks, as on paper. None where nothing is drawn.
    """

    @property
    def by_text(self) -> str:
        return "" if self.by is None else amount_in_digits(self.by)

    @property
    def to_text(self) -> str:
        return "" if self.to is None else str(self.to)


@dataclass(frozen=True, slots=True)
class LineShown:
    first: int
    """The number at the line's left end, a ten."""
    last: int
    start: int
    jumps: tuple[Jump, ...]
    name: str


def line_shown(asked: Sum, part: Part, right_parts: Set[Part], *, is_answered: bool) -> LineShown:
    """One jump for the whole amount until it is talked through in two."""
    jumps = _jumps(asked, part, right_parts, is_answered=is_answered)
    name = line_in_words(asked.start, [(jump.by, jump.to) for jump in jumps])
    return LineShown(asked.tens, asked.tens + _LENGTH, asked.start, jumps, name)


def _jumps(asked: Sum, part: Part, right_parts: Set[Part], *, is_answered: bool) -> tuple[Jump, ...]:
    total = asked.total if is_answered else None
    if part is Part.WHOLE and not is_answered:
        return (Jump(asked.amount, None, None),)
    if asked.kind is not Kind.CROSSING:
        is_gap_asked = part is Part.GAP and not is_answered  # of a sum that lands, the gap is the whole amount
        return (Jump(None, None, None) if is_gap_asked else _jump(asked.amount, total, asked.total),)
    is_all_known = part in CLOSING_PARTS
    is_ten_known = is_all_known or part in (Part.GAP, Part.REST) or Part.NEXT_TEN in right_parts
    gap = asked.gap if is_all_known or Part.GAP in right_parts else None
    rest = asked.rest if is_all_known or Part.REST in right_parts else None
    return (_jump(gap, asked.next_ten if is_ten_known else None, asked.next_ten), _jump(rest, total, asked.total))


def _jump(by: int | None, to: int | None, lands_at: int) -> Jump:
    return Jump(by, to, None if by is None and to is None else lands_at)
