"""Keeping an answer, and going on from there."""

from dataclasses import replace

from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.meanings import Awaiting, HowHeard, Number
from saythesum.core.records.rows import (
    Answer,
    Ask,
    End,
    EndReason,
    Purpose,
    Row,
    Settled,
    Support,
    Void,
    VoidReason,
    Way,
)
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.stack import (
    Ending,
    OfferingFacts,
    OfferingPattern,
    OfferingTwoJumps,
    Paused,
    awaiting_for,
    topic_for,
)
from saythesum.dialogue.turns.turn import Afresh, FinishThen, ListenFor, Turn
from saythesum.dialogue.tutor.broken_facts import facts_to_go_back_to
from saythesum.dialogue.tutor.hard_going import EVERY_REST, hard_goings
from saythesum.dialogue.tutor.next_cell import Chosen, Next, NothingLeft, TalkOver, activity_reached
from saythesum.dialogue.tutor.next_step import tries_so_far, what_next
from saythesum.dialogue.tutor.pattern_talk import answer_in_talk, is_worth_offering, why_none
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import (
    Progress,
    answers_in,
    cell_of,
    closed_of,
    ended,
    folded_on,
    is_of_talk,
    known,
    number_before,
    right_first_time,
    with_row,
)
from saythesum.dialogue.tutor.question import along_the_line, standing_question
from saythesum.learner.findings import fitting_names


def settle(context: TurnContext, number: Number, how: HowHeard, settled: Settled, *, part: Part | None = None) -> Turn:
    """Keep this answer, say the verdict and ask what comes next.

    `part` is the part it answers; None stands for the whole sum.
    """
    if context.is_in_talk:
        return _settled_in_talk(context, number, how, settled)
    undo = _said_first(context, number)
    progress = folded_on(context.progress, undo)
    answer = _answer(context.plan, progress, number, how, settled, part)
    answered = with_row(progress, answer)
    said = _verdict(context.plan, answered, answer)
    kept: tuple[Row, ...] = (*undo, answer)
    if _is_way_offered(answered, answer):
        turn = Turn(
            Afresh((topic_for(context.ask), OfferingTwoJumps())),
            (*said, say.TwoJumpsOffered()),
            kept,
            ListenFor(Awaiting.CHOICE),
        )
    elif offer := _facts_first(context.plan, answered, said=said, kept=kept):
        turn = offer
    else:
        next = what_next(context.plan, answered, is_enough=context.is_enough_help)
        turn = going_on(context.plan, answered, next, said=said, kept=kept, is_time_up=context.is_time_up)
    remembered = (*context.memory.alternatives, (how.id, number.alternatives))
    return replace(turn, memory=replace(context.memory, alternatives=remembered))


def _settled_in_talk(context: TurnContext, number: Number, how: HowHeard, settled: Settled) -> Turn:
    answer = answer_in_talk(context.plan, context.progress, number, how, settled)
    answered = with_row(context.progress, answer)
    return going_on(context.plan, answered, what_next(context.plan, answered), kept=(answer,))


def _is_way_offered(progress: Progress, answer: Answer) -> bool:
    """Once a practice, after a right answer that was counted on in ones where two jumps would be shorter."""
    if answer.way is not Way.COUNTED or not answer.right or answer.purpose is Purpose.PROBE:
        return False
    counted = [row for row in answers_in(progress.live) if row.way is Way.COUNTED and row.right]
    return counted == [answer] and answer.asked.is_long_to_count


def gone_on_with(plan: Plan, progress: Progress) -> Turn:
    """What the practice comes back to, after a start or a turn of the adult's."""
    return _facts_first(plan, progress) or going_on(plan, progress, what_next(plan, progress))


def _facts_first(
    plan: Plan, progress: Progress, *, said: tuple[say.Message, ...] = (), kept: tuple[Row, ...] = ()
) -> Turn | None:
    """The offer of a few facts, where the last answer ended a sum in which they broke."""
    last = progress.last
    is_done = isinstance(last, Answer) and cell_of(last) in progress.closed
    facts = facts_to_go_back_to(plan, progress) if is_done else None
    if facts is None or progress.ask is None:
        return None
    stack = Afresh((topic_for(progress.ask), OfferingFacts(facts.place)))
    return Turn(stack, (*said, facts_offered(plan, facts.place)), kept, ListenFor(Awaiting.CHOICE))


def facts_offered(plan: Plan, place: int, *, is_again: bool = False) -> say.Message:
    activity = plan.asides[place - len(plan.activities)]
    return say.FactsOffered(plan.exercise_at(activity.cells[0]).name, is_again)


