"""Where the pupil is in the grid: said at the first visit, on moving, and on request."""

from collections.abc import Iterator, Sequence
from typing import assert_never

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.meanings import Command
from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.lengths import begun, by_length, capital

MOST_READ_OUT = 6
"""A longer row of headers is counted, not read out, before the first question."""


def place(message: say.Place, length: Length) -> str:
    match message:
        case say.GridIntro():
            return by_length(length, "", _size(message), _tour(message))
        case say.NewRow(start=start):
            return by_length(length, "New row.", f"New row, {words(start)}.", f"New row, {words(start)}.")
        case say.NextAlong():
            return by_length(length, "", "", "Next one along.")
        case say.BackToOneLeft():
            return by_length(length, "", "", "Back to one we left.")
        case say.ThisOneFirst():
            return by_length(length, "", "This one first.", "We'll do this one first.")
        case say.LeftOpen(comes_back=comes_back):
            return "We'll come back to that one." if comes_back else "We'll have that one another day."
        case say.WhereYouAre(asked=asked, done=done, of=of):
            place = f"Row {words(asked.start)}, {words_of(asked).in_row(asked)}."
            return f"{place} {begun(done)} of {words(of)} done."
        case say.RowRead(cells=cells):
            read = [capital(f"{words_of(asked).in_row(asked)}, {_known(answer)}.") for asked, answer in cells]
            return f"Row {words(cells[0][0].start)}. {' '.join(read)}"
        case say.ColumnRead(cells=cells):
            asked = cells[0][0]
            read = [f"Row {words(asked.start)}, {_known(answer)}." for asked, answer in cells]
            return f"{capital(words_of(asked).in_row(asked))}. {' '.join(read)}"
        case say.HowManyMore(cells=cells):
            return f"{begun(cells)} more."
        case say.NoFurther(way=way):
            return f"Nothing more to do {'before this one' if way is Command.GO_BACK else 'that way'}."
        case _:
            assert_never(message)


def _size(grid: say.GridIntro) -> str:
    rows, sums = len(grid.starts), len(grid.columns)
    if rows == 1:
        return f"One row, {_count(sums, 'sum')}."
    return f"{capital(_count(rows, 'row'))}, {_count(sums, 'sum')} in each."


def _tour(grid: say.GridIntro) -> str:
    """The headers once, for a pupil who can't see them, and how to hear a question again."""
    take = "Take as long as you like; Space says it again."
    if max(len(grid.starts), len(grid.columns)) > MOST_READ_OUT:
        return f"{_size(grid)} {take}"
    rows = f"{capital(_count(len(grid.starts), 'row'))} today, {_and([words(start) for start in grid.starts])}."
    return f"{rows} We'll {', then '.join(_in_turn(grid.columns))}. {take}"


def _in_turn(columns: Sequence[Exercise]) -> Iterator[str]:
    """What is done is named where it changes: "add three", "five"."""
    before = ""
    for asked in columns:
        yield words(asked.amount) if asked.operation == before else words_of(asked).in_row(asked)
        before = asked.operation


def _count(number: int, thing: str) -> str:
    return f"{words(number)} {thing}{'' if number == 1 else 's'}"


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _known(answer: int | None) -> str:
    return words(answer) if answer is not None else "not done"
