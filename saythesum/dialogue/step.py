"""The dialogue: `step(state, event) -> (state, effects)`. All values; nothing here acts."""

from dataclasses import dataclass, field, replace

from saythesum.core.meanings import Command, Given, Heard, Number, Unclear, WaitEnded, WhyUnclear
from saythesum.core.records.marks import is_counting
from saythesum.core.records.rows import Answer, Ask, EndReason, Row
from saythesum.dialogue import messages as say
from saythesum.dialogue.topics.answering import ending, gone_on_with, settle
from saythesum.dialogue.topics.asking import hear_asking, hear_paused
from saythesum.dialogue.topics.bare_no import hear_bare_no, hear_which_sum
from saythesum.dialogue.topics.commands import obey
from saythesum.dialogue.topics.corrections import hear_objection
from saythesum.dialogue.topics.guiding import hear_guiding
from saythesum.dialogue.topics.marking import marked, not_counted, waits_of
from saythesum.dialogue.topics.offering import hear_offering
from saythesum.dialogue.topics.saying_back import hear_confirming, hear_saying_back, hear_saying_back_command
from saythesum.dialogue.topics.talking import hear_offering_pattern, hear_thinking
from saythesum.dialogue.turns.context import LastVerdict, TalkMemory, TurnContext
from saythesum.dialogue.turns.effects import TYPED, Ear, Effect, Keep, OpenWhen, Settle
from saythesum.dialogue.turns.events import (
    AdultMarked,
    Began,
    CountsAgain,
    EarAsked,
    Entered,
    Event,
    HeardSoFar,
    InputEnded,
    NobodySpoke,
    SpeakerChanged,
    SpeechBegan,
    TurnGivenBack,
    TurnTaken,
    TypingChanged,
    UtteranceEnded,
    Woke,
)
from saythesum.dialogue.turns.stack import (
    AdultsTurn,
    Asking,
    AskingWhichSum,
    Confirming,
    Ending,
    Guiding,
    OfferingFacts,
    OfferingPattern,
    OfferingTwoJumps,
    Paused,
    SayingBack,
    SayingBackCommand,
    Thinking,
    Topic,
)
from saythesum.dialogue.turns.turn import Afresh, OpenPause, PassDown, Pop, Push, Stay, Swap, Turn
from saythesum.dialogue.turns.turn_taking import (
    NOT_HEARD,
    Channel,
    PupilTurn,
    carried_out,
    cut_short,
    ear_asked,
    entered,
    heard_so_far,
    nobody_spoke,
    said,
    speaker_changed,
    speech_began,
    typing_changed,
    with_screen_reader,
    with_waits,
    woke,
)
from saythesum.dialogue.tutor.older_questions import with_forms
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, answers_in, folded_on, is_help, is_of_talk, with_row


@dataclass(frozen=True, slots=True)
class Talk:
    topics: tuple[Topic, ...] = ()
    """Bottom first; never saved."""
    memory: TalkMemory = field(default_factory=TalkMemory)
    verdict: LastVerdict | None = None
    """Of the last whole answer, for a window to show beside its sum."""


@dataclass(frozen=True, slots=True)
class State:
    plan: Plan
    progress: Progress
    talk: Talk
    channel: Channel


def opened(plan: Plan, progress: Progress, ear: Ear, *, open_when: OpenWhen = OpenWhen.AFTER_SPEECH) -> State:
    """A practice about to begin, or to go on: `Began` starts it."""
    channel = Channel(ear, waits_of(plan, progress), open_when)
    if plan.settings.window.screen_reader:
        channel = with_screen_reader(channel)
    return State(plan, with_forms(plan, progress), Talk(), channel)


