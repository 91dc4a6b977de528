"""Whether the pupil wants to hear of a way with two jumps, once a practice, after a right answer that was counted."""

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Heard, Unclear
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import going_on
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.turn import ListenFor, Turn
from saythesum.dialogue.tutor.next_step import what_next


def hear_offering(heard: Heard, context: TurnContext) -> Turn:
    """Anything but a yes goes on with the next sum; a sound in the open ear may come from anybody."""
    listen = ListenFor(Awaiting.CHOICE)
    match heard:
        case Choice(yes=True, sure=True):
            return _on(context, (say.TwoJumps(context.asked),))
        case Given(command=Command.SAY_AGAIN) | Choice(sure=False):
            return Turn(say=(say.TwoJumpsOffered(is_again=True),), then=listen)
        case Given(command=Command.HUSH):
            return Turn(then=listen, hushes=True)
        case Unclear() if context.is_spoken and context.is_open_ear:
            return Turn(then=listen)
        case _:
            return _on(context, ())


def _on(context: TurnContext, said: tuple[say.Message, ...]) -> Turn:
    next = what_next(context.plan, context.progress)
    return going_on(context.plan, context.progress, next, said=said, is_time_up=context.is_time_up)
