"""The patterns beyond the seventeen of core.mistakes, and the whole catalogue.

Some need more than the sum: what stands beside it in the grid, what was answered before it, whether keys were
pressed. None is ever named to a pupil.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.mistakes.adding_patterns import MISTAKES, HelpFrom, Mistake
from saythesum.core.records.rows import Ask, By, Reason
from saythesum.core.sums import Kind, Sum


@dataclass(frozen=True, slots=True)
class Asked:
    """A sum, where it stood and how it was answered."""

    sum: Sum
    by: By = By.VOICE
    beside: tuple[Sum, ...] = ()
    """The sums of the cells next to it, in its row and its column."""
    before: int | None = None
    """The number that was answered to the whole sum before this one."""


def asked_in(grid: Grid, cell: Cell, by: By, before: int | None) -> Asked:
    steps = ((-1, 0), (1, 0), (0, -1), (0, 1))
    near = [Cell(cell.row + down, cell.column + along) for down, along in steps]
    return Asked(grid.sum_at(cell), by, tuple(grid.sum_at(one) for one in near if one in grid), before)


Formula: TypeAlias = Callable[[Asked], tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Pattern:
    code: str
    name: str
    gives: Formula
    """Every number it gives; also numbers nobody can say, and sometimes the right answer."""
    help: HelpFrom
    cause: str
    say_next: str
    """For the adult. Its fields are start, amount, gap, ones and given; it never holds the right answer."""
    source: str = "common practice"
    is_stable: bool = False
    """Whether a pupil can believe in it: then it comes again and again, where a slip does not."""
    gives_way: bool = False
    """Its help is part of any other's, or was given before: where another pattern fits too, that one decides."""

    def fits(self, asked: Asked, given: int) -> bool:
        return given != asked.sum.total and given in self.gives(asked)

    def advice(self, asked: Sum, given: int) -> str:
        return self.say_next.format(start=asked.start, amount=asked.amount, gap=asked.gap, ones=asked.ones, given=given)


def explaining(asked: Asked, given: int) -> tuple[Pattern, ...]:
    """Every pattern of the catalogue that gives `given`; none where it is right, impossible or unexplained."""
    if given < 0:
        return ()
    return tuple(pattern for pattern in CATALOGUE if pattern.fits(asked, given))


def is_no_answer(ask: Ask) -> bool:
    """A29: the pupil said that they do not know, or called for help. No mistake, and never counted as wrong."""
    return ask.because in (Reason.DONT_KNOW, Reason.HELP)


FURTHEST_FROM_A_DOUBLE = 2
LEAST_TO_ROUND = 7
"""Adding ten in place of an amount and putting it right after: taught for 9 and 8, sometimes for 7."""
KEY_ROW = "1234567890"
BRAILLE_ALIKE = ("59", "4680")
"""Digits whose braille cells are one shape, mirrored or turned."""


def _doubled(asked: Asked) -> tuple[int, ...]:
    sum = asked.sum
    is_near = 0 < abs(sum.ones - sum.amount) <= FURTHEST_FROM_A_DOUBLE
    if not is_near or sum.ones == 0:
        return ()
    return (sum.tens + 2 * sum.ones, sum.tens + 2 * sum.amount)


def _rounded(asked: Asked, too_much: int) -> tuple[int, ...]:
    return (asked.sum.start + 10 + too_much,) if asked.sum.amount >= LEAST_TO_ROUND else ()


