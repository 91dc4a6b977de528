"""`sheet answers CODE`: answers from paper, in order or by their sums, on the command line or line by line."""

import sys
from collections.abc import Iterator, Sequence
from uuid import uuid4

from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show, tell
from saythesum.core.grids.grid import Cell
from saythesum.errors import CallerError
from saythesum.office.papers.paper_answers import Written, keep_paper
from saythesum.office.papers.sheets import KeptSheet, sheet_of
from saythesum.office.pupils import known_code
from saythesum.settings.toml_text import shown

LEFT_EMPTY = "-"
BACK, STOP = "back", "stop"
_WRITTEN = {"hand": Written.HAND, "brailler": Written.BRAILLER, "said": Written.SAID}
RIGHT = "right would be a number, or - for an empty cell"


def type_in(words: Sequence[str], pupil: str, by: str) -> None:
    if not words:
        raise CallerError("CODE is missing: it stands at the top of the sheet.")
    own = own_places()
    sheet, code = sheet_of(own, words[0]), known_code(own, pupil)
    given = answers_given(sheet, words[1:]) if words[1:] else _asked_for(sheet, map(str.strip, sys.stdin))
    kept = keep_paper(own, code, sheet, given, _WRITTEN[by], uuid4(), RealClock().now())
    empty = f", {kept.empty} left empty" if kept.empty else ""
    show(f"{kept.answered} answers of {code} kept as paper, {kept.right} of them right{empty}.")


def answers_given(sheet: KeptSheet, words: Sequence[str]) -> tuple[int | None, ...]:
    """Either all in the sheet's order, or each with its sum: 47+5=52. Raises CallerError."""
    if not any("=" in word for word in words):
        if len(words) != len(sheet.cells):
            raise CallerError(
                f"The sheet {sheet.code} has {len(sheet.cells)} sums, and {len(words)} answers were given; "
                f"write {LEFT_EMPTY} for a cell that was left empty."
            )
        return tuple(_number(word) for word in words)
    by_cell = dict(given := [_by_sum(sheet, word) for word in words])
    if twice := next((cell for place, (cell, _) in enumerate(given) if cell in dict(given[:place])), None):
        raise CallerError(f"{sheet.grid.exercise_at(twice).shown} is given twice: leave one of them out.")
    return tuple(by_cell.get(cell) for cell in sheet.cells)


def _by_sum(sheet: KeptSheet, word: str) -> tuple[Cell, int | None]:
    """Of a sum that stands twice the first one is meant, and of its sign both the minus and the hyphen are taken."""
    asked, _, answer = word.replace("-", "−").rpartition("=")
    for cell in sheet.cells:
        if sheet.grid.exercise_at(cell).shown.replace(" ", "") == asked:
            return cell, _number(answer.replace("−", "-"))
    raise CallerError(f"The sheet {sheet.code} has no sum {shown(asked)}; right would be such as 47+5=52.")


def _asked_for(sheet: KeptSheet, lines: Iterator[str]) -> tuple[int | None, ...]:
    """Sum after sum, in plain lines. The end of the input is a stop, and what was typed before it is kept."""
    show(f"Sheet {sheet.code}, {sheet.grid.title}. Type each answer; Enter alone for an empty cell, {BACK}, or {STOP}.")
    answers: list[int | None] = [None] * len(sheet.cells)
    place = 0
    while place < len(answers):
        cell = sheet.cells[place]
        row = "" if sheet.grid.is_one_by_one else f"Row {sheet.grid.starts[cell.row]}: "
        show(f"{row}{sheet.grid.exercise_at(cell).shown}")
        line = next(lines, STOP)
        if line == STOP:
            break
        if line == BACK:
            place = max(0, place - 1)
            continue
        try:
            answers[place] = _number(line or LEFT_EMPTY)
        except CallerError as error:
            tell(str(error))
            continue
        place += 1
    return tuple(answers)


def _number(word: str) -> int | None:
    if word == LEFT_EMPTY:
        return None
    if not (word.isascii() and word.isdigit() and len(word) <= 4):
        raise CallerError(f"{shown(word)} is no answer; {RIGHT}.")
    return int(word)
