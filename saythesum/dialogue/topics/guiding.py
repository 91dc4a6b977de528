"""The answer to one guided part is awaited. It is followed; what comes next says it back."""

from saythesum.core.meanings import Choice, Given, Heard, Number, Unclear, WaitEnded, Why
from saythesum.core.records.rows import Settled
from saythesum.core.sums import Kind, Part
from saythesum.dialogue.topics.answering import settle
from saythesum.dialogue.topics.asking import say_back, typed_as, unclear
from saythesum.dialogue.turns.context import View
from saythesum.dialogue.turns.stack import awaiting_for
from saythesum.dialogue.turns.turn import ListenFor, Turn
from saythesum.dialogue.tutor.question import standing_question


def hear_guiding(heard: Heard, view: View) -> Turn:
    match heard:
        case Number():
            return _follow(heard, view)
        case Unclear(why=Why.TWO_NUMBERS) | Given():
            question = standing_question(view.plan, view.progress)
            return Turn(say=question.alone, then=ListenFor(awaiting_for(view.ask)))
        case Choice() | Unclear() | WaitEnded():
            return unclear(heard, view)


def _follow(number: Number, view: View) -> Turn:
    """Read in this order: this part, a later part or milestone, the whole answer, a wrong answer to this part."""
    asked, part = view.asked, view.ask.part
    is_crossing = asked.kind is Kind.CROSSING
    match part:
        case _ if number.value == asked.answer_to(part):
            return _keep(number, view, part)
        case Part.GAP if is_crossing and number.value == asked.next_ten:
            return _keep(number, view, Part.NEXT_TEN)
        case Part.NEXT_TEN if number.value == asked.gap:
            return _keep(number, view, Part.GAP)
        case _ if number.value == asked.total or _is_second_try(number, view):
            return _whole(number, view)
        case _:
            return _keep(number, view, part)


def _is_second_try(number: Number, view: View) -> bool:
    """A number too large for a jump or for the ones, where these are asked, is another try at the whole sum."""
    asked = view.asked
    is_small = view.ask.part in (Part.GAP, Part.REST, Part.ONES)
    return is_small and number.value > max(asked.start, 10) and number.value != asked.next_ten


def _whole(number: Number, view: View) -> Turn:
    if not view.is_spoken:
        return settle(view, number, view.how, typed_as(view), part=Part.WHOLE)
    return say_back(number, view, Settled.SAID_BACK)


def _keep(number: Number, view: View, part: Part) -> Turn:
    settled = Settled.FOLLOWED if view.is_spoken else typed_as(view)
    return settle(view, number, view.how, settled, part=part)
