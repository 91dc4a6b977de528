"""A talk about a pattern as it is seen and felt: the cells that stand out, what is asked in signs, and the lines of
numbers for a screen reader and for a braille display.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from saythesum.core.exercises.registry import offered
from saythesum.core.grids.grid import Cell
from saythesum.core.patterns.grid_pattern import (
    EqualAnswers,
    GridPattern,
    LandingLine,
    RowsAlike,
    RowsApart,
    SharedGap,
    Step,
)
from saythesum.core.patterns.moves import Heard, Line
from saythesum.core.patterns.questions import (
    Apart,
    EdgeOnes,
    Fill,
    HowManyCross,
    LeftOver,
    Made,
    Question,
)
from saythesum.core.patterns.remarks import ListenTo
from saythesum.dialogue.step import State
from saythesum.dialogue.tutor.pattern_talk import standing_move
from saythesum.wording.speak.patterns.said_moves import listen_said, question_named

BRAILLE_CELLS = 20
"""Of a small display."""


@dataclass(frozen=True, slots=True)
class Marks:
    """What stands out in the grid, by thick frames and turned headers, never by colour alone."""

    cells: frozenset[Cell] = frozenset()
    rows: frozenset[int] = frozenset()
    columns: frozenset[int] = frozenset()


NOTHING_MARKED = Marks()


@dataclass(frozen=True, slots=True)
class PatternShown:
    """What a talk is about."""

    marks: Marks
    name: str
    """The lines that are compared, in words."""
    braille: tuple[str, ...]
    """The same in signs, each short enough for a small display; numbers stand under each other by their places."""


@dataclass(frozen=True, slots=True)
class QuestionShown:
    text: str
    """In signs: "41 → 43"."""
    name: str
    part: str
    """What of it is asked, in a word: "more"; "" where an equals sign says it."""

    @property
    def in_braille(self) -> str:
        """What stands before the answer, in a few cells: "41 to 43 more? "."""
        if not self.part:
            return f"{self.text.replace(' ', '')}="
        return f"{self.text.replace('→', 'to')} {self.part}? ".lstrip()


def pattern_shown(state: State) -> PatternShown:
    talk, _, _ = standing_move(state.plan, state.progress)
    heard = listen_said(ListenTo(talk.heard, is_reminder=True), "short")
    return PatternShown(marks_of(talk.pattern), heard, tuple(in_braille(talk.heard)))


def marks_of(pattern: GridPattern) -> Marks:
    cells = pattern.cells
    rows, columns = frozenset(cell.row for cell in cells), frozenset(cell.column for cell in cells)
    match pattern:
        case RowsApart() | RowsAlike() | SharedGap():
            return Marks(cells, rows=rows)
        case LandingLine() | EqualAnswers():
            return Marks(cells, rows, columns)
        case _:
            return Marks(cells, columns=columns)


def question_shown(question: Question) -> QuestionShown:
    name = question_named(question)
    match question:
        case Apart(one=one, other=other, is_more=is_more):
            return QuestionShown(f"{one} → {other}", name, "more" if is_more else "less")
        case Fill(asked=asked):
            return QuestionShown(_sum(asked), name, "")
        case LeftOver(step=step, gap=gap):
            return QuestionShown(f"{step.amount} − {gap}", name, "")
        case HowManyCross(step=step):
            return QuestionShown(_step(step), name, "cross")
        case EdgeOnes(step=step):
            return QuestionShown(_step(step), name, "ones")
        case _:
            return QuestionShown("", name, "a start")


def _sum(made: Made) -> str:
    return f"{made.start} {_sign(made.step)} {made.step.amount}"


def _step(step: Step) -> str:
    return f"{_sign(step)}{step.amount}"


def _sign(step: Step) -> str:
    return offered()[step.operation].operator.sign


# ---- in braille


def in_braille(heard: Heard) -> Iterator[str]:
    lines = [one for one in heard if isinstance(one, Line)]
    if not lines:
        yield from _aligned_sums([one for one in heard if isinstance(one, Made)])
        return
    wide = max(len(str(number)) for line in lines for number in line.numbers)
    heads = [f"{one.of}:" if isinstance(one.of, int) else f"{_step(one.of)}:" for one in lines]
    room = max(map(len, heads))
    for head, line in zip(heads, lines, strict=True):
        yield from _in_cells(head.ljust(room), [str(number).rjust(wide) for number in line.numbers])


def _in_cells(head: str, numbers: Iterable[str]) -> Iterator[str]:
    """The numbers after the head, going on in the next line under each other."""
    text = head
    for number in numbers:
        if len(text) + 1 + len(number) > BRAILLE_CELLS:
            yield text
            text = " " * len(head)
        text += f" {number}"
    yield text


def _aligned_sums(sums: list[Made]) -> Iterator[str]:
    starts = max(len(str(one.start)) for one in sums)
    totals = max(len(str(one.total)) for one in sums)
    for one in sums:
        yield f"{str(one.start).rjust(starts)}{_step(one.step)}={str(one.total).rjust(totals)}"
