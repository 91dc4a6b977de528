"""The words on a sheet, for pupil and helper, apart from its sums."""

from collections.abc import Iterator

from saythesum.core.exercises.equation import Equation
from saythesum.reports.sheets.print_layout import Part, PrintLayout
from saythesum.reports.sheets.sheet import Sheet
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.lengths import capital

BLANK = "____"
HELPER_INTRODUCTION = (
    "For the helper: the answers, and the steps to talk through where a sum crosses a ten. A right answer by another "
    "way is right. Give time; read a sum again in the same words when asked. This is practice, not assessment."
)


def equation_text(equation: Equation) -> str:
    """In signs, with no-break spaces: a sum is not broken between two lines."""
    start, amount, total = (
        BLANK if number is None else str(number) for number in (equation.start, equation.amount, equation.total)
    )
    return f"{start} {equation.sign} {amount} = {total}".replace(" ", "\N{NO-BREAK SPACE}")


def sheet_line(sheet: Sheet, layout: PrintLayout, part: Part | None = None) -> str:
    """Which sheet this is, and which part of it where the grid is split."""
    parts = layout.parts if part else ()
    which = f", part {parts.index(part) + 1} of {len(parts)}" if part and len(parts) > 1 else ""
    return f"Sheet {sheet.code}{which}"


def split_sentence(layout: PrintLayout) -> str:
    """For the adult, who looks for one page."""
    parts = len(layout.parts)
    size = f"N{layout.points} on {layout.paper}"
    digits = f"digits are {layout.digit_mm:.1f} mm high, large enough to {layout.readable_to_cm} cm from the eye"
    fits = (
        "the grid fits on a page"
        if parts == 1
        else "the sums stand one by one"
        if not parts
        else f"the grid is split over {parts} pages, headers on each"
    )
    return f"{size}: {fits}; {digits} (EN 301 549, 5.1.4)."


def helper_lines(sheet: Sheet) -> Iterator[tuple[str, str, str]]:
    """Of each sum: in signs with its answer, its steps in signs, and what the tool would say in working it through."""
    for cell in sheet.cells:
        asked = sheet.asked(cell)
        steps = ", ".join(equation_text(step) for step in asked.written_steps)
        yield equation_text(asked.written), steps, words_of(asked).worked(asked, "short")


def row_phrases(sheet: Sheet, row: int) -> tuple[str, ...]:
    """What a sound sheet says of one of its groups: its label, then each sum, answered where the sheet is filled."""
    groups = sheet.groups
    asked, what = groups[row], "Part" if sheet.grid.is_one_by_one else "Row"
    label = f"{capital(sheet.title)}. {what} {row + 1} of {len(groups)}."
    if sheet.is_filled:
        return (label, *(words_of(one).answered(one) for one in asked))
    return (label, *(capital(f"{words_of(one).whole(one)}.") for one in asked))