def step(state: State, event: Event) -> tuple[State, tuple[Effect, ...]]:
    """The whole dialogue, one event at a time."""
    channel, effects, pupil_turn = _through_channel(state, event)
    if state.talk.topics and isinstance(state.talk.topics[-1], Thinking):
        effects = [_unheard(effect) for effect in effects]
    state = replace(state, channel=channel)
    turn = _control(state, event) if pupil_turn is None else None
    if pupil_turn is None and turn is None:
        return state, tuple(effects)
    if pupil_turn is not None and (turn := cut_short(channel, pupil_turn.heard)) is None:
        state, turn = _talked(state, pupil_turn, event.at_ms)
    assert turn is not None
    return _done(state, turn, effects, event.at_ms)


def _through_channel(state: State, event: Event) -> tuple[Channel, list[Effect], PupilTurn | None]:
    """At most one thing heard."""
    channel = state.channel
    begins = _count_begins(state)
    match event:
        case UtteranceEnded():
            return (*said(channel, event), None)
        case _ if _is_deaf(state):
            return channel, [], None
        case SpeechBegan():
            return (*speech_began(channel, event), None)
        case NobodySpoke():
            return (*nobody_spoke(channel, event), None)
        case TypingChanged():
            return (*typing_changed(channel, event), None)
        case HeardSoFar():
            return (*heard_so_far(channel, event, begins), None)
        case Woke():
            return woke(channel, event.id, begins)
        case Entered():
            return entered(channel, event)
        case EarAsked() if isinstance(state.talk.topics[-1], Paused | Thinking) or channel.ear in TYPED:
            return channel, [], PupilTurn(Given(Command.GO_ON), NOT_HEARD)
        case EarAsked():
            return ear_asked(channel, event.at_ms, begins)
        case SpeakerChanged():
            return (*speaker_changed(channel, event, state.plan.settings.waits), None)
        case Began() | CountsAgain() | TurnTaken() | TurnGivenBack() | AdultMarked() | InputEnded():
            return channel, [], None


def _unheard(effect: Effect) -> Effect:
    """What the pupil thinks aloud of a pattern is nobody's to keep: only what it led to goes further."""
    if not isinstance(effect, Settle):
        return effect
    is_thought = isinstance(effect.heard, Number | Unclear)
    return replace(effect, text="", heard=Unclear(WhyUnclear.OTHER) if is_thought else effect.heard)


def _is_deaf(state: State) -> bool:
    """Nothing is listened to: the practice has not begun, is over, or it is the adult's turn."""
    return not state.talk.topics or isinstance(state.talk.topics[-1], AdultsTurn | Ending)


def _count_begins(state: State) -> frozenset[int]:
    ask = None if state.progress.is_talking else state.progress.ask
    return state.plan.exercise_of(ask).count_begins if ask else frozenset()


# ---- the adult and the program ---------------------------------------------------------------------


def _control(state: State, event: Event) -> Turn | None:
    top = state.talk.topics[-1] if state.talk.topics else None
    match event:
        case Began() if top is None:
            turn = gone_on_with(state.plan, state.progress)
            return replace(turn, memory=TalkMemory(began_ms=event.at_ms))
        case TurnTaken() if not _is_deaf(state):
            return Turn(Afresh((AdultsTurn(),)), hushes=True)
        case TurnGivenBack() if isinstance(top, AdultsTurn):
            return gone_on_with(state.plan, state.progress)
        case AdultMarked(digit=digit) if isinstance(top, AdultsTurn):
            return marked(state.plan, state.progress, top, digit)
        case CountsAgain(number=number, how=how) if not _is_deaf(state):
            return settle(
                _context(state, PupilTurn(number, how), event.at_ms), number, how, event.settled, part=event.part
            )
        case InputEnded() if not isinstance(top, Ending):
            return ending(state.plan, state.progress, EndReason.END_OF_INPUT, said=(say.NextTime(),))
        case _:
            return None


# ---- the talk ------------------------------------------------------------------------------------------


