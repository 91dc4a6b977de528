"""For the adult and the log: which pattern of a finished grid was chosen to talk about, and why."""

from typing import assert_never

from saythesum.core.exercises.exercise import Operator
from saythesum.core.exercises.registry import EXERCISES
from saythesum.core.patterns.grid_pattern import (
    ColumnsAlike,
    ColumnsApart,
    CrossingOnes,
    EqualAnswers,
    FiveTwice,
    GridPattern,
    LandingLine,
    NearTen,
    RowsAlike,
    RowsApart,
    SharedGap,
    Step,
)
from saythesum.core.sums import ExerciseName, Hidden
from saythesum.learner.worth_finding import WorthFinding, WorthReason
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import capital


def why_found_said(chosen: WorthFinding) -> str:
    why = chosen.why
    match why.reason:
        case WorthReason.MISSED:
            those = "the one sum" if why.missed == 1 else f"{why.bears_on} of the {why.missed} sums"
            reason = f"it bears on {those} that went wrong or needed help"
        case WorthReason.NEXT:
            reason = "the next in the order of teaching"
        case _:
            assert_never(why.reason)
    return f"{capital(pattern_named(chosen.pattern))}: {reason}."


def pattern_named(pattern: GridPattern) -> str:
    match pattern:
        case ColumnsApart(steps=(one, other)):
            return f"how far apart the columns {_step(one)} and {_step(other)} are"
        case ColumnsAlike(steps=(one, other)):
            return f"the same ones in the columns {_step(one)} and {_step(other)}"
        case RowsApart(starts=(one, other)):
            return f"how far apart the rows {words(one)} and {words(other)} are"
        case RowsAlike(starts=(one, other)):
            return f"the same ones in the rows {words(one)} and {words(other)}"
        case CrossingOnes(step=step):
            return f"which sums cross a ten in the column {_step(step)}"
        case LandingLine(operation=operation):
            return f"the sums that land on a ten by {_operator(operation).doing}"
        case EqualAnswers(starts=(one, other), steps=(first, second)):
            return f"the same answer to {words(one)} {_step(first)} and {words(other)} {_step(second)}"
        case NearTen(step=step):
            return f"what {_step(step)} does to tens and ones"
        case SharedGap(start=start):
            return f"the gap that the sums from {words(start)} share"
        case FiveTwice(step=step):
            return f"what {_step(step)} does to the ones when it is done twice"
        case _:
            raise ValueError(f"{pattern.name} is no pattern with a name for adults")


def _step(step: Step) -> str:
    return f"{_operator(step.operation).says} {words(step.amount)}"


def _operator(operation: str) -> Operator:
    return EXERCISES[operation, ExerciseName.SUM, Hidden.TOTAL].operator
