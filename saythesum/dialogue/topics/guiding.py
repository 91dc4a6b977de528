"""The answer to one guided part is awaited. It is followed; what comes next says it back."""

from saythesum.core.meanings import Choice, Given, Heard, Number, Unclear, WaitEnded, WhyUnclear
from saythesum.core.records.rows import Settled
from saythesum.core.sums import Part
from saythesum.dialogue.topics.answering import settle
from saythesum.dialogue.topics.asking import say_back, typed_as, unclear
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import awaiting_for
from saythesum.dialogue.turns.turn import ListenFor, Turn
from saythesum.dialogue.tutor.question import standing_question


def hear_guiding(heard: Heard, context: TurnContext) -> Turn:
    match heard:
        case Number():
            return _follow(heard, context)
        case Unclear(why=WhyUnclear.TWO_NUMBERS) | Given():
            question = standing_question(context.plan, context.progress)
            return Turn(say=question.alone, then=ListenFor(awaiting_for(context.ask)))
        case Choice() | Unclear() | WaitEnded():
            return unclear(heard, context)


def _follow(number: Number, context: TurnContext) -> Turn:
    """A number is read as, in this order: this part, another part, the whole answer, a wrong answer to this part."""
    asked, part = context.asked, context.ask.part
    answered = asked.part_answered(part, number.value)
    if answered is not None:
        return _keep(number, context, answered)
    if number.value == asked.total or asked.is_another_try(part, number.value):
        return _whole(number, context)
    return _keep(number, context, part)


def _whole(number: Number, context: TurnContext) -> Turn:
    if not context.is_spoken:
        return settle(context, number, context.how, typed_as(context), part=Part.WHOLE)
    return say_back(number, context, Settled.SAID_BACK)


def _keep(number: Number, context: TurnContext, part: Part) -> Turn:
    settled = Settled.FOLLOWED if context.is_spoken else typed_as(context)
    return settle(context, number, context.how, settled, part=part)
