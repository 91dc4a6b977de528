"""What is heard and asked in a talk about a pattern."""

from typing import assert_never

from saythesum.core.patterns.moves import Line
from saythesum.core.patterns.questions import (
    Apart,
    EdgeOnes,
    Fill,
    HowManyCross,
    InColumn,
    InNewRow,
    InRow,
    LeftOver,
    Made,
    OwnStart,
    Place,
    Question,
)
from saythesum.core.patterns.remarks import AskMove, AskWhy, ListenTo
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.numbers import listed, words
from saythesum.wording.speak.lengths import by_length, capital
from saythesum.wording.speak.patterns.sums_said import made_said, step_said, sum_said

READY = "Say go on, or press Enter."


def listen_said(message: ListenTo, length: Length) -> str:
    heard = " ".join(capital(f"{_heard(one)}.") for one in message.heard)
    if message.is_reminder:
        return heard
    full = f"Have a listen. {heard} What stays the same? Take as long as you like. {READY}"
    return by_length(length, f"{heard} {READY}", f"Listen. {heard} What stays the same? {READY}", full)


def _heard(one: Line | Made) -> str:
    if isinstance(one, Made):
        return made_said(one)
    name = f"row {words(one.of)}" if isinstance(one.of, int) else step_said(one.of)
    return f"{name}: {listed(one.numbers)}{'' if one.is_whole else ', and so on'}"


def why_said(message: AskWhy, length: Length) -> str:
    full = f"Why is that? Say it in your own words, or just think. {READY}"
    return by_length(length, f"Why? {READY}", f"Why is that? Say it, or just think. {READY}", full)


def move_said(ask: AskMove, length: Length) -> str:
    match ask.question:
        case Apart() as apart:
            return _apart(apart, length, leans=ask.leans and ask.part is Part.EVERY_ROW)
        case Fill() as fill:
            return _fill(ask.part, fill, length)
        case HowManyCross():
            of_column = "How many of the sums in this column cross a ten?"
            return by_length(length, "How many cross a ten?", of_column, of_column)
        case EdgeOnes(step=step):
            edge = "smallest" if step.by > 0 else "largest"
            full = f"With {step_said(step)}, which is the {edge} ones digit that crosses a ten?"
            return by_length(length, f"With {step_said(step)}, the {edge} ones that cross?", full, full)
        case LeftOver(step=step, gap=gap, ten=ten):
            short = f"{step_said(step)}: {words(gap)} to get to {words(ten)}. How many are left?"
            return capital(by_length(length, f"{step_said(step)}, {words(gap)} used. How many left?", short, short))
        case OwnStart() as own:
            return _own_start(own, length)
        case question:
            raise ValueError(f"{question} has no words")


def question_named(question: Question) -> str:
    """What is asked, for whoever reads the field with a screen reader."""
    return move_said(AskMove(Part.PREDICT, question), "brief")


def _apart(apart: Apart, length: Length, *, leans: bool) -> str:
    told = " ".join(capital(f"{made_said(one)}.") for one in apart.told)
    ends = f"from {words(apart.one)} to {words(apart.other)}"
    place = _place(apart.place)
    where = f"{place}, " if place else ""
    how = "more" if apart.is_more else "less"
    also = "and " if leans else ""
    short = capital(f"{also}{where}{ends}, how much {how}?")
    full = capital(f"{also}{where}{ends}, how much {how} is that?")
    asked = by_length(length, capital(f"{ends}, how much {how}?"), short, full)
    return f"{told} {asked}".strip()


def _place(place: Place | None) -> str:
    match place:
        case InRow(start=start):
            return f"in row {words(start)}"
        case InColumn(step=step):
            return f"in the column {step_said(step)}"
        case InNewRow():
            return "in a new row"
        case None:
            return ""
        case _:
            assert_never(place)


def _fill(part: Part, fill: Fill, length: Length) -> str:
    known = made_said(fill.known)
    asked = step_said(fill.asked.step) if fill.asked.start == fill.known.start else sum_said(fill.asked)
    new = "column" if fill.is_new_column else "row"
    match part:
        case Part.PREDICT:
            short, full = f"A new {new}: {known}.", f"Here's a {new} that isn't in the grid. {capital(known)}."
        case Part.TURN_ROUND:
            short, full = f"Now turn it round: {known}.", f"Now we'll turn it round. {capital(known)}."
        case _:
            short, full = f"I'll start: {known}.", f"I'll fill one in. {capital(known)}."
    question = f"What would {asked} make?"
    return by_length(length, f"{capital(known)}. {capital(asked)}?", f"{short} {question}", f"{full} {question}")


def _own_start(own: OwnStart, length: Length) -> str:
    ends = f"from {words(own.starts[0])} to {words(own.starts[-1])}"
    if own.crosses is not None:
        which = f"a start {ends} that crosses a ten with {step_said(own.crosses)}"
    else:
        which = f"a start {ends}{'' if 0 in own.ones else ', but not a ten'}"
    return by_length(
        length, f"Your turn: {which}.", f"Make one yourself. Say {which}.", f"Now make one yourself. Say {which}."
    )
