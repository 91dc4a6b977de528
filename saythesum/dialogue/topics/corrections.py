"""An objection with a number in it: what was kept is void, and the number is heard in its place."""

from dataclasses import replace

from saythesum.core.meanings import Number
from saythesum.core.records.rows import Answer, By
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import void, wrong_wholes
from saythesum.dialogue.topics.asking import hear_asking
from saythesum.dialogue.topics.guiding import hear_guiding
from saythesum.dialogue.topics.talking import answer_objected_to
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import Asking, Guiding, Thinking, topic_for
from saythesum.dialogue.turns.turn import Turn, on
from saythesum.dialogue.tutor.progress import answers_in, with_row


def hear_objection(topic: Asking | Guiding, number: Number, context: TurnContext) -> Turn:
    """ "I said sixty-two." Where there is nothing to object to, it is an answer like any other."""
    number = replace(number, objecting=False)
    misheard = _objected_to(number, context)
    if misheard is None:
        return _heard_by(topic, number, context)
    undo = void(context, misheard)
    how = replace(context.how, took_ms=None)  # it was answered long before
    undone = replace(context, progress=with_row(context.progress, undo), how=how)
    base = topic_for(undone.ask)
    assert not isinstance(base, Thinking), "what was answered asked for a number"
    turn = on(base, _heard_by(base, number, undone))
    told = say.Misheard() if misheard.by is By.VOICE else say.TakenBack()
    return replace(turn, keep=(undo, *turn.keep), say=(told, *turn.say))


def _objected_to(number: Number, context: TurnContext) -> Answer | None:
    """The cell's wrong whole answer, or, where the number is of the size of a part, the last answer to a part.

    Where no part was answered yet and the number is right for the one that is asked, "no, three" answers it.
    """
    if context.is_in_talk:
        return answer_objected_to(context)
    answers = answers_in(context.progress.visit)
    if not context.activity.aim.is_helped and not answers and context.ask.because is None:
        answers = answers_in(context.progress.live)  # every answer is followed by the next sum, and by no verdict
    wholes = wrong_wholes(context.progress)
    if not answers or not wholes:
        return answers[-1] if answers else None
    last = answers[-1]
    if last.part in CLOSING_PARTS and _answers_the_part(number, context):
        return None
    is_of_part = context.asked.can_be_a_step(number.value) or number.value == context.asked.answer_to(last.part)
    return last if last.part not in CLOSING_PARTS and is_of_part else wholes[-1]


def _answers_the_part(number: Number, context: TurnContext) -> bool:
    part = context.ask.part
    return (
        part not in CLOSING_PARTS
        and context.asked.can_be_a_step(number.value)
        and number.value == context.asked.answer_to(part)
    )


def _heard_by(topic: Asking | Guiding, number: Number, context: TurnContext) -> Turn:
    match topic:
        case Asking():
            return hear_asking(topic, number, context)
        case Guiding():
            return hear_guiding(number, context)
