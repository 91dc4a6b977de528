"""A whole answer or a total is awaited."""

from dataclasses import replace

from saythesum.core.meanings import LOST, Awaiting, Choice, Command, Given, Heard, Number, Unclear, WaitEnded, Why
from saythesum.core.records.rows import By, Settled
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import going_on, settle
from saythesum.dialogue.turns.context import View
from saythesum.dialogue.turns.stack import Asking, Confirming, SayingBack, SayingBackCommand, awaiting_for
from saythesum.dialogue.turns.turn import ListenFor, OpenPause, PassDown, Push, Swap, Turn
from saythesum.dialogue.tutor.question import standing_question


def hear_asking(topic: Asking, heard: Heard, view: View) -> Turn:
    match heard:
        case Number() if not view.is_spoken:
            return settle(view, heard, view.how, typed_as(view))
        case Number(sure=False) | Given() | Unclear(why=Why.LOST):
            return _unsure(topic, heard, view)
        case Unclear(why=Why.TWO_NUMBERS) if view.is_spoken:
            return _unsure(topic, heard, view)
        case Number():
            return say_back(heard, view, Settled.SAID_AGAIN if topic.times_unsure else Settled.SAID_BACK)
        case Choice() | Unclear() | WaitEnded():
            return unclear(heard, view)


def typed_as(view: View) -> Settled:
    return Settled(view.how.by.value)


def say_back(number: Number, view: View, settled: Settled) -> Turn:
    return Turn(Push(SayingBack(number, view.how, settled)), (say.SaidBack(number.value),), then=OpenPause())


def unclear(heard: Heard, view: View) -> Turn:
    """Nothing was understood. A sound in the open ear may be anybody's: then nothing is said."""
    listen = ListenFor(awaiting_for(view.ask))
    if heard == Unclear(Why.TWO_NUMBERS):
        return Turn(say=(say.OneNumber(),), then=listen)
    if heard == LOST:
        return Turn(say=(say.OnceMore(),), then=listen)
    if isinstance(heard, Unclear) and view.is_spoken and view.is_open_ear:
        return Turn(then=listen)
    question = standing_question(view.plan, view.progress)
    return Turn(say=(say.NotUnderstood(view.how.by is By.KEYS), *question.alone), then=listen)


def _unsure(topic: Asking, heard: Number | Given | Unclear, view: View) -> Turn:
    """The same words whatever was heard; then the keys, once a practice; then yes or no, where there is something."""
    times = topic.times_unsure + 1
    listen = ListenFor(Awaiting.NUMBER)
    if times == 1:
        once_more = say.OneNumber() if heard == Unclear(Why.TWO_NUMBERS) else say.OnceMore()
        return Turn(Swap(Asking(times)), (once_more,), then=listen)
    if times == 2 and not view.memory.are_keys_offered:
        memory = replace(view.memory, are_keys_offered=True)
        return Turn(Swap(Asking(times)), (say.TryKeys(),), then=listen, memory=memory)
    if isinstance(heard, Unclear):
        return unclear(heard, view)
    if isinstance(heard, Given):
        back = SayingBackCommand(heard.command)
        return Turn(Push(back), (say.CommandSaidBack(heard.command),), then=OpenPause())
    return Turn(Push(Confirming(heard, view.how)), (say.WasIt(heard.value),), then=ListenFor(Awaiting.CHOICE))


def hear_paused(heard: Heard, view: View) -> Turn:
    listen = ListenFor(Awaiting.COMMAND)
    match heard:
        case Given(command=Command.GO_ON):
            return going_on(view.plan, view.progress, None, is_again=True)
        case Given(command=Command.HUSH):
            return Turn(then=listen, hushes=True)
        case Number():
            return Turn(PassDown(heard))
        case Unclear() if view.is_spoken and view.is_open_ear:
            return Turn(then=listen)
        case _:
            return Turn(say=(say.Waiting(),), then=listen)
