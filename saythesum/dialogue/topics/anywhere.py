"""What a command does alike in a sum and in a talk about a pattern."""

from dataclasses import replace

from saythesum.core.meanings import Awaiting
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import Paused, awaiting_for, topic_for
from saythesum.dialogue.turns.turn import Afresh, ListenFor, Turn


def told(context: TurnContext, message: say.Message) -> Turn:
    """Says the message, then the question again; while the pupil waits, the wait goes on."""
    if context.is_paused:
        return Turn(say=(message,), then=ListenFor(Awaiting.COMMAND))
    return asked_again(context, said=(message,))


def keys_aloud(context: TurnContext) -> Turn:
    return told(context, say.KeysAloud(context.plan.settings.keys.given))


def wait(context: TurnContext) -> Turn:
    return Turn(
        Afresh((topic_for(context.ask), Paused())),
        (say.Waiting(by_switch=context.plan.is_by_switch),),
        then=ListenFor(Awaiting.COMMAND),
    )


def needs_adult(context: TurnContext) -> Turn:
    """Nothing of it is kept, nor answered with more than that the practice waits."""
    return replace(wait(context), say=(say.AdultMayHelp(),))


def hush(context: TurnContext) -> Turn:
    return Turn(Afresh((topic_for(context.ask),)), then=ListenFor(awaiting_for(context.ask)), hushes=True)