def going_on(
    plan: Plan,
    progress: Progress,
    next: Next | TalkOver | None,
    *,
    said: tuple[say.Message, ...] = (),
    kept: tuple[Row, ...] = (),
    is_again: bool = False,
    is_time_up: bool = False,
    is_over_said: bool = False,
) -> Turn:
    """The turn that asks what comes next, or ends the practice. `is_again`: the pupil asked to hear it again;
    `is_over_said`: that the sums of the activity are done was said before."""
    if isinstance(next, TalkOver):
        said, next, is_over_said, is_again = (*said, *next.said), next.then, True, True
        progress = replace(progress, is_talking=False)
    elif not is_over_said and not is_time_up and _is_pattern_offered(plan, progress, next):
        over = _over(plan, progress, goes_on=True)
        offer = Afresh((OfferingPattern(),))
        return Turn(offer, (*said, over, say.PatternOffered()), kept, ListenFor(Awaiting.CHOICE))
    if _is_talk_skipped(plan, progress, next):
        said = (*said, say.NoPattern(why_none(plan, progress, activity_reached(plan, progress) + 1)))
    if isinstance(next, NothingLeft):
        over = say.Farewell() if is_over_said else _over(plan, progress, goes_on=False)
        return ending(plan, progress, EndReason.FINISHED, said=(*said, over), kept=kept)
    why = next.why if isinstance(next, Chosen) else None
    if isinstance(next, Chosen):
        next = next.ask
    if next is not None and _is_sitting_over(plan, progress, next, is_time_up=is_time_up):
        over = say.EnoughNow(progress.closed_since)
        return ending(plan, progress, EndReason.STOPPED, said=(*said, over), kept=kept)
    if next is not None:
        if not is_over_said and _is_next_activity(plan, progress, next):
            said = (*said, _over(plan, progress, goes_on=True))
        is_rest = _is_rest_due(progress, next)
        progress = with_row(progress, next)
        kept = (*kept, next)
        if is_rest:
            rest = Afresh((topic_for(next), Paused()))
            return Turn(
                rest, (*said, say.RestOffered(by_switch=plan.is_by_switch)), kept, ListenFor(Awaiting.COMMAND), why=why
            )
    ask = progress.standing
    assert ask is not None
    question = standing_question(plan, progress)
    asking = question.again if is_again else question.whole
    return Turn(Afresh((topic_for(ask),)), said + asking, kept, ListenFor(awaiting_for(ask)), why=why)


def _is_rest_due(progress: Progress, next: Ask) -> bool:
    if is_of_talk(next) or not is_new_cell(progress, next):
        return False
    times = hard_goings(progress)
    return times > 0 and times % EVERY_REST == 0


def _is_next_activity(plan: Plan, progress: Progress, next: Ask) -> bool:
    return progress.ask is not None and not plan.is_aside(next) and next.activity > activity_reached(plan, progress)


def _is_pattern_offered(plan: Plan, progress: Progress, next: Next | None) -> bool:
    """When the sums of a grid are done, before what comes then."""
    ask = next.ask if isinstance(next, Chosen) else next
    if progress.is_talking or progress.ask is None or plan.is_aside(progress.ask) or ask is None:
        return False
    is_done = isinstance(ask, NothingLeft) or _is_next_activity(plan, progress, ask)
    return is_done and is_worth_offering(plan, progress, activity_reached(plan, progress))


def _is_talk_skipped(plan: Plan, progress: Progress, next: Next | None) -> bool:
    """The plan has a talk here, and its grid has no pattern to talk about."""
    ask = next.ask if isinstance(next, Chosen) else next
    if progress.ask is None or ask is None:
        return False
    due = activity_reached(plan, progress) + 1
    is_there = due < len(plan.activities) and plan.activities[due].aim is Aim.TALK
    is_passed = isinstance(ask, NothingLeft) or ask.activity > due
    return is_there and is_passed and not progress.has_talked_about(due)


def _is_sitting_over(plan: Plan, progress: Progress, next: Ask, *, is_time_up: bool) -> bool:
    """After a sum that is done with, where as many sums or minutes are over as the settings say."""
    if is_of_talk(next):
        return False
    last, most = progress.last, plan.settings.sitting.most_sums
    is_between = isinstance(last, Answer) and cell_of(last) in progress.closed and is_new_cell(progress, next)
    if not is_between or not progress.closed_since:
        return False
    in_a_probe = last is not None and next.activity == last.activity and plan.activity_on(next).aim is Aim.PROBE
    return not in_a_probe and (is_time_up or (most is not None and progress.closed_since >= most))


def is_new_cell(progress: Progress, next: Ask) -> bool:
    return progress.ask is not None and cell_of(next) != cell_of(progress.ask)


def _over(plan: Plan, progress: Progress, *, goes_on: bool) -> say.Message:
    """What is said when the current activity is over. A probe has no score for the pupil."""
    on = activity_reached(plan, progress)
    activity = plan.activities[on]
    if activity.aim is Aim.PROBE:
        return say.ProbeOver(len(activity.cells), goes_on=goes_on)
    cells = activity.cells if activity.aim is Aim.PRACTISE else progress.asked_in(on)
    answered = progress.answered_in({on})
    return say.AllDone(answered, len(cells) - answered, goes_on=goes_on)


