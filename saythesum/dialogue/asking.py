"""A whole answer or a total is awaited."""

from dataclasses import replace

from saythesum.core.rows import Settled
from saythesum.dialogue import messages as say
from saythesum.dialogue.answering import awaiting_for, said_first, settle, void, wrong_whole
from saythesum.dialogue.heard import Awaiting, Choice, Given, Heard, Number, Unclear, WaitEnded, Why
from saythesum.dialogue.questions import standing_question
from saythesum.dialogue.topics import Asking, Confirming, SayingBack
from saythesum.dialogue.turn import Afresh, ListenFor, OpenPause, Push, Swap, Turn
from saythesum.dialogue.view import View


def hear_asking(topic: Asking, heard: Heard, view: View) -> Turn:
    match heard:
        case Number(objecting=True) if wrong_whole(view.progress):
            return objection(heard, view)
        case Number() if not view.is_spoken:
            return settle(view, heard, view.how, typed_as(view), after=said_first(view, heard))
        case Number(sure=False):
            return _unsure(topic, heard, view)
        case Number():
            settled = Settled.SAID_AGAIN if topic.times_unsure else Settled.SAID_BACK
            return say_back(heard, view, settled)
        case Given():
            return Turn(say=(say.OnceMore(),), then=ListenFor(awaiting_for(view.ask)))
        case Choice() | Unclear() | WaitEnded():
            return unclear(heard, view)


def typed_as(view: View) -> Settled:
    return Settled(view.how.by.value)


def say_back(number: Number, view: View, settled: Settled) -> Turn:
    return Turn(Push(SayingBack(number, view.how, settled)), (say.SaidBack(number.value),), then=OpenPause())


def objection(number: Number, view: View) -> Turn:
    """ "I said sixty-two", after the verdict: the wrong answer is void, and this is what was said."""
    wrong = wrong_whole(view.progress)
    assert wrong is not None
    undo = void(view, wrong)
    number = replace(number, objecting=False)
    if not view.is_spoken:
        return settle(view, number, view.how, typed_as(view), after=(undo,))
    if not number.sure:
        return Turn(Afresh((Asking(times_unsure=1),)), (say.OnceMore(),), (undo,), ListenFor(Awaiting.NUMBER))
    back = SayingBack(number, view.how, Settled.SAID_AGAIN)
    return Turn(Afresh((Asking(), back)), (say.Misheard(), say.SaidBack(number.value)), (undo,), OpenPause())


def unclear(heard: Heard, view: View) -> Turn:
    """Nothing was understood. In the open ear it may be anybody's sound: then nothing is said."""
    listen = ListenFor(awaiting_for(view.ask))
    if heard == Unclear(Why.TWO_NUMBERS):
        return Turn(say=(say.OneNumber(),), then=listen)
    if view.is_spoken and view.is_open_ear:
        return Turn(then=listen)
    question = standing_question(view.plan, view.progress)
    return Turn(say=(say.NotUnderstood(), *question.asking), then=listen)


def _unsure(topic: Asking, number: Number, view: View) -> Turn:
    """The same words whatever was heard; then the keys, once a practice; then yes or no."""
    times = topic.times_unsure + 1
    listen = ListenFor(Awaiting.NUMBER)
    if times == 1:
        return Turn(Swap(Asking(times)), (say.OnceMore(),), then=listen)
    if times == 2 and not view.memory.are_keys_offered:
        memory = replace(view.memory, are_keys_offered=True)
        return Turn(Swap(Asking(times)), (say.TryKeys(),), then=listen, memory=memory)
    return Turn(Push(Confirming(number, view.how)), (say.WasIt(number.value),), then=ListenFor(Awaiting.CHOICE))