def _talked(state: State, pupil_turn: PupilTurn, at_ms: int) -> tuple[State, Turn]:
    """The top topic answers. A topic that passes down is popped, and the one beneath it answers."""
    context = _context(state, pupil_turn, at_ms)
    topics = state.talk.topics
    turn = _answered(topics[-1], pupil_turn.heard, context)
    while isinstance(turn.move, PassDown) and len(topics) > 1:
        topics = topics[:-1]
        turn = _answered(topics[-1], turn.move.heard, context)
    return replace(state, talk=replace(state.talk, topics=topics)), turn


def _answered(topic: Topic, heard: Heard, context: TurnContext) -> Turn:
    if isinstance(heard, Given) and heard.sure and not _is_suspended(topic, heard):
        return _obeyed(heard, context)
    match topic:
        case Asking() | Guiding() if isinstance(heard, Number) and heard.objecting:
            return hear_objection(topic, heard, context)
        case Asking():
            return hear_asking(topic, heard, context)
        case Guiding():
            return hear_guiding(heard, context)
        case SayingBack():
            return hear_saying_back(topic, heard, context)
        case SayingBackCommand() if _is_let_stand(topic, heard):
            return obey(topic.command, context)
        case SayingBackCommand():
            return hear_saying_back_command(topic, heard, context)
        case Confirming():
            return hear_confirming(topic, heard, context)
        case AskingWhichSum():
            return hear_which_sum(heard, context)
        case OfferingTwoJumps() | OfferingFacts() | OfferingPattern() | Thinking():
            return _beside_a_sum(topic, heard, context)
        case Paused():
            return hear_paused(heard, context)
        case AdultsTurn() | Ending():
            raise AssertionError("in the adult's turn and at the end nobody is heard")


def _beside_a_sum(
    topic: OfferingTwoJumps | OfferingFacts | OfferingPattern | Thinking, heard: Heard, context: TurnContext
) -> Turn:
    match topic:
        case OfferingTwoJumps() | OfferingFacts():
            return hear_offering(topic, heard, context)
        case OfferingPattern():
            return hear_offering_pattern(heard, context)
        case Thinking():
            return hear_thinking(heard, context)


def _obeyed(given: Given, context: TurnContext) -> Turn:
    """What stood alone is said back first where it was spoken; a bare "no" may be about another sum."""
    if given.alone and context.is_in_talk and given.command is Command.NOT_WHAT_I_SAID:
        given = replace(given, command=Command.NO_MORE_PATTERNS)  # a bare "no" to a question about the pattern
    if given.alone and given.command is Command.NOT_WHAT_I_SAID and (turn := hear_bare_no(context)):
        return turn
    if given.alone and context.is_spoken:
        back = SayingBackCommand(given.command)
        return Turn(Push(back), (say.CommandSaidBack(given.command),), then=OpenPause())
    return obey(given.command, context)


def _is_let_stand(topic: SayingBackCommand, heard: Heard) -> bool:
    """The pause is over, or the same was said again."""
    again = (topic.command, Command.GO_ON)
    return isinstance(heard, WaitEnded) or (isinstance(heard, Given) and heard.command in again)


_OWN = {
    SayingBack: {Command.NOT_WHAT_I_SAID, Command.SAID_FIRST, Command.SAY_AGAIN, Command.GO_ON, Command.HUSH},
    SayingBackCommand: {Command.NOT_WHAT_I_SAID, Command.SAY_AGAIN, Command.GO_ON, Command.HUSH},
    Confirming: {Command.NOT_WHAT_I_SAID, Command.SAY_AGAIN},
    AskingWhichSum: {Command.NOT_WHAT_I_SAID, Command.SAY_AGAIN},
    Paused: {Command.GO_ON, Command.HUSH},
}
"""The commands that a topic suspends, or answers itself."""


_STAYS_AT_AN_OFFER = {Command.STOP, Command.NOT_WHAT_I_SAID, Command.WAIT, Command.NEEDS_ADULT}
"""Every other command is about a sum, and none is asked."""


