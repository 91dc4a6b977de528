"""A whole answer or a total is awaited."""

from dataclasses import replace

from saythesum.core.meanings import (
    LOST,
    Awaiting,
    Choice,
    Command,
    Given,
    Heard,
    Number,
    Unclear,
    WaitEnded,
    WhyUnclear,
)
from saythesum.core.records.rows import By, Settled
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import going_on, settle
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import Asking, Confirming, SayingBack, SayingBackCommand, awaiting_for
from saythesum.dialogue.turns.turn import TAKE_YOUR_TIME, ListenFor, OpenPause, PassDown, Push, Swap, Turn
from saythesum.dialogue.tutor.next_step import what_next


def hear_asking(topic: Asking, heard: Heard, context: TurnContext) -> Turn:
    match heard:
        case Number() if not context.is_spoken:
            return settle(context, heard, context.how, typed_as(context))
        case Number(sure=False) | Given() | Unclear(why=WhyUnclear.LOST):
            return _unsure(topic, heard, context)
        case Unclear(why=WhyUnclear.TWO_NUMBERS) if context.is_spoken:
            return _unsure(topic, heard, context)
        case Number():
            return say_back(heard, context, Settled.SAID_AGAIN if topic.times_unsure else Settled.SAID_BACK)
        case Choice() | Unclear() | WaitEnded():
            return unclear(heard, context)


def typed_as(context: TurnContext) -> Settled:
    """What is chosen by switch was entered as surely as by keys."""
    return Settled.KEYS if context.how.by is By.SWITCH else Settled(context.how.by.value)


def say_back(number: Number, context: TurnContext, settled: Settled) -> Turn:
    return Turn(Push(SayingBack(number, context.how, settled)), (say.SaidBack(number.value),), then=OpenPause())


def unclear(heard: Heard, context: TurnContext) -> Turn:
    """Nothing was understood. A sound in the open ear may come from anybody, so nothing is said about it."""
    listen = ListenFor(awaiting_for(context.ask))
    if heard == Unclear(WhyUnclear.TWO_NUMBERS):
        return Turn(say=(say.OneNumber(),), then=listen)
    if heard == LOST:
        return Turn(say=(say.OnceMore(),), then=listen)
    if isinstance(heard, Unclear) and context.is_spoken and context.is_open_ear:
        return Turn(then=listen)
    if heard in (Unclear(WhyUnclear.NOTHING), WaitEnded(TAKE_YOUR_TIME)):
        return Turn(say=(say.TakeYourTime(),), then=listen)
    return not_understood(context)


def not_understood(context: TurnContext) -> Turn:
    """The question stands; a few words are enough, for it may have been said to somebody else."""
    return Turn(say=(say.NotUnderstood(context.how.by is By.KEYS),), then=ListenFor(awaiting_for(context.ask)))


def _unsure(topic: Asking, heard: Number | Given | Unclear, context: TurnContext) -> Turn:
    """First "once more", in the same words whatever was heard; then the keys, once a practice; then yes or no."""
    times = topic.times_unsure + 1
    listen = ListenFor(Awaiting.NUMBER)
    if times == 1:
        once_more = say.OneNumber() if heard == Unclear(WhyUnclear.TWO_NUMBERS) else say.OnceMore()
        return Turn(Swap(Asking(times)), (once_more,), then=listen)
    if times == 2 and not context.memory.are_keys_offered:
        memory = replace(context.memory, are_keys_offered=True)
        return Turn(Swap(Asking(times)), (say.TryKeys(),), then=listen, memory=memory)
    if isinstance(heard, Unclear):
        return unclear(heard, context)
    if isinstance(heard, Given):
        back = SayingBackCommand(heard.command)
        return Turn(Push(back), (say.CommandSaidBack(heard.command),), then=OpenPause())
    return Turn(Push(Confirming(heard, context.how)), (say.WasIt(heard.value),), then=ListenFor(Awaiting.CHOICE))


def hear_paused(heard: Heard, context: TurnContext) -> Turn:
    listen = ListenFor(Awaiting.COMMAND)
    match heard:
        case Given(command=Command.GO_ON):
            next = what_next(context.plan, context.progress)
            return going_on(context.plan, context.progress, next, is_again=next is None)
        case Given(command=Command.HUSH):
            return Turn(then=listen, hushes=True)
        case Number():
            return Turn(PassDown(heard))
        case Unclear() if context.is_spoken and context.is_open_ear:
            return Turn(then=listen)
        case _:
            return Turn(say=(say.Waiting(is_again=True, by_switch=context.plan.is_by_switch),), then=listen)
