"""The sums of a sentence in digits, for whoever reads: "Forty and five is forty-five." is 40 + 5 = 45.

They hold no number that the sentence or the sum that is asked does not have; what is asked for is a question mark.
"""

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises import taking_remarks as taking
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.missing import remarks as missing
from saythesum.core.sums import Kind
from saythesum.dialogue import messages as say
from saythesum.settings import Length

_SPACE = "\N{NO-BREAK SPACE}"
"""A sum is not broken between two lines."""


def in_digits(message: say.Message, length: Length) -> str:
    """ "" where the sentence says no sum."""
    return " ".join(f"{one}." for one in _sums(message, length))


def _sums(message: say.Message, length: Length) -> list[str]:
    match message:
        case remarks.TenAndAll(asked=asked) if length != "brief":
            return [_plus(asked.next_ten, asked.amount)]
        case remarks.TenAndGap(asked=asked):
            return [*([] if length == "brief" else [_plus(asked.next_ten, asked.gap)]), _plus(asked.start, asked.gap)]
        case remarks.ReachedTen(asked=asked):
            return [_plus(asked.start, asked.gap)] if length != "brief" else []
        case remarks.WasAdded(asked=asked, value=value):
            return [_plus(asked.start, value - asked.start)]
        case remarks.GapReaches(asked=asked, value=value):
            return [_plus(asked.start, value)]
        case remarks.RestMakes(asked=asked, value=value):
            return [_plus(asked.gap, value)]
        case remarks.OnesMake(asked=asked, value=value):
            return [_plus(asked.ones, value - asked.ones)]
        case remarks.DoGap(asked=asked) if asked.kind is Kind.CROSSING:
            return [_plus(asked.start, asked.gap)]
        case remarks.DoRest(asked=asked):
            return [_plus(asked.gap, asked.rest)]
        case remarks.DoOnes(asked=asked):
            return [_plus(asked.ones, asked.amount)]
        case say.Worked(asked=asked):
            return _worked(asked, length)
        case _:
            return _asked(message) or _of_taking(message, length) or _of_missing(message, length)


def _asked(message: say.Message) -> list[str]:
    match message:
        case remarks.AskGap(asked=asked) if asked.kind is Kind.CROSSING:
            return [_equation(f"{asked.start} + ?", asked.next_ten)]
        case remarks.AskBond(ones=ones):
            return [_equation(f"{ones} + ?", 10)]
        case remarks.AskOnes(ones=ones, amount=amount):
            return [_equation(f"{ones} + {amount}", "?")]
        case remarks.AskTotal(asked=asked) if asked.kind is Kind.CROSSING:
            return [_equation(f"{asked.next_ten} + {asked.rest}", "?")]
        case remarks.AskTotal(asked=asked) if asked.kind is Kind.WITHIN:
            return [_equation(f"{asked.tens} + {asked.ones + asked.amount}", "?")]
        case _:
            return []


def _of_taking(message: say.Message, length: Length) -> list[str]:
    match message:
        case taking.TenLessAll(asked=asked) if length != "brief":
            return [_minus(asked.next_ten, asked.amount)]
        case taking.TenLessGap(asked=asked) if length != "brief":
            return [_minus(asked.next_ten, asked.gap)]
        case taking.ReachedTenBack(asked=asked) if length != "brief":
            return [_minus(asked.start, asked.gap)]
        case taking.WasTaken(asked=asked, value=value) if length != "brief":
            return [_minus(asked.start, asked.start - value)]
        case taking.GapLeadsTo(asked=asked, value=value) if length != "brief":
            return [_minus(asked.start, value)]
        case taking.AmountMakes(asked=asked, value=value):
            return [_plus(asked.gap, value)]
        case taking.TakenFrom(whole=whole, value=value) if length != "brief":
            return [_minus(whole, whole - value)]
        case taking.AskOnesTaken(asked=asked):
            return [_equation(f"{asked.ones or 10} − {asked.amount}", "?")]
        case taking.AskFromTen(asked=asked):
            return [_equation(f"{asked.next_ten} − {asked.amount}", "?")]
        case taking.AskLastStep(to_join=(one, other)):
            return [_equation(f"{one} + {other}", "?")]
        case taking.AskLastStep(asked=asked) if asked.kind is Kind.CROSSING:
            return [_equation(f"{asked.next_ten} − {asked.rest}", "?")]
        case _:
            return []


def _of_missing(message: say.Message, length: Length) -> list[str]:
    match message:
        case missing.WorkBack(question=question, way=way, is_way_told=is_way_told):
            back = [_equation(way.shown, "?")] if is_way_told else []
            return [*back, *_sums(question, length)]
        case missing.PutIn(start=start, operator=operator, amount=amount, makes=makes) if length != "brief":
            return [_equation(f"{start} {operator.sign} {amount}", makes)]
        case missing.ReachesTen(bridge=bridge, operator=operator):
            return [_equation(f"{bridge.start} {operator.sign} {bridge.gap}", bridge.next_ten)]
        case missing.AskOnes(ones=ones, operator=operator, leads_to=leads_to):
            return [_equation(f"{ones} {operator.sign} ?", leads_to)]
        case missing.AskBoth(bridge=bridge):
            return [_equation(f"{bridge.gap} + {bridge.rest}", "?")]
        case _:
            return []


def _minus(one: int, other: int) -> str:
    return _equation(f"{one} − {other}", one - other)


def _worked(asked: Exercise, length: Length) -> list[str]:
    """Jump by jump, where it goes in jumps."""
    line = asked.on_line
    sums, at = [], line.start
    for jump in line.jumps:
        sums.append(_equation(f"{at} {line.operator.sign} {jump.by}", jump.to))
        at = jump.to
    if not sums:
        return [_unbroken(asked.shown_with(asked.total))]
    return sums[-1:] if length == "brief" else sums


def _plus(one: int, other: int) -> str:
    return _equation(f"{one} + {other}", one + other)


def _equation(left: str, right: int | str) -> str:
    return _unbroken(f"{left} = {right}")


def _unbroken(sum: str) -> str:
    return sum.replace(" ", _SPACE)
