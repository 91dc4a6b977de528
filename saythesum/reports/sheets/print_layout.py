"""How a grid in large print is laid out on paper: how large the cells are, and how it is split where it is wider or
longer than the page. Lengths are in millimetres.

Sizes are points, which teachers write N18, N24 and so on. The lettering is Andika, whose measures stand here so that
the layout needs no font.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, degrees

from saythesum.errors import CallerError
from saythesum.settings import Paper

MM_A_POINT = 25.4 / 72
PAPERS_MM: dict[Paper, tuple[int, int]] = {"A4": (210, 297), "A3": (297, 420)}
"""Upright. Source: ISO 216."""
MARGIN_MM = 15
DIGIT_WIDTH_EM = 0.605
DIGIT_HEIGHT_EM = 0.713
"""Of Andika Bold 6.101, as its tables have them (advance of 0; height of 1 and of H)."""
WRITING_EM = 0.8
"""What a digit by hand takes. Our own choice: a third wider than print."""
LINE_EM = 1.5
"""Source: WCAG 2.2, success criterion 1.4.12, line height."""
ROW_EM = 2.2
LETTER_WIDTH_EM = 0.62
"""Of words on average, on the safe side."""
CODE_LETTERS = len("Sheet aghkm, part 10 of 12")
SMALLEST_DEGREES = 0.7
"""What a capital H must measure at the eye. Source: EN 301 549 V3.2.1, clause 5.1.4."""


@dataclass(frozen=True, slots=True)
class Part:
    """Of a table: rows and columns that stand on one page, under headers of their own."""

    rows: range
    columns: range


@dataclass(frozen=True, slots=True)
class PrintLayout:
    points: int
    paper: Paper
    header_mm: float
    """The width of the column with the starts."""
    cell_mm: float
    row_mm: float
    parts: tuple[Part, ...]
    """In reading order: all columns of the upper rows, then of the next."""

    @property
    def em_mm(self) -> float:
        return self.points * MM_A_POINT

    @property
    def width_mm(self) -> int:
        """Between the margins."""
        return PAPERS_MM[self.paper][0] - 2 * MARGIN_MM

    @property
    def digit_mm(self) -> float:
        return DIGIT_HEIGHT_EM * self.em_mm

    @property
    def readable_to_cm(self) -> int:
        """The furthest at which a capital is as large as EN 301 549 asks for."""
        return int(degrees(self.digit_mm / 10) / SMALLEST_DEGREES)


@dataclass(frozen=True, slots=True)
class Contents:
    """What is to be laid out. No rows: sums one by one, in no table."""

    rows: int
    columns: int
    start_digits: int
    """Of the longest one."""
    answer_digits: int
    title_letters: int


def laid_out(of: Contents, points: int, paper: Paper) -> PrintLayout:
    """Raises CallerError where no table fits."""
    rows, columns = of.rows, of.columns
    em = points * MM_A_POINT
    width, height = (side - 2 * MARGIN_MM for side in PAPERS_MM[paper])
    header_mm = (of.start_digits * DIGIT_WIDTH_EM + 1) * em
    cell_mm = (max(of.answer_digits, 2) * WRITING_EM + 1) * em
    row_mm = ROW_EM * em
    most_columns = int((width - header_mm) / cell_mm)
    letters_a_line = int(width / (LETTER_WIDTH_EM * em))
    heading_lines = sum(ceil(letters / letters_a_line) for letters in (of.title_letters, CODE_LETTERS))
    most_rows = int((height - heading_lines * LINE_EM * em - row_mm) / row_mm)
    if (rows and min(most_columns, most_rows) < 1) or (most_columns == 1 < columns) or (most_rows == 1 < rows):
        raise CallerError(
            f"At N{points} one sum fits across {paper} paper, which is no grid: choose a smaller print or larger paper."
        )
    parts = () if not rows else _split(of, most_rows, most_columns)
    return PrintLayout(points, paper, header_mm, cell_mm, row_mm, parts)


def _split(of: Contents, most_rows: int, most_columns: int) -> tuple[Part, ...]:
    return tuple(
        Part(rows, columns) for rows in chunks(of.rows, most_rows) for columns in chunks(of.columns, most_columns)
    )


def chunks(count: int, most: int) -> tuple[range, ...]:
    """As few as can be, and of nearly one size."""
    number = ceil(count / most)
    bounds = [count * place // number for place in range(number + 1)]
    return tuple(range(begin, end) for begin, end in pairwise(bounds))
