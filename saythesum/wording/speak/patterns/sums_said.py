"""Rows, columns and sums of a grid, to go into the sentences of a talk."""

from saythesum.core.exercises.exercise import Operator
from saythesum.core.exercises.registry import offered
from saythesum.core.patterns.grid_pattern import Step
from saythesum.core.patterns.questions import Made
from saythesum.wording.numbers import words


def operator_of(operation: str) -> Operator:
    return offered()[operation].operator


def step_said(step: Step) -> str:
    """ "add five" """
    return f"{operator_of(step.operation).says} {words(step.amount)}"


def sum_said(made: Made) -> str:
    """ "thirty-eight add five" """
    return f"{words(made.start)} {step_said(made.step)}"


def made_said(made: Made) -> str:
    """ "thirty-eight add five makes forty-three" """
    return f"{sum_said(made)} makes {words(made.total)}"


def more_said(by: int) -> str:
    """ "two more", "two less" """
    return f"{words(abs(by))} {'more' if by > 0 else 'less'}"
