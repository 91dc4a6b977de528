"""The answer to one guided part is awaited. It is followed; what comes next says it back."""

from saythesum.core.meanings import Choice, Given, Heard, Number, Unclear, WaitEnded, Why
from saythesum.core.records.rows import Settled
from saythesum.core.sums import Part
from saythesum.dialogue.topics.answering import settle
from saythesum.dialogue.topics.asking import say_back, typed_as, unclear
from saythesum.dialogue.turns.context import View
from saythesum.dialogue.turns.stack import awaiting_for
from saythesum.dialogue.turns.turn import ListenFor, Turn
from saythesum.dialogue.tutor.question import standing_question


def hear_guiding(heard: Heard, view: View) -> Turn:
    match heard:
        case Number():
            return _follow(heard, view)
        case Unclear(why=Why.TWO_NUMBERS) | Given():
            question = standing_question(view.plan, view.progress)
            return Turn(say=question.alone, then=ListenFor(awaiting_for(view.ask)))
        case Choice() | Unclear() | WaitEnded():
            return unclear(heard, view)


def _follow(number: Number, view: View) -> Turn:
    """Read in this order: this part, a later part or milestone, the whole answer, a wrong answer to this part."""
    asked, part = view.asked, view.ask.part
    answered = asked.part_answered(part, number.value)
    if answered is not None:
        return _keep(number, view, answered)
    if number.value == asked.total or asked.is_another_try(part, number.value):
        return _whole(number, view)
    return _keep(number, view, part)


def _whole(number: Number, view: View) -> Turn:
    if not view.is_spoken:
        return settle(view, number, view.how, typed_as(view), part=Part.WHOLE)
    return say_back(number, view, Settled.SAID_BACK)


def _keep(number: Number, view: View, part: Part) -> Turn:
    settled = Settled.FOLLOWED if view.is_spoken else typed_as(view)
    return settle(view, number, view.how, settled, part=part)