def misheard_teen_or_ty(start: int) -> tuple[int, ...]:
    """Seventy for seventeen, and seventeen for seventy."""
    if 13 <= start <= 19:
        return (10 * (start - 10),)
    return (10 + start // 10,) if start in range(30, 100, 10) else ()


def _teen_or_ty(asked: Asked) -> tuple[int, ...]:
    return tuple(start + asked.sum.amount for start in misheard_teen_or_ty(asked.sum.start))


def _crossed_from_the_ten(asked: Asked) -> tuple[int, ...]:
    if asked.sum.kind is not Kind.LANDING:
        return ()
    return tuple(asked.sum.total + left for left in range(1, 10))


def _beside(asked: Asked) -> tuple[int, ...]:
    return tuple(other.total for other in asked.beside)


def _before(asked: Asked) -> tuple[int, ...]:
    return () if asked.before is None else (asked.before,)


def _mistyped(asked: Asked) -> tuple[int, ...]:
    return () if asked.by is By.VOICE else _mistypings(asked.sum.total)


@lru_cache(maxsize=1024)
def _mistypings(total: int) -> tuple[int, ...]:
    meant = str(total)
    typed = {digits for place in range(len(meant)) for digits in _slips_at(meant, place)} - {"", meant}
    return tuple(sorted({int(digits) for digits in typed}))


def _slips_at(meant: str, place: int) -> Iterator[str]:
    """The digit at this place left out, doubled, or another one in its stead."""
    before, digit, after = meant[:place], meant[place], meant[place + 1 :]
    yield before + after
    yield before + digit + digit + after
    at = KEY_ROW.index(digit)
    alike = "".join(shape for shape in BRAILLE_ALIKE if digit in shape)
    for other in KEY_ROW[max(at - 1, 0) : at + 2] + alike:
        yield before + other + after


WIDER: tuple[Pattern, ...] = (
    Pattern(
        "A18",
        "double-not-adjusted",
        _doubled,
        HelpFrom.OTHER_AMOUNT,
        "A near double was used as it stands.",
        "Doubling is a good start. Is {amount} the same as {ones}, or more, or less?",
        is_stable=True,
    ),
    Pattern(
        "A19",
        "compensated-the-wrong-way",
        lambda asked: _rounded(asked, 10 - asked.sum.amount),
        HelpFrom.LESS_THAN_TEN,
        "Ten was added in place of the amount, and the difference added too where it should come off.",
        "You went on by a whole ten. Is that more than {amount}, or less? So which way do we step?",
        is_stable=True,
    ),
    Pattern(
        "A20",
        "did-not-compensate",
        lambda asked: _rounded(asked, 0),
        HelpFrom.OTHER_AMOUNT,
        "Ten was added in place of the amount, and nothing put right.",
        "You went on by a whole ten. We only had {amount}; were there too many steps?",
        is_stable=True,
    ),
    Pattern(
        "A21",
        "multiplied",
        lambda asked: (asked.sum.start * asked.sum.amount, asked.sum.tens + asked.sum.ones * asked.sum.amount),
        HelpFrom.ADDING_IS_STEPS,
        "Add was heard or read as times.",
        "{start} people are on deck and {amount} more come. Do we need groups here, or one heap?",
        is_stable=True,
    ),
    Pattern(
        "A22",
        "ones-only",
        lambda asked: (asked.sum.total % 10,),
        HelpFrom.TENS_TOO,
        "The tens were lost on the way.",
        "{given} tells me the ones. Where have the tens of {start} gone?",
        is_stable=True,
    ),
    Pattern(
        "A23",
        "fact-slip",
        lambda asked: (asked.sum.total - 2, asked.sum.total + 2),
        HelpFrom.GAP,
        "A neighbouring fact came to mind.",
        "Close. Let us walk it: {start}, then to the ten, then the others.",
        "Siegler, Ashcraft, on errors of retrieval (from memory)",
        gives_way=True,  # its help is the steps, as of every mistake in them
    ),
    Pattern(
        "A24",
        "neighbour-cell",
        _beside,
        HelpFrom.PLACE_AGAIN,
        "The place in the grid was lost: this is the answer next to it.",
        "Put one finger on {start} at the side and one on {amount} at the top. Where do they meet?",
        "Perkins, the role of the teacher of visually impaired pupils in reading tables by touch",
    ),
    Pattern(
        "A25",
        "previous-answer",
        _before,
        HelpFrom.QUESTION_AGAIN,
        "The answer before was said again: tired, or still with the last question.",
        "That was the last one. Shall we rest, or hear the new one: {start}, and {amount} more?",
    ),
    Pattern(
        "A26",
        "teen-or-ty-start",
        _teen_or_ty,
        HelpFrom.START_IN_TENS,
        "The start was heard as its teen, or as its tens.",
        "Listen to the end of it: {start}. Say its digits one by one.",
        "teens and tens told apart by their endings: pronunciation teaching",
        is_stable=True,
    ),
    Pattern(
        "A27",
        "landing-crossed",
        _crossed_from_the_ten,
        HelpFrom.GAP,
        "Something was looked for beyond the ten, though nothing is left.",
        "{gap} were needed and {amount} were there. How many stay in your hand?",
        is_stable=True,
    ),
    Pattern(
        "A28",
        "key-slip",
        _mistyped,
        HelpFrom.DIGITS,
        "A digit was left out, doubled, or its neighbour pressed; in braille, a shape mirrored or turned.",
        "Read me what stands there, digit by digit.",
        "Arter, on young pupils who find braille hard; braille shapes from the liblouis tables",
        gives_way=True,  # its help is hearing the digits, and each was told as it was typed
    ),
)

NO_ANSWER = Pattern(
    "A29",
    "no-answer",
    lambda asked: (),
    HelpFrom.STEPS,
    "Silence, or not knowing: no mistake in the arithmetic.",
    "Thank you for telling me. Shall we begin with the ten after {start}?",
)


def _as_pattern(mistake: Mistake) -> Pattern:
    return Pattern(
        mistake.code,
        mistake.name,
        lambda asked: mistake.gives(asked.sum) if asked.sum.kind in mistake.kinds else (),
        mistake.help,
        mistake.cause,
        mistake.say_next,
        mistake.source,
        is_stable=True,
    )


CATALOGUE: tuple[Pattern, ...] = (*(_as_pattern(mistake) for mistake in MISTAKES), *WIDER)


_NAMED = {pattern.name: pattern for pattern in CATALOGUE}


def deciding(names: Iterable[str]) -> tuple[Pattern, ...]:
    """Of all that fit a whole answer, by their kept names; a name of a newer version, or of a part, decides nothing."""
    fitting = tuple(_NAMED[name] for name in names if name in _NAMED)
    return tuple(pattern for pattern in fitting if not pattern.gives_way) or fitting
