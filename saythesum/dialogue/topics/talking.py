"""A talk about a pattern: the offer of one, the moves in which the pupil only thinks, and what commands do in it.

Its numbers are asked for, said back and put right as any others. It can be left at any move, and nothing is lost.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Heard, Unclear, WaitEnded, WhyUnclear
from saythesum.core.patterns.remarks import ListenTo
from saythesum.core.records.rows import Answer, Ask, By, EndReason, Reason, RowId
from saythesum.core.sums import Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import asked_again, ending, going_on, void
from saythesum.dialogue.topics.anywhere import hush, keys_aloud, needs_adult, say_again, slower, told, wait
from saythesum.dialogue.turns.context import TurnContext
from saythesum.dialogue.turns.turn import ListenFor, Turn
from saythesum.dialogue.tutor.next_cell import NothingLeft, activity_reached, talk_begun
from saythesum.dialogue.tutor.next_step import talk_over, what_next
from saythesum.dialogue.tutor.pattern_talk import (
    Over,
    gone_on_in_talk,
    helped_in_talk,
    moves_left,
    standing_talk,
    why_none,
)
from saythesum.dialogue.tutor.progress import answers_in, with_row

# ---- the offer, and the wish for one


def hear_offering_pattern(heard: Heard, context: TurnContext) -> Turn:
    """Anything but a yes goes on; a sound in the open ear may come from anybody."""
    listen = ListenFor(Awaiting.CHOICE)
    match heard:
        case Choice(yes=True, sure=True) | Given(command=Command.GO_ON | Command.PATTERNS):
            return start_talk(context)
        case Given(command=Command.SAY_AGAIN) | Choice(sure=False):
            return Turn(say=(say.PatternOffered(is_again=True),), then=listen)
        case Given(command=Command.HUSH):
            return Turn(then=listen, hushes=True)
        case Unclear() if context.is_spoken and context.is_open_ear:
            return Turn(then=listen)
        case Given(command=Command.STOP) if not isinstance(what_next(context.plan, context.progress), NothingLeft):
            return _stop(context)
        case _:
            next = what_next(context.plan, context.progress)
            return going_on(context.plan, context.progress, next, is_over_said=True)


def start_talk(context: TurnContext) -> Turn:
    """About the grid that the pupil is in, as far as it is done; the true word where there is nothing to talk about."""
    activity = activity_reached(context.plan, context.progress)
    first = talk_begun(context.plan, context.progress, context.plan.activities[activity])
    if isinstance(first, NothingLeft):
        return asked_again(context, said=(say.NoPattern(why_none(context.plan, context.progress, activity)),))
    return going_on(context.plan, context.progress, first)


# ---- thinking


def hear_thinking(heard: Heard, context: TurnContext) -> Turn:
    """Whatever the pupil says of it is neither marked nor kept; a lone "no" is no wish to go on with it."""
    stays = Turn(then=ListenFor(Awaiting.COMMAND))
    match heard:
        case Choice(yes=False, sure=True):
            return leave(context)
        case WaitEnded() | Unclear(why=WhyUnclear.NOTHING | WhyUnclear.LOST):
            return stays
        case Unclear() if context.is_spoken and context.is_open_ear and context.ask.part is Part.LISTEN:
            return stays  # from anybody: here nothing was asked
        case _:
            return _go_on(context)


def _go_on(context: TurnContext) -> Turn:
    return _then(context, gone_on_in_talk(context.plan, context.progress))


def _then(context: TurnContext, next: Ask | Over) -> Turn:
    plan, progress = context.plan, context.progress
    return going_on(plan, progress, talk_over(plan, progress, next.said) if isinstance(next, Over) else next)


def leave(context: TurnContext) -> Turn:
    over = talk_over(context.plan, context.progress, (say.PatternLeft(),))
    return going_on(context.plan, context.progress, over)


# ---- commands


def obey_in_talk(command: Command, context: TurnContext) -> Turn:
    return _TABLE.get(command, _where_am_i)(context)


def _go_on_or_again(context: TurnContext) -> Turn:
    return _go_on(context) if context.ask.part in _THOUGHT else say_again(context)


def _dont_know(context: TurnContext) -> Turn:
    """Where nothing is asked there is nothing to know."""
    if context.ask.part in _THOUGHT:
        return _go_on(context)
    return _then(context, helped_in_talk(context.plan, context.progress, Reason.DONT_KNOW))


def _help(context: TurnContext) -> Turn:
    if context.ask.part in _THOUGHT:
        return say_again(context)
    return _then(context, helped_in_talk(context.plan, context.progress, Reason.HELP))


_THOUGHT = (Part.LISTEN, Part.WHY)


def _not_what_i_said(context: TurnContext) -> Turn:
    answers = answers_in(context.progress.talk)
    if not answers:
        return told(context, say.NothingToTakeBack())
    undo = void(context, answers[-1])
    undone = replace(context, progress=with_row(context.progress, undo))
    is_by_voice = context.is_spoken and answers[-1].by is By.VOICE
    turn = asked_again(undone, said=(say.Misheard() if is_by_voice else say.TakenBack(),))
    return replace(turn, keep=(undo,))


def answer_objected_to(context: TurnContext) -> Answer | None:
    """The one that the question that stands was asked because of."""
    because: RowId | Reason | None = context.ask.because
    return next((row for row in answers_in(context.progress.talk) if row.id == because), None)


def _listen_again(context: TurnContext) -> Turn:
    """The lines that it is about are read once more."""
    talk = standing_talk(context.plan, context.progress)
    assert talk is not None, "what goes on is a talk about a pattern of its grid"
    if context.ask.part is Part.LISTEN:
        return say_again(context)
    return told(context, ListenTo(talk.heard, is_reminder=True))


def _where_am_i(context: TurnContext) -> Turn:
    return told(context, say.WhereInTalk(moves_left(context.plan, context.progress)))


def _stop(context: TurnContext) -> Turn:
    """The talk goes on next time, with the same question."""
    done = context.progress.answered_in(range(len(context.plan.activities)))
    line = say.StopLine(is_missed=False, done=done)
    return ending(context.plan, context.progress, EndReason.STOPPED, said=(line,))


_TABLE: Mapping[Command, Callable[[TurnContext], Turn]] = {
    Command.SAY_AGAIN: say_again,
    Command.GO_ON: _go_on_or_again,
    Command.SLOWER: slower,
    Command.WAIT: wait,
    Command.NEEDS_ADULT: needs_adult,
    Command.HUSH: hush,
    Command.STOP: _stop,
    Command.HELP: _help,
    Command.DONT_KNOW: _dont_know,
    Command.NOT_WHAT_I_SAID: _not_what_i_said,
    Command.SAID_FIRST: asked_again,
    Command.SKIP: leave,
    Command.NO_MORE_PATTERNS: leave,
    Command.READ_ROW: _listen_again,
    Command.READ_COLUMN: _listen_again,
    Command.KEYS_ALOUD: keys_aloud,
}
"""Every other command is about a place in the grid, and there is none here: the pupil hears where they are."""
