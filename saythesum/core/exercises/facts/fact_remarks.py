"""What can be said about a wrong answer to a fact, without words."""

from dataclasses import dataclass

from saythesum.core.exercises.bridge_remarks import NotATen, TenNotAfter, TenTooFar
from saythesum.core.exercises.exercise import Remark


@dataclass(frozen=True, slots=True)
class Together(Remark):
    """What the two parts make."""

    part: int
    given: int


def about_ten(start: int, given: int) -> Remark:
    """Of a number that is not the next ten after the start."""
    if given % 10:
        return NotATen(given)
    return TenNotAfter(given, start) if given <= start else TenTooFar(given, start)