def asked_again(context: TurnContext, *, said: tuple[say.Message, ...] = ()) -> Turn:
    """The question without what led to it. This is neither help nor a repeat on request."""
    question = standing_question(context.plan, context.progress)
    return Turn(Afresh((topic_for(context.ask),)), said + question.alone, then=ListenFor(awaiting_for(context.ask)))


def ending(
    plan: Plan,
    progress: Progress,
    reason: EndReason,
    *,
    said: tuple[say.Message, ...],
    kept: tuple[Row, ...] = (),
) -> Turn:
    """A finished practice that is started again and has nothing left to ask keeps no second end."""
    if not (reason is ended(progress) is EndReason.FINISHED):
        cells, right_ones = len(closed_of(plan, progress)), right_first_time(plan, progress)
        kept = (*kept, End(plan.next_id(progress.kept), cells, right_ones, reason))
    return Turn(Afresh((Ending(),)), said, kept, FinishThen(reason))


def wrong_wholes(progress: Progress) -> tuple[Answer, ...]:
    """The visit's wrong whole answers and totals."""
    return tuple(row for row in answers_in(progress.visit) if not row.right and row.part in CLOSING_PARTS)


def void(context: TurnContext, answer: Answer) -> Void:
    return Void(context.next_id(), answer.id, VoidReason.NOT_SAID)


def _said_first(context: TurnContext, number: Number) -> tuple[Void, ...]:
    """The void that "that's what I said first" calls for, where a first hearing may have been this number."""
    wrong = wrong_wholes(context.progress) if number.said_first else ()
    return tuple(void(context, answer) for answer in wrong if context.may_have_been(answer, number.value))[:1]


def _answer(  # noqa: PLR0917
    plan: Plan, progress: Progress, number: Number, how: HowHeard, settled: Settled, part: Part | None
) -> Answer:
    ask = progress.ask
    assert ask is not None
    occasion = plan.occasion_at(cell_of(ask), how.by, number_before(progress))
    asked = plan.exercise_of(ask)
    occasion = replace(occasion, asked=asked)
    part = part or (ask.part if ask.part in CLOSING_PARTS else Part.WHOLE)
    right_answer = asked.answer_to(part)
    could_be: tuple[str, ...] = ()
    if number.value != right_answer:
        could_be = fitting_names(known(plan, progress), occasion, part, number.value)
    return Answer(
        id=plan.next_id(progress.kept),
        row=ask.row,
        column=ask.column,
        start=asked.start,
        amount=asked.amount,
        part=part,
        right_answer=right_answer,
        given=number.value,
        right=number.value == right_answer,
        support=ask.support,
        tries=tries_so_far(progress, part) + 1,
        certainty=number.certainty,
        close_to=number.close_to,
        heard=how.id,
        took_ms=None if ask.support is Support.REPEATED else how.took_ms,
        could_be=could_be,
        by=how.by,
        settled=settled,
        operation=asked.operation,
        purpose=plan.activity_on(ask).aim.purpose,
        activity=ask.activity,
        exercise=ask.exercise,
        hidden=ask.hidden,
        sure=number.sure,
        way=_way(asked, ask, number, part),
    )


def _way(asked: Exercise, ask: Ask, number: Number, part: Part) -> Way | None:
    """Counted aloud, or by the steps that were talked through; a worked line says nothing of the pupil's way."""
    if part not in CLOSING_PARTS or number.value != asked.total:
        return Way.COUNTED if number.counting and part in CLOSING_PARTS else None
    if number.counting:
        return Way.COUNTED
    if part is not Part.TOTAL or ask.support is Support.MODELLED:
        return None
    if ask.about == Part.ONES:
        return Way.TENS_AND_ONES
    return Way(asked.way_gone) if asked.way_gone else None


def _verdict(plan: Plan, progress: Progress, answer: Answer) -> tuple[say.Message, ...]:
    """What is said about an answer that closes its cell; the next question says the rest."""
    if answer.part not in CLOSING_PARTS or cell_of(answer) not in progress.closed:
        return ()
    if answer.purpose is Purpose.PROBE:
        return (say.Noted(),)
    if answer.right:
        by_tens_and_ones = progress.ask is not None and progress.ask.about == Part.ONES
        is_by_jumps = answer.part is Part.TOTAL and not by_tens_and_ones
        right = say.Right(answer.asked, is_by_steps=is_by_jumps and bool(wrong_wholes(progress)))
        is_along_line = is_by_jumps and answer.support is not Support.MODELLED  # which was told along the line
        return (right, *(along_the_line(plan, answer.asked) if is_along_line else ()))
    return (say.NotYet(), say.LeftForAnotherDay())
