"""A bare "no": it may be about the answer just given, or about the sum before, which "Yes" was said of already."""

from dataclasses import replace

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Heard, Number, Unclear, WhyUnclear
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again
from saythesum.dialogue.topics.asking import not_understood
from saythesum.dialogue.topics.commands import obey
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import AskingWhichSum
from saythesum.dialogue.turns.turn import ListenFor, PassDown, Push, Turn
from saythesum.dialogue.tutor.progress import answers_in, cell_of


def hear_bare_no(context: TurnContext) -> Turn | None:
    """None where it is about this sum's own answer, and so takes that back."""
    answers = answers_in(context.progress.live)
    if not answers:
        return not_understood(context)
    if answers[-1] in context.progress.visit:
        return None
    return replace(_which(context), move=Push(AskingWhichSum()))


def hear_which_sum(heard: Heard, context: TurnContext) -> Turn:
    match heard:
        case Choice(yes=True, sure=True):
            return obey(Command.NOT_WHAT_I_SAID, context)
        case Choice(yes=False, sure=True) | Given(command=Command.NOT_WHAT_I_SAID):
            return asked_again(context)
        case Number():
            return Turn(PassDown(heard))
        case Unclear(why=why) if context.is_spoken and context.is_open_ear and why is not WhyUnclear.LOST:
            return Turn(then=ListenFor(Awaiting.CHOICE))
        case _:
            return _which(context)


def _which(context: TurnContext) -> Turn:
    before = context.plan.exercise_at(cell_of(answers_in(context.progress.live)[-1]))
    return Turn(say=(say.WhichSum(before),), then=ListenFor(Awaiting.CHOICE))
