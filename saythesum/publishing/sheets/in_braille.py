"""A sheet in braille: the grid as a table, then each sum on a line of its own with room to go on.

Source of the sums' layout: ICEB, Guidelines for Technical Material, 3.1 (signs of operation unspaced, equals spaced; a
space on both sides of the former for those who begin, 1.1.2) and 3.6 (a blank as a low line). The table: headings in
the first line and column, two blank cells between columns at least, a line of dots 2-5 beneath the headings (common
practice). The number line is our own: no published one was found.
"""

from collections.abc import Iterable, Iterator, Sequence

from saythesum.core.exercises.equation import Equation
from saythesum.core.exercises.exercise import Exercise
from saythesum.publishing.braille.pages import Block, PageSize, brf_file, paged, wrapped
from saythesum.publishing.braille.translator import Translator
from saythesum.reports.sheets.number_line import SheetNumberLine
from saythesum.reports.sheets.print_layout import chunks
from saythesum.reports.sheets.sheet import Sheet
from saythesum.wording.braille.cells import BLANK, cell

APART = 2
"""Blank cells between columns."""
INDENT = BLANK * 2
"""Of a step beneath its sum."""
BLANK_TO_FILL = "_"
MOST_PAGES = 999
_LINE, _ONE, _TEN = cell("25"), cell("2356"), cell("123456")
CELLS_A_ONE = 2
"""On the number line."""


def brf_sheet(sheet: Sheet, translator: Translator, size: PageSize, *, spaces: bool) -> bytes:
    """Raises CallerError where the page is too small."""
    return brf_file(pages_of(sheet, translator, size, spaces=spaces))


def pages_of(
    sheet: Sheet, translator: Translator, size: PageSize, *, spaces: bool = False
) -> tuple[tuple[str, ...], ...]:
    drawn = _Drawn(sheet, translator, size, spaces)
    numbers = [translator.signs(str(number + 1)) for number in range(MOST_PAGES)]
    return paged(translator.words(sheet.title), numbers, tuple(drawn.blocks()), size)


def in_signs(equation: Equation, *, spaces: bool) -> str:
    """As text to be translated."""
    start, amount, total = (
        BLANK_TO_FILL if number is None else str(number) for number in (equation.start, equation.amount, equation.total)
    )
    around = " " if spaces else ""
    return f"{start}{around}{equation.sign}{around}{amount} = {total}"


class _Drawn:
    def __init__(self, sheet: Sheet, translator: Translator, size: PageSize, spaces: bool) -> None:
        self._sheet, self._translator, self._size, self._spaces = sheet, translator, size, spaces

    def blocks(self) -> Iterator[Block]:
        code = f"{self._translator.words('Sheet')}{BLANK}{self._translator.signs(self._sheet.code)}"
        yield Block(tuple(wrapped(code, self._size.cells)))
        if not self._sheet.grid.is_one_by_one:
            yield from self._tables()
        lines = [tuple(self._sum(line.written, line.steps, line.asked)) for line in self._sheet.lines]
        if self._sheet.with_steps or self._sheet.with_line:
            yield from (Block(line, is_whole=True) for line in lines)
        else:
            yield Block(tuple(one for line in lines for one in line))

    def _tables(self) -> Iterator[Block]:
        """One for as many columns as fit the line."""
        sheet, signs = self._sheet, self._translator.signs
        starts = [signs(str(start)) for start in sheet.grid.starts]
        heads = [signs(asked.shown_amount) for asked in sheet.row(0)]
        rows = [[self._in_cell(asked) for asked in sheet.row(row)] for row in range(len(starts))]
        side = max(map(len, starts))
        wide = max(map(len, (*heads, *(one for row in rows for one in row))))
        most = (self._size.cells - side) // (APART + wide)
        for columns in chunks(len(heads), max(1, most)):
            top = _in_columns("", [heads[column] for column in columns], side, wide)
            body = [
                _in_columns(starts[n], [row[column] for column in columns], side, wide) for n, row in enumerate(rows)
            ]
            yield Block(tuple(body), (top, _LINE * len(top)))

    def _in_cell(self, asked: Exercise) -> str:
        return self._translator.signs(str(asked.total) if self._sheet.is_filled else BLANK_TO_FILL)

    def _sum(self, written: Equation, steps: Sequence[Equation], asked: Exercise) -> Iterator[str]:
        yield self._equation(written)
        for step in steps:
            yield INDENT + self._equation(step)
        if (drawn := self._sheet.number_line(asked)) is not None:
            yield from self._number_line(drawn)

    def _equation(self, equation: Equation) -> str:
        return self._translator.signs(in_signs(equation, spaces=self._spaces))

    # ---- the number line

    def _number_line(self, line: SheetNumberLine) -> Iterator[str]:
        """Above it the jumps, each beginning at its left end; below it the numbers."""
        at = {number: (number - line.first) * CELLS_A_ONE for number in line.numbers}
        jumps = [
            (at[min(jump.begins, jump.lands)], f"{line.sign}{BLANK_TO_FILL if jump.by is None else jump.by}")
            for jump in line.jumps
        ]
        known = {line.start, *line.tens} | ({line.total} if line.total is not None else set())
        yield from reversed(list(self._labelled(jumps)))
        yield (_LINE * (CELLS_A_ONE - 1)).join(_TEN if number % 10 == 0 else _ONE for number in line.numbers)
        yield from self._labelled((at[number], str(number)) for number in known)

    def _labelled(self, labels: Iterable[tuple[int, str]]) -> Iterator[str]:
        """In as few lines as keep them apart, each label beginning at its place."""
        lines: list[str] = []
        for place, text in sorted(labels):
            cells = self._translator.signs(text)
            free = next((n for n, line in enumerate(lines) if len(line) < place or not line), None)
            if free is None:
                lines.append("")
                free = len(lines) - 1
            lines[free] = f"{lines[free].ljust(place, BLANK)}{cells}"
        return iter(lines)


def _in_columns(side: str, texts: Sequence[str], side_width: int, width: int) -> str:
    """Each text padded but the last, as blank cells at a line's end are nothing."""
    padded = [side.ljust(side_width, BLANK), *(text.ljust(width, BLANK) for text in texts)]
    return (BLANK * APART).join(padded).rstrip(BLANK)
