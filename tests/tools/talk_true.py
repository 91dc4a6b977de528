"""Every sentence of a talk about a pattern, in all lengths, read back by plain arithmetic: made-up grids of 1 to 5 by 1
to 5, starts 0 to 999, adding and taking. `python -m tests.tools.talk_true [COUNT]`.

Of each grid a pattern of every kind that it has: its questions with both hints, what is said of two wrong numbers, what
is shown, what follows a right answer, and the reason.
"""

import sys
from collections import Counter
from collections.abc import Iterator
from random import Random
from typing import get_args

from saythesum.core.grids.grid import Grid
from saythesum.core.patterns import remarks
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.grid_pattern import GridPattern
from saythesum.core.patterns.moves import talk_about
from saythesum.core.patterns.questions import OwnStart, Question
from saythesum.core.sums import Part
from saythesum.dialogue.messages import Message
from saythesum.settings import Length
from saythesum.wording.speak.said import said
from tests.core.patterns.plain_arithmetic import made_grid
from tests.core.patterns.talk_read_back import UntrueError, check_talk

COUNT = 20_000
WRONG_BY = (-10, -2, -1, 1, 2, 10, 30)


def one_of_each_kind(grid: Grid, dice: Random) -> list[GridPattern]:
    """A large grid has dozens of equal answers."""
    found: dict[str, list[GridPattern]] = {}
    for pattern in patterns_of(grid):
        found.setdefault(pattern.name, []).append(pattern)
    return [dice.choice(patterns) for patterns in found.values()]


def messages_of(grid: Grid, pattern: GridPattern, dice: Random) -> Iterator[Message]:
    talk = talk_about(grid, pattern)
    yield remarks.ListenTo(talk.heard)
    yield remarks.AskWhy()
    yield remarks.Because(pattern)
    for move in talk.moves:
        if move.question is not None:
            yield from _of(move.part, move.question, pattern, dice)
            if move.fill:
                assert isinstance(move.question, OwnStart)
                own = [start for start in move.question.starts if move.question.is_right(start)]
                yield from _of(move.part, move.fill(dice.choice(own)), pattern, dice)


def _of(part: Part, question: Question, pattern: GridPattern, dice: Random) -> Iterator[Message]:
    yield remarks.AskMove(part, question, leans=True)
    yield remarks.Hint(question, is_plain=False)
    yield remarks.Hint(question, is_plain=True)
    yield remarks.Shown(question)
    yield remarks.RightMove(part, question, pattern)
    wrong = [question.right + by for by in WRONG_BY]
    possible = [given for given in wrong if given >= 0 and not question.is_right(given)]
    yield from (remarks.OfGiven(question, given) for given in dice.sample(possible, min(2, len(possible))))


def main(count: int) -> None:
    dice, by_kind, sentences, untrue = Random(2026), Counter[str](), 0, 0
    for number in range(count):
        grid = made_grid(dice)
        length: Length = get_args(Length)[number % 3]
        for pattern in one_of_each_kind(grid, dice):
            for message in messages_of(grid, pattern, dice):
                by_kind[type(message).__name__] += 1
                try:
                    sentences += check_talk(said(message, length), grid)
                except UntrueError as error:
                    untrue += 1
                    if untrue <= 20:
                        print(error)
    print(f"{count} grids, {by_kind.total()} messages, {sentences} sentences: {untrue} untrue or of no known form")
    for kind, times in by_kind.most_common():
        print(f"  {kind}: {times}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else COUNT)
