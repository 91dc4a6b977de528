"""How long a talk about a pattern is: words and turns of the tool, and minutes at 130 words a minute, pupils' words
counted. `python -m tests.tools.talk_length [COUNT]`: made-up grids of 2 to 5 by 2 to 5, the pattern worth finding of
each, by a pupil who sees it and by one who misses every question once.
"""

import sys
from datetime import UTC, date, datetime
from random import Random
from statistics import median

from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.pattern_talk import standing_move
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.learner.worth_finding import Talked
from saythesum.settings import Length, Settings, Wording
from tests.talk import PRACTICE, Talk

COUNT = 200
WORDS_A_MINUTE = 130
TODAY = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)
BEFORE = [(), *((Talked(name, (9, 9), date(2031, 5, 1)),) for name in ("columns-apart", "rows-apart", "crossing"))]
"""What was talked about on an earlier day, so that every stage of teaching comes."""
LENGTHS: tuple[Length, ...] = ("brief", "short", "full")


def made_grid(dice: Random) -> Grid:
    starts = tuple(dice.sample(range(21, 98), dice.randint(2, 5)))
    amounts = tuple(dice.sample(range(2, 10), dice.randint(2, 5)))
    return Grid("Rows of oars", starts, amounts, Order.ROWS)


def at_the_offer(grid: Grid, length: Length, before: tuple[Talked, ...]) -> Talk:
    settings = Settings(wording=Wording(length=length))
    plan = planned(PRACTICE, [activity(grid, 0)], settings, began_at=TODAY, talked=before)
    talk = Talk(plan, Ear.TEXT)
    talk.begin()
    for row in range(len(grid.starts)):
        for column in range(len(grid.amounts)):
            talk.type(Number(grid.exercise_at(Cell(row, column)).total))
    return talk


def talked_through(talk: Talk, *, misses: bool) -> tuple[int, int]:
    """Words of both, and turns of the tool."""
    talk.said.clear()
    words, turns = 1, 1
    talk.type("yes")
    while not talk.finished:
        _, ask, question = standing_move(talk.state.plan, talk.state.progress)
        turns += 1
        if question is None:
            words += 2
            talk.type("go on")
            continue
        answers = [row for row in talk.state.progress.talk if isinstance(row, Answer)]
        is_first = not answers or answers[-1].id != ask.because or answers[-1].right
        words += 1
        talk.type(Number(question.right + (misses and is_first)))
    return words + len(" ".join(talk.said).replace("-", " ").split()), turns


def main(count: int) -> None:
    for length in LENGTHS:
        for misses in (False, True):
            dice = Random(2026)
            counts = [
                talked_through(at_the_offer(made_grid(dice), length, dice.choice(BEFORE)), misses=misses)
                for _ in range(count)
            ]
            words, turns = [one for one, _ in counts], [one for _, one in counts]
            who = "misses each question once" if misses else "sees it"
            minutes = [median(words) / WORDS_A_MINUTE, max(words) / WORDS_A_MINUTE]
            print(
                f"{length}, {who}: {median(words):.0f} words, at most {max(words)}; {median(turns):.0f} turns, at most "
                f"{max(turns)}; {minutes[0]:.1f} minutes, at most {minutes[1]:.1f}"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else COUNT)
