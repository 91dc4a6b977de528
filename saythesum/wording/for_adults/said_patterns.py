"""For the adult and the log: which pattern of a finished grid was chosen to talk about, and why."""

from typing import assert_never

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
)
from saythesum.learner.worth_finding import WorthFinding, WorthReason
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import capital
from saythesum.wording.speak.patterns.sums_said import operator_of, step_said


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
            return f"how far apart the columns {step_said(one)} and {step_said(other)} are"
        case ColumnsAlike(steps=(one, other)):
            return f"the same ones in the columns {step_said(one)} and {step_said(other)}"
        case RowsApart(starts=(one, other)):
            return f"how far apart the rows {words(one)} and {words(other)} are"
        case RowsAlike(starts=(one, other)):
            return f"the same ones in the rows {words(one)} and {words(other)}"
        case CrossingOnes(step=step):
            return f"which sums cross a ten in the column {step_said(step)}"
        case LandingLine(operation=operation):
            return f"the sums that land on a ten by {operator_of(operation).doing}"
        case EqualAnswers(starts=(one, other), steps=(first, second)):
            return f"the same answer to {words(one)} {step_said(first)} and {words(other)} {step_said(second)}"
        case NearTen(step=step):
            return f"what {step_said(step)} does to tens and ones"
        case SharedGap(start=start):
            return f"the gap that the sums from {words(start)} share"
        case FiveTwice(step=step):
            return f"what {step_said(step)} does to the ones when it is done twice"
        case _:
            raise ValueError(f"{pattern.name} is no pattern with a name for adults")
