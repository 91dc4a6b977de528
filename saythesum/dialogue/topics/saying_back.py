"""Something has been said back and its pause is open: the pupil can still correct it."""

from dataclasses import replace

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Heard, Number, Unclear, WaitEnded, WhyUnclear
from saythesum.core.records.rows import Settled
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again, settle
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import Confirming, SayingBack, SayingBackCommand, awaiting_for
from saythesum.dialogue.turns.turn import ListenFor, OpenPause, PassDown, Pop, Swap, Turn


def hear_saying_back(topic: SayingBack, heard: Heard, context: TurnContext) -> Turn:
    match heard:
        case WaitEnded() | Given(command=Command.GO_ON):
            return settle(context, topic.number, topic.how, topic.settled)
        case Number():
            return _put_right(topic, heard, context)
        case Given(command=Command.NOT_WHAT_I_SAID):
            return _say_it_again(context)
        case Given(command=Command.SAID_FIRST):
            claimed = replace(topic, number=replace(topic.number, said_first=True))
            return Turn(Swap(claimed), then=OpenPause())
        case Given(command=Command.SAY_AGAIN) | Unclear(why=WhyUnclear.LOST):
            return Turn(say=(say.SaidBack(topic.number.value),), then=OpenPause())
        case Unclear(why=WhyUnclear.TWO_NUMBERS):
            return Turn(Pop(), (say.OneNumber(),), then=ListenFor(awaiting_for(context.ask)))
        case Given() | Choice() | Unclear():
            return Turn(then=OpenPause())


def _put_right(topic: SayingBack, number: Number, context: TurnContext) -> Turn:
    """A number in the pause replaces what is being said back, and nothing that was kept."""
    number = replace(number, objecting=False)
    if context.is_spoken and number.value == topic.number.value:
        return settle(context, _firmer(topic.number, number), topic.how, Settled.SAID_AGAIN)
    if not context.is_spoken or not number.sure or context.ask.part not in CLOSING_PARTS:
        return Turn(PassDown(number))
    corrected = SayingBack(number, context.how, Settled.SAID_AGAIN)
    return Turn(Swap(corrected), (say.SaidBack(number.value),), then=OpenPause())


def _firmer(number: Number, again: Number) -> Number:
    """The same number heard a second time: no longer close to anything, and as certain as the surer hearing."""
    return replace(
        number,
        certainty=max(number.certainty or 0.0, again.certainty or 0.0),
        sure=number.sure or again.sure,
        close_to=(),
        said_first=number.said_first or again.said_first,
    )


def _say_it_again(context: TurnContext) -> Turn:
    return Turn(Pop(), (say.SayItAgain(),), then=ListenFor(awaiting_for(context.ask)))


def hear_saying_back_command(topic: SayingBackCommand, heard: Heard, context: TurnContext) -> Turn:
    """The table of commands says what the command does when its pause is over."""
    match heard:
        case Given(command=Command.NOT_WHAT_I_SAID):
            return asked_again(context)
        case Given(command=command, alone=True):
            return Turn(Swap(SayingBackCommand(command)), (say.CommandSaidBack(command),), then=OpenPause())
        case Given(command=Command.SAY_AGAIN) | Unclear(why=WhyUnclear.LOST):
            return Turn(say=(say.CommandSaidBack(topic.command),), then=OpenPause())
        case Number():
            return Turn(PassDown(heard))
        case _:
            return Turn(then=OpenPause())


def hear_confirming(topic: Confirming, heard: Heard, context: TurnContext) -> Turn:
    match heard:
        case Choice(yes=True, sure=True):
            return settle(context, topic.number, topic.how, Settled.CONFIRMED)
        case Choice(yes=False, sure=True) | Given(command=Command.NOT_WHAT_I_SAID):
            return _say_it_again(context)
        case Number(value=value) if context.is_spoken and value == topic.number.value:
            return settle(context, _firmer(topic.number, heard), topic.how, Settled.SAID_AGAIN)
        case Number():
            return Turn(PassDown(replace(heard, objecting=False)))
        case Unclear(why=why) if context.is_spoken and context.is_open_ear and why is not WhyUnclear.LOST:
            return Turn(then=ListenFor(Awaiting.CHOICE))
        case _:
            return Turn(say=(say.WasIt(topic.number.value),), then=ListenFor(Awaiting.CHOICE))
