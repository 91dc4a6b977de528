"""A sum as it is typed: "38+5", "52-7", and with a hole, "47+?=52" or "?-5=47"."""

import re

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.registry import exercise, offered
from saythesum.core.sums import Hidden
from saythesum.errors import CallerError

HOLE = "?"
_RIGHT = 'a sum is typed as "38+5" or "52-7", or with a hole as "47+?=52".'
_SIGNS = str.maketrans({"\N{MINUS SIGN}": "-", "\N{EN DASH}": "-", "_": HOLE})
_SUM = re.compile(r"(\d{1,4}|\?)([-+])(\d{1,4}|\?)(?:=(\d{1,4}|\?)?)?", re.ASCII)


def exercise_from(text: object) -> Exercise:
    """Raises CallerError with what would be right."""
    found = _SUM.fullmatch(re.sub(r"\s+", "", text.translate(_SIGNS))) if isinstance(text, str) else None
    if not found:
        raise CallerError(_RIGHT)
    start, sign, amount, result = found.groups()
    operation = next(word for word, kind in offered().items() if _typed(kind.operator.sign) == sign)
    match (start, amount, result or HOLE).count(HOLE), start == HOLE, amount == HOLE:
        case 0, _, _:
            raise CallerError(f"nothing is asked in it; {_RIGHT}")
        case 1, True, _:
            begins = int(result) - int(amount) if sign == "+" else int(result) + int(amount)
            return _asked(operation, begins, int(amount), Hidden.START)
        case 1, _, True:
            step = int(result) - int(start) if sign == "+" else int(start) - int(result)
            return _asked(operation, int(start), step, Hidden.AMOUNT)
        case 1, _, _:
            return exercise(operation, int(start), int(amount))
        case _:
            raise CallerError(f"it has a hole in two places; {_RIGHT}")


def _asked(operation: str, start: int, amount: int, hidden: Hidden) -> Exercise:
    missing = amount if hidden is Hidden.AMOUNT else start
    try:
        return exercise(operation, start, amount, hidden=hidden)
    except CallerError as error:
        raise CallerError(f"the missing number would be {missing}. {error}") from error


def text_of_sum(asked: Exercise) -> str:
    return _typed(asked.shown).replace(" ", "")


def _typed(signs: str) -> str:
    return signs.translate(_SIGNS)
