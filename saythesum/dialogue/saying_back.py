"""Something was said back, and its pause is open: the pupil can still put it right."""

from dataclasses import replace

from saythesum.core.rows import Settled
from saythesum.dialogue import messages as say
from saythesum.dialogue.answering import awaiting_for, said_first, settle
from saythesum.dialogue.heard import Awaiting, Choice, Command, Given, Heard, Number, Unclear, WaitEnded, Why
from saythesum.dialogue.questions import standing_question
from saythesum.dialogue.topics import Confirming, SayingBack, SayingBackCommand
from saythesum.dialogue.turn import PASS_DOWN, ListenFor, OpenPause, Pop, Swap, Turn
from saythesum.dialogue.view import View


def hear_saying_back(topic: SayingBack, heard: Heard, view: View) -> Turn:
    match heard:
        case WaitEnded():
            number = topic.number
            return settle(view, number, topic.how, topic.settled, after=said_first(view, number))
        case Number() if not view.is_spoken:
            return PASS_DOWN
        case Number(value=value) if value == topic.number.value:
            certain = replace(topic, settled=Settled.SAID_AGAIN, number=_firmer(topic.number, heard))
            return hear_saying_back(certain, WaitEnded("pause"), view)
        case Number(sure=False):
            return Turn(Pop(), (say.OnceMore(),), then=ListenFor(awaiting_for(view.ask)))
        case Number():
            corrected = SayingBack(replace(heard, objecting=False), view.how, Settled.SAID_AGAIN)
            return Turn(Swap(corrected), (say.SaidBack(heard.value),), then=OpenPause())
        case Given(command=Command.NOT_WHAT_I_SAID):
            return Turn(Pop(), (say.SayItAgain(),), then=ListenFor(awaiting_for(view.ask)))
        case Given(command=Command.SAID_FIRST):
            claimed = replace(topic, number=replace(topic.number, said_first=True))
            return Turn(Swap(claimed), then=OpenPause())
        case Given(command=Command.SAY_AGAIN):
            return Turn(say=(say.SaidBack(topic.number.value),), then=OpenPause())
        case Unclear(why=Why.TWO_NUMBERS):
            return Turn(Pop(), (say.OneNumber(),), then=ListenFor(awaiting_for(view.ask)))
        case Given() | Choice() | Unclear():
            return Turn(then=OpenPause())


def hear_saying_back_command(topic: SayingBackCommand, heard: Heard, view: View) -> Turn:
    match heard:
        case Given(command=Command.NOT_WHAT_I_SAID):
            question = standing_question(view.plan, view.progress)
            return Turn(Pop(), question.asking, then=ListenFor(awaiting_for(view.ask)))
        case Number():
            return PASS_DOWN
        case _:
            return Turn(then=OpenPause())


def hear_confirming(topic: Confirming, heard: Heard, view: View) -> Turn:
    match heard:
        case Choice(yes=True):
            return settle(view, topic.number, topic.how, Settled.CONFIRMED, after=said_first(view, topic.number))
        case Choice(yes=False) | Given(command=Command.NOT_WHAT_I_SAID):
            return Turn(Pop(), (say.SayItAgain(),), then=ListenFor(awaiting_for(view.ask)))
        case Number():
            return PASS_DOWN
        case Unclear() if view.is_spoken and view.is_open_ear:
            return Turn(then=ListenFor(Awaiting.CHOICE))
        case _:
            return Turn(say=(say.WasIt(topic.number.value),), then=ListenFor(Awaiting.CHOICE))


def _firmer(number: Number, again: Number) -> Number:
    """The same number heard a second time: no longer close to anything, and as certain as the surer hearing."""
    certainty = max(number.certainty or 0.0, again.certainty or 0.0)
    return replace(number, certainty=certainty, close_to=())
