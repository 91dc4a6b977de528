"""What a command does alike in a sum and in a talk about a pattern."""

from dataclasses import replace

from saythesum.core.meanings import Awaiting
from saythesum.core.records.rows import Support
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again, going_on
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import Paused, awaiting_for, topic_for
from saythesum.dialogue.turns.turn import Afresh, ListenFor, Turn


def say_again(context: TurnContext) -> Turn:
    """The same words. Hearing the question, or lines to listen to, again is not help, and is kept as such."""
    if context.ask.support is not Support.INDEPENDENT:
        return going_on(context.plan, context.progress, None, is_again=True)
    repeated = replace(context.ask, id=context.next_id(), support=Support.REPEATED)
    return going_on(context.plan, context.progress, repeated, is_again=True)


def slower(context: TurnContext) -> Turn:
    return replace(say_again(context), is_slower=True)


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
