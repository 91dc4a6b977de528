"""Yes or no between two sums: on hearing of a way with two jumps, or on a few facts first.

Anything but a yes goes on with the next sum; a sound in the open ear may come from anybody.
"""

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Heard, Unclear
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import facts_offered, going_on
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import OfferingFacts, OfferingTwoJumps
from saythesum.dialogue.turns.turn import ListenFor, Turn
from saythesum.dialogue.tutor.next_cell import next_fact
from saythesum.dialogue.tutor.next_step import what_next


def hear_offering(topic: OfferingTwoJumps | OfferingFacts, heard: Heard, context: TurnContext) -> Turn:
    listen = ListenFor(Awaiting.CHOICE)
    match heard:
        case Choice(yes=True, sure=True):
            return _taken_up(topic, context)
        case Given(command=Command.GO_ON) if isinstance(topic, OfferingFacts):
            return _taken_up(topic, context)  # "let's", and go on: by keys alone it is the only yes there is
        case Given(command=Command.SAY_AGAIN) | Choice(sure=False):
            return Turn(say=(_again(topic, context),), then=listen)
        case Given(command=Command.HUSH):
            return Turn(then=listen, hushes=True)
        case Unclear() if context.is_spoken and context.is_open_ear:
            return Turn(then=listen)
        case _:
            return _on(context, ())


def _taken_up(topic: OfferingTwoJumps | OfferingFacts, context: TurnContext) -> Turn:
    match topic:
        case OfferingTwoJumps():
            return _on(context, (say.TwoJumps(context.asked),))
        case OfferingFacts(activity=place):
            activity = context.plan.asides[place - len(context.plan.activities)]
            next = next_fact(activity, context.plan, context.progress, None)
            return going_on(context.plan, context.progress, next)


def _again(topic: OfferingTwoJumps | OfferingFacts, context: TurnContext) -> say.Message:
    match topic:
        case OfferingTwoJumps():
            return say.TwoJumpsOffered(is_again=True)
        case OfferingFacts(activity=place):
            return facts_offered(context.plan, place, is_again=True)


def _on(context: TurnContext, said: tuple[say.Message, ...]) -> Turn:
    next = what_next(context.plan, context.progress)
    return going_on(context.plan, context.progress, next, said=said, is_time_up=context.is_time_up)
