"""What follows an answer in a talk about a pattern: hints from vague to plain, true things about a wrong number, what
the tool shows itself, and what is said of a right one.
"""

from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.core.patterns.grid_pattern import ColumnsAlike, ColumnsApart, RowsAlike, RowsApart, Step
from saythesum.core.patterns.questions import Apart, EdgeOnes, Fill, HowManyCross, LeftOver, OwnStart, Question
from saythesum.core.patterns.remarks import Hint, OfGiven, RightMove, Shown
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import by_length, capital, joined
from saythesum.wording.speak.patterns.sums_said import made_said, more_said, step_said, sum_said

FAR = 20
"""A difference above it says nothing about what went wrong."""

# ---- hints


def hint_said(hint: Hint, length: Length) -> str:
    return _plain(hint.question) if hint.is_plain else _vague(hint.question)


def _vague(question: Question) -> str:
    match question:
        case Apart():
            low, high = question.ends
            return f"Start at {words(low)} and go up to {words(high)}."
        case Fill():
            return "The two stay just as far apart as before."
        case HowManyCross():
            return "Only the ones of each start matter."
        case EdgeOnes(step=step):
            return _edge_vague(step)
        case LeftOver(step=step, gap=gap):
            return f"{capital(words(gap))} of the {words(step.amount)} {'is' if gap == 1 else 'are'} used."
        case OwnStart():
            return "Any start that fits will do."
        case _:
            raise ValueError(f"{question} has no hint")


def _edge_vague(step: Step) -> str:
    if step.by > 0:
        return f"The ones and {words(step.amount)} must come to more than ten."
    return f"The ones must be fewer than {words(step.amount)}."


def _plain(question: Question) -> str:
    match question:
        case Apart():
            return _apart_plain(question)
        case Fill(known=known, asked=asked) if known.start == asked.start:
            return capital(f"{step_said(asked.step)} makes {more_said(question.by)} than {step_said(known.step)}.")
        case Fill(known=known, asked=asked):
            by = asked.start - known.start
            return capital(f"{words(asked.start)} is {more_said(by)} than {words(known.start)}.")
        case HowManyCross(step=step):
            return crossing_ones(step)
        case EdgeOnes(step=step):
            lands = 10 - step.amount if step.by > 0 else step.amount
            one = "one more" if step.by > 0 else "one less"
            return capital(f"{words(lands)} {step_said(step)} lands on the ten. Go to {one} than {words(lands)}.")
        case LeftOver(step=step, gap=gap):
            return f"{capital(words(gap))} and how many make {words(step.amount)}?"
        case OwnStart(crosses=Step() as step):
            return crossing_ones(step)
        case OwnStart(starts=starts):
            return f"Say one from {words(starts[0])} to {words(starts[-1])}."
        case _:
            raise ValueError(f"{question} has no hint")


def _apart_plain(question: Apart) -> str:
    """By way of the ten, where one lies between; else the first step of the count."""
    low, high = question.ends
    if low % 10 == high % 10:
        return f"Count in tens from {words(low)}."
    if ten := question.ten_between:
        gap = f"From {words(low)} to {words(ten)} is {words(ten - low)}."
        return f"{gap} Then from {words(ten)} to {words(high)}."
    if high - low == 1:
        return f"{capital(words(high))} comes just after {words(low)}."
    return capital(f"{joined(low, 1)} is {words(low + 1)}. Go on counting.")


def crossing_ones(step: Step) -> str:
    """Which ones cross a ten with a step."""
    low, high = (11 - step.amount, 9) if step.by > 0 else (1, step.amount - 1)
    if low == high:
        which = f"only the ones digit {words(low)} crosses"
    elif high - low == 1:
        which = f"only the ones digits {words(low)} and {words(high)} cross"
    elif step.by > 0:
        which = f"ones digits from {words(low)} up cross"
    else:
        which = f"ones digits from one to {words(high)} cross"
    return f"With {step_said(step)}, {which} a ten."


# ---- a wrong number, and the tool's own answer


def of_given_said(message: OfGiven, length: Length) -> str:
    """ "" where nothing true of it helps."""
    question, given = message.question, message.given
    match question:
        case Apart():
            low, high = question.ends
            if low + given > LARGEST_NUMBER:
                return ""
            made = f"{joined(low, given)} is {words(low + given)}"
            return capital(f"{made}, {'past' if low + given > high else 'short of'} {words(high)}.")
        case Fill(known=known) if given == known.total:
            return capital(f"{words(given)} is what {sum_said(known)} makes.")
        case Fill(known=known) if abs(given - known.total) <= FAR:
            return f"From {words(known.total)} to {words(given)} is {words(abs(given - known.total))}."
        case LeftOver(step=step, gap=gap) if gap + given <= LARGEST_NUMBER:
            return f"{capital(words(gap))} and {words(given)} make {words(gap + given)}, not {words(step.amount)}."
        case EdgeOnes(step=step) if given < 10 and step.by > 0:
            total = given + step.amount
            return f"{capital(words(given))} and {words(step.amount)} make {words(total)}."
        case OwnStart():
            return _of_own_start(question, given)
        case _:
            return ""


def _of_own_start(own: OwnStart, given: int) -> str:
    if given not in own.starts:
        return f"{capital(words(given))} is not from {words(own.starts[0])} to {words(own.starts[-1])}."
    if own.crosses is None:
        return f"{capital(words(given))} is a ten already."
    return f"{capital(sum_said_of(given, own.crosses))}, and crosses no ten."


def sum_said_of(start: int, step: Step) -> str:
    return f"{words(start)} {step_said(step)} makes {words(start + step.by)}"


def shown_said(message: Shown, length: Length) -> str:
    match message.question:
        case Apart(one=one, other=other) as apart:
            return f"From {words(one)} to {words(other)} is {words(apart.right)}."
        case Fill(asked=asked):
            return capital(f"{made_said(asked)}.")
        case HowManyCross(crossing=crossing, sums=sums):
            return f"{capital(words(crossing))} of the {words(sums)} {'crosses' if crossing == 1 else 'cross'} a ten."
        case EdgeOnes(step=step):
            return crossing_ones(step)
        case LeftOver(step=step, gap=gap, ten=ten) as left:
            used = f"{words(gap)} and {words(left.right)} make {words(step.amount)}"
            are = "is" if left.right == 1 else "are"
            return capital(f"{used}, so {words(left.right)} {are} left after {words(ten)}.")
        case OwnStart() as own:
            return f"{capital(words(own.right))} would do."
        case question:
            raise ValueError(f"{question} has no answer to show")


# ---- a right number


def right_said(message: RightMove, length: Length) -> str:
    if isinstance(message.question, OwnStart):
        return "Yes."
    more = shown_said(Shown(message.question), length)
    short = _also(message) or "Yes."
    return by_length(length, "Yes.", short, f"{short} {more}")


def _also(message: RightMove) -> str:
    match message.part, message.question, message.pattern:
        case Part.EVERY_ROW, Apart(), ColumnsApart() | ColumnsAlike():
            return f"Yes, in {_all(message.pattern.rows, 'row')}."
        case Part.EVERY_ROW, Apart(), RowsApart() | RowsAlike():
            return f"Yes, in {_all(message.pattern.columns, 'column')}."
        case Part.PREDICT, Fill() as fill, ColumnsApart() | ColumnsAlike() | RowsApart() | RowsAlike():
            return f"Yes. Still {more_said(fill.by)}."
        case Part.MAKE_ONE, _, _:
            return "Yes. That one is your own."
        case _:
            return ""


def _all(number: int, thing: str) -> str:
    return f"both {thing}s" if number == 2 else f"every {thing}"