def _is_suspended(topic: Topic, given: Given) -> bool:
    if isinstance(topic, SayingBackCommand) and (given.alone or given.command is topic.command):
        return True
    if isinstance(topic, OfferingTwoJumps | OfferingFacts):
        return given.command not in _STAYS_AT_AN_OFFER
    if isinstance(topic, OfferingPattern):
        return given.command not in _STAYS_AT_AN_OFFER or given.command is Command.STOP
    return given.command in _OWN.get(type(topic), ())


def _context(state: State, pupil_turn: PupilTurn, at_ms: int) -> TurnContext:
    most_minutes = state.plan.settings.sitting.most_minutes
    return TurnContext(
        plan=state.plan,
        progress=state.progress,
        memory=state.talk.memory,
        how=pupil_turn.how,
        is_open_ear=state.channel.ear is Ear.OPEN,
        is_enough_help=state.channel.help_speech_ms >= state.plan.settings.helping.most_help_speech_ms,
        is_time_up=most_minutes is not None and at_ms - state.talk.memory.began_ms >= most_minutes * 60_000,
        is_paused=any(isinstance(topic, Paused) for topic in state.talk.topics),
    )


# ---- what comes of a turn --------------------------------------------------------------------------------


def _done(state: State, turn: Turn, before: list[Effect], at_ms: int) -> tuple[State, tuple[Effect, ...]]:
    turn = replace(turn, keep=_with_notes(state, turn.keep))
    progress = folded_on(state.progress, turn.keep)
    topics = _moved(state.talk.topics, turn)
    verdict = _verdict(state.talk.verdict, progress, topics[-1], turn)
    talk = Talk(topics, turn.memory or state.talk.memory, verdict)
    channel = with_waits(state.channel, waits_of(state.plan, progress))
    channel, effects = carried_out(channel, turn, at_ms=at_ms, is_helping=_is_helping(progress))
    keeps = [Keep(row, turn.why if isinstance(row, Ask) else None) for row in turn.keep]
    return State(state.plan, progress, talk, channel), (*before, *keeps, *effects)


def _with_notes(state: State, rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """With a note beside an answer that does not count, as the adult said; what follows gets the ids after that."""
    if is_counting(state.progress.live):
        return rows
    kept: list[Row] = []
    progress = state.progress
    for row in rows:
        placed = replace(row, id=state.plan.next_id(progress.kept))
        kept.append(placed)
        progress = with_row(progress, placed)
        note = not_counted(progress, placed, state.plan.next_id(progress.kept)) if isinstance(placed, Answer) else None
        if note:
            kept.append(note)
            progress = with_row(progress, note)
    return tuple(kept)


def _verdict(before: LastVerdict | None, progress: Progress, top: Topic, turn: Turn) -> LastVerdict | None:
    """A practice that goes on with a missed sum says its verdict once more."""
    messages = tuple(message for message in turn.say if isinstance(message, _VERDICTS))
    if messages and not any(is_of_talk(row) for row in turn.keep):
        return LastVerdict(answers_in(progress.live)[-1].id, messages)
    if before is None or progress.answer(before.answer) is None or isinstance(top, SayingBack | Confirming | Ending):
        return None
    is_answered = any(isinstance(row, Answer) for row in turn.keep)
    return None if is_answered else before


_VERDICTS = (say.Right, say.NotYet, say.LeftForAnotherDay, say.Noted)
"""What is said of whole answers. Of a part of the way, the next question says it."""


def _moved(topics: tuple[Topic, ...], turn: Turn) -> tuple[Topic, ...]:
    match turn.move:
        case Stay() | PassDown():
            return topics
        case Push(topic=topic):
            return (*topics, topic)
        case Swap(topic=topic):
            return (*topics[:-1], topic)
        case Pop():
            return topics[:-1]
        case Afresh(topics=new):
            return new


def _is_helping(progress: Progress) -> bool:
    ask = progress.ask
    return ask is not None and is_help(ask) and not progress.is_talking
