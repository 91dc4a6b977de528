"""Why a pattern is so: the amounts, starts and ones that cause it, in sentences that are true of every grid with it."""

from saythesum.core.patterns.grid_pattern import (
    ColumnsAlike,
    ColumnsApart,
    CrossingOnes,
    EqualAnswers,
    FiveTwice,
    Landing,
    LandingLine,
    NearTen,
    RowsAlike,
    RowsApart,
    SharedGap,
    Step,
)
from saythesum.core.patterns.remarks import Because
from saythesum.settings import Length
from saythesum.wording.numbers import listed, words
from saythesum.wording.speak.lengths import capital
from saythesum.wording.speak.patterns.said_answers import crossing_ones
from saythesum.wording.speak.patterns.sums_said import more_said, step_said

MOST_NAMED = 3
"""Landings, or rests: enough to see what goes on."""


def because_said(message: Because, length: Length) -> str:
    match message.pattern:
        case ColumnsApart(steps=(one, other)):
            return f"The start is the same, and {_against(other, one)}."
        case ColumnsAlike(steps=(one, other)):
            return f"{capital(_against(other, one))}, and a whole ten leaves the ones as they are."
        case RowsApart(starts=(one, other)) if one == other:
            return f"Both rows start with {words(one)}, and each column does the same to both."
        case RowsApart(starts=(one, other)):
            return f"Each column does the same to both rows, and {_start_against(other, one)}."
        case RowsAlike(starts=(one, other), ones=ones, crossing=crossing):
            same = f"Each column does the same to both rows, and {_start_against(other, one)}."
            also = ", and they cross a ten in the same columns" if crossing else ""
            return f"{same} Both starts end in {words(ones)}, so their numbers end alike{also}."
        case CrossingOnes(step=step):
            return f"Only the ones of the start decide. {crossing_ones(step)}"
        case LandingLine(landings=landings):
            return _landing(landings[:MOST_NAMED])
        case EqualAnswers(starts=(start, other_start), steps=(first, second)):
            amounts = _against(second, first)
            return f"{capital(_start_against(other_start, start))}, but {amounts}. The two cancel out."
        case NearTen(step=step, short=short):
            there, back = ("more", "back") if step.by > 0 else ("less", "forward")
            less = f"{words(step.amount)} is {words(short)} less than ten"
            return capital(f"{less}: a ten {there}, and {words(short)} {back}.")
        case SharedGap(start=start, operation=operation, gap=gap, rests=rests):
            ten = start + (gap if operation == "add" else -gap)
            left = listed(dict.fromkeys(rest for _, rest in rests[:MOST_NAMED]))
            same = f"{words(start)} is {words(gap)} from {words(ten)}, whatever comes"
            return capital(f"{same}. Only what is left changes: {left}.")
        case FiveTwice(step=step):
            there = "on" if step.by > 0 else "back"
            return f"Five and five make ten: a whole ten {there}, so the ones are the same again."
        case pattern:
            raise ValueError(f"{pattern.name} has no reason in words")


def _against(step: Step, other: Step) -> str:
    """ "add five makes two more than add three" """
    if step.by == other.by:
        return f"both columns {step_said(step)}"
    return f"{step_said(step)} makes {more_said(step.by - other.by)} than {step_said(other)}"


def _start_against(start: int, other: int) -> str:
    return f"{words(start)} is {more_said(start - other)} than {words(other)}"


def _landing(landings: tuple[Landing, ...]) -> str:
    if landings[0].step.by > 0:
        pairs = "; ".join(f"{words(one.ones)} and {words(one.step.amount)}" for one in landings)
        return f"Each time the ones and what is added make ten: {pairs}."
    pairs = "; ".join(f"{words(one.step.amount)} from {words(one.start)}" for one in landings)
    return f"Each time just the ones are taken away: {pairs}."
