"""The mouth and the ear: ids, what is being said, the open ear, the timers.

It turns what happens into at most one thing heard, and a topic's turn into effects. It is the only one that
knows of utterances and waits; it does not know what is said or why.
"""

from dataclasses import dataclass, field, replace

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Command, Given, Heard, HowHeard, Meaning, Unclear, WaitEnded
from saythesum.core.records.rows import Ask, By, HeardId, Support
from saythesum.dialogue.messages import Message
from saythesum.dialogue.turns.effects import (
    Ear,
    Effect,
    Finish,
    Hush,
    Listen,
    OpenWhen,
    Purpose,
    Say,
    Settle,
    ShutEar,
    SpeakSlower,
    Wake,
)
from saythesum.dialogue.turns.events import (
    Entered,
    HeardSoFar,
    ListenId,
    NobodySpoke,
    SpeakerChanged,
    SpeechBegan,
    TypingChanged,
    UtteranceEnded,
    UtteranceId,
    WakeId,
)
from saythesum.dialogue.turns.segments import joined
from saythesum.dialogue.turns.turn import PAUSE, TAKE_YOUR_TIME, FinishThen, ListenFor, OpenPause, Quiet, Then, Turn
from saythesum.settings import Waits

SETTLE = "settle"


@dataclass(frozen=True, slots=True)
class Timer:
    id: WakeId
    name: str


@dataclass(frozen=True, slots=True)
class OpenEar:
    id: ListenId
    awaiting: Awaiting
    is_between: bool = False
    """Between two sentences: nobody has spoken into the pause yet."""


@dataclass(frozen=True, slots=True)
class Channel:
    ear: Ear
    waits: Waits
    open_when: OpenWhen = OpenWhen.AFTER_SPEECH
    is_screen_reader: bool = False
    """A screen reader speaks for the tool."""
    next_id: int = 1
    speaking: UtteranceId | None = None
    """The last utterance of what is being said."""
    speaking_since_ms: int = 0
    saying: tuple[Message, ...] = ()
    """What is being said, or was said last."""
    turns_said: int = 0
    """How many turns of the tool had anything to say, that one included."""
    whole_sentences: int = 0
    """How many of that have been said to their ends."""
    is_cut_by_speech: bool = False
    """The pupil spoke into it; what that meant is not yet known."""
    then: Then = field(default_factory=Quiet)
    """What to do when it has been said."""
    open_ear: OpenEar | None = None
    segments: tuple[HeardSoFar, ...] = ()
    timer: Timer | None = None
    is_question_new: bool = False
    """What is being said, or was said last, asks something for the first time."""
    question_ended_ms: int | None = None
    """When a new question had been said whole; None where it was interrupted or something was said after it."""
    help_speech_ms: int = 0
    """How long the tool has talked in this visit since help began."""
    is_helping: bool = False
    is_speech_on: bool = False
    """The pupil is in the middle of speaking."""


@dataclass(frozen=True, slots=True)
class PupilTurn:
    """The pupil's turn: one meaning, and how it was heard."""

    heard: Heard
    how: HowHeard


NOT_HEARD = HowHeard(By.VOICE, None, None)

# ---- what happens ----------------------------------------------------------------------------------


def said(channel: Channel, event: UtteranceEnded) -> tuple[Channel, list[Effect]]:
    if event.id != channel.speaking:
        return _sentence_said(channel, event)
    channel = _silent(channel, event.at_ms)
    if channel.open_ear and channel.open_ear.is_between:
        channel = replace(channel, open_ear=None)
    channel, effects = _go_on(replace(channel, question_ended_ms=event.at_ms if channel.is_question_new else None))
    if not (channel.is_question_new and isinstance(channel.then, ListenFor)):
        return channel, effects
    channel, softly = _wake(channel, TAKE_YOUR_TIME, channel.waits.take_your_time_ms)
    return channel, effects + softly


def _sentence_said(channel: Channel, event: UtteranceEnded) -> tuple[Channel, list[Effect]]:
    """A sentence that others follow. On a loudspeaker the ear opens until the next one begins."""
    if channel.speaking is None or not channel.speaking - len(channel.saying) < event.id < channel.speaking:
        return channel, []
    if event.cut_ms is not None:
        return channel, []
    channel = replace(channel, whole_sentences=event.id - channel.speaking + len(channel.saying))
    return _opened_while_speaking(channel, OpenWhen.BETWEEN_SENTENCES)


def speech_began(channel: Channel, event: SpeechBegan) -> tuple[Channel, list[Effect]]:
    """Speech stops every timer: the pause that was open, and the wait whether more is to come. It cuts speech, too."""
    if channel.open_ear is None or channel.open_ear.id != event.listen:
        return channel, []
    is_cut = channel.speaking is not None
    open_ear = replace(channel.open_ear, is_between=False)
    channel = replace(_silent(channel, event.at_ms), open_ear=open_ear, timer=None, is_speech_on=True)
    if is_cut:
        return replace(channel, is_cut_by_speech=True), [Hush()]
    return channel, []


def nobody_spoke(channel: Channel, event: NobodySpoke) -> tuple[Channel, list[Effect]]:
    """The next sentence may begin."""
    if channel.open_ear is None or channel.open_ear.id != event.listen:
        return channel, []
    return replace(channel, open_ear=None), []


def typing_changed(channel: Channel, event: TypingChanged) -> tuple[Channel, list[Effect]]:
    """A correction that is being typed stops the open pause, as speech does; rubbed out, the pause begins anew."""
    if channel.timer and channel.timer.name == TAKE_YOUR_TIME:
        return replace(channel, timer=None), []
    if channel.speaking is not None or not isinstance(channel.then, OpenPause) or channel.segments:
        return channel, []
    if event.is_empty:
        return _wait_out_pause(channel)
    return replace(channel, timer=None), []


def cut_short(channel: Channel, heard: Heard) -> Turn | None:
    """Where the speech that cut the tool meant nothing, the tool says the rest, from the sentence that was cut."""
    if channel.is_cut_by_speech and isinstance(heard, Unclear):
        return Turn(say=channel.saying[channel.whole_sentences :], then=channel.then)
    return None


def heard_so_far(channel: Channel, event: HeardSoFar, begins: frozenset[int]) -> tuple[Channel, list[Effect]]:
    if channel.open_ear is None or channel.open_ear.id != event.listen:
        return channel, []
    segments = (*(segment for segment in channel.segments if segment.segment != event.segment), event)
    channel = replace(channel, segments=segments, is_speech_on=False)
    end_pause_ms = joined(segments, begins, channel.waits).end_pause_ms
    return _wake(channel, SETTLE, end_pause_ms, already_ms=event.at_ms - event.ended_ms)


def settled(channel: Channel, begins: frozenset[int]) -> tuple[Channel, list[Effect], PupilTurn]:
    """The end pause is over: the segments are one thing heard."""
    all_of_it = joined(channel.segments, begins, channel.waits)
    last = channel.segments[-1]
    text = " ".join(segment.text for segment in channel.segments if segment.text)
    how = HowHeard(By.VOICE, last.id, _took_ms(channel, all_of_it.began_ms))
    channel = replace(channel, segments=(), timer=None)
    return channel, [_settle(last.id, all_of_it.heard, text, By.VOICE)], PupilTurn(all_of_it.heard, how)


def entered(channel: Channel, event: Entered) -> tuple[Channel, list[Effect], PupilTurn]:
    """A key or a line cuts speech and takes the place of whatever was being heard."""
    # How long a switch took says when its number was offered, and little of the pupil.
    took_ms = None if event.by is By.SWITCH else _took_ms(channel, event.began_ms)
    how = HowHeard(event.by, event.id, took_ms)
    channel, effects = interrupted(channel, event.at_ms)
    return channel, [_settle(event.id, event.heard, event.text, event.by), *effects], PupilTurn(event.heard, how)


def _settle(id: HeardId, heard: Meaning, text: str, by: By) -> Settle:
    """What a pupil tells of their body or their worries is nobody's to keep: its words go no further."""
    is_private = isinstance(heard, Given) and heard.command is Command.NEEDS_ADULT
    return Settle(id, heard, "" if is_private else text, by)


def interrupted(channel: Channel, at_ms: int) -> tuple[Channel, list[Effect]]:
    """Mouth and ear shut, timers gone."""
    effects: list[Effect] = []
    if channel.speaking is not None:
        effects.append(Hush())
    if channel.open_ear is not None:
        effects.append(ShutEar())
    return replace(_silent(channel, at_ms), open_ear=None, segments=(), timer=None, is_speech_on=False), effects


def _silent(channel: Channel, at_ms: int) -> Channel:
    """Nothing is being said any more; a question that was cut short has not been asked whole."""
    if channel.speaking is None:
        return channel
    spoken_ms = (at_ms - channel.speaking_since_ms) * channel.is_helping
    return replace(channel, speaking=None, question_ended_ms=None, help_speech_ms=channel.help_speech_ms + spoken_ms)


def ear_asked(channel: Channel, at_ms: int, begins: frozenset[int]) -> tuple[Channel, list[Effect], PupilTurn | None]:
    """The key that opens the ear for one answer. With the ear open already, it says that this is all; in a pause
    that nothing else ends, that what was said back is right.
    """
    if channel.segments:
        return settled(channel, begins)
    if channel.is_speech_on:
        return channel, [], None
    if isinstance(channel.then, OpenPause) and channel.waits.said_back_ms is None and channel.open_ear is None:
        channel, effects = interrupted(channel, at_ms)
        return channel, effects, PupilTurn(WaitEnded(PAUSE), NOT_HEARD)
    is_let_stand = isinstance(channel.then, OpenPause) and channel.open_ear is not None and channel.timer is None
    channel, effects = interrupted(channel, at_ms)
    if is_let_stand:
        channel, more = _wait_out_pause(channel)
    else:
        channel, more = _open(channel)
    return channel, effects + more, None


def with_screen_reader(channel: Channel) -> Channel:
    """Nobody knows when a screen reader has finished: the ear opens by key only, and Enter keeps what was said back."""
    ear = Ear.PRESS if channel.ear is Ear.OPEN else channel.ear
    return with_waits(replace(channel, ear=ear, is_screen_reader=True), channel.waits)


def with_waits(channel: Channel, waits: Waits) -> Channel:
    return replace(channel, waits=replace(waits, said_back_ms=None) if channel.is_screen_reader else waits)


def speaker_changed(channel: Channel, event: SpeakerChanged, waits: Waits) -> tuple[Channel, list[Effect]]:
    """In the middle of a practice. The ear goes on being opened by key when the tool speaks again."""
    channel, effects = interrupted(channel, event.at_ms)
    if event.is_screen_reader:
        return with_screen_reader(channel), effects
    return with_waits(replace(channel, is_screen_reader=False), waits), effects


def woke(channel: Channel, id: WakeId, begins: frozenset[int]) -> tuple[Channel, list[Effect], PupilTurn | None]:
    if channel.timer is None or channel.timer.id != id:
        return channel, [], None
    if channel.timer.name == SETTLE:
        return settled(channel, begins)
    return replace(channel, timer=None), [], PupilTurn(WaitEnded(channel.timer.name), NOT_HEARD)


def _took_ms(channel: Channel, began_ms: int) -> int | None:
    if channel.speaking is not None or channel.question_ended_ms is None:
        return None
    return max(0, began_ms - channel.question_ended_ms)


# ---- what is done -----------------------------------------------------------------------------------


def carried_out(channel: Channel, turn: Turn, *, at_ms: int, is_helping: bool) -> tuple[Channel, list[Effect]]:
    """The tool's turn as effects, in the order say, then listen or wait."""
    if not turn.say and not turn.hushes and _is_listening_on(channel, turn.then):
        channel = replace(channel, then=turn.then)
        return _wait_out_pause(channel) if isinstance(turn.then, OpenPause) else (channel, [])
    channel, effects = interrupted(channel, at_ms)
    help_speech_ms = channel.help_speech_ms if is_helping else 0
    channel = replace(
        channel, then=turn.then, is_helping=is_helping, help_speech_ms=help_speech_ms, is_cut_by_speech=False
    )
    if turn.is_slower:
        effects.append(SpeakSlower())
    if not turn.say:
        channel, more = _go_on(channel)
        return channel, effects + more
    first = channel.next_id
    effects += [Say(UtteranceId(first + at), message) for at, message in enumerate(turn.say)]
    last = UtteranceId(first + len(turn.say) - 1)
    is_new = any(isinstance(row, Ask) and row.support is not Support.REPEATED for row in turn.keep)
    channel = replace(channel, next_id=last + 1, speaking=last, speaking_since_ms=at_ms, is_question_new=is_new)
    channel = replace(channel, saying=turn.say, turns_said=channel.turns_said + 1, whole_sentences=0)
    channel, opened = _opened_while_speaking(channel, OpenWhen.ALWAYS)
    return channel, effects + opened


def _opened_while_speaking(channel: Channel, when: OpenWhen) -> tuple[Channel, list[Effect]]:
    if channel.open_when is not when or channel.ear is not Ear.OPEN:
        return channel, []
    if not isinstance(channel.then, ListenFor | OpenPause):
        return channel, []
    if when is OpenWhen.BETWEEN_SENTENCES:
        return _open(channel, Purpose.BETWEEN_SENTENCES, for_ms=channel.waits.between_sentences_ms)
    return _open(channel)


def _is_listening_on(channel: Channel, then: Then) -> bool:
    """Whether the ear that is open can simply stay so: closing it would cut what the pupil says next."""
    if channel.open_ear is None or channel.ear is Ear.PRESS:
        return False
    awaiting = channel.open_ear.awaiting
    if isinstance(then, OpenPause):
        return awaiting in NUMBER_KINDS
    return isinstance(then, ListenFor) and then.awaiting is awaiting


def _go_on(channel: Channel) -> tuple[Channel, list[Effect]]:
    """What was to follow speech."""
    match channel.then:
        case ListenFor() if channel.ear is Ear.PRESS or channel.open_ear is not None:
            return channel, []
        case ListenFor():
            return _open(channel)
        case OpenPause():
            effects: list[Effect] = []
            if channel.ear is not Ear.PRESS and channel.open_ear is None:
                channel, effects = _open(channel)
            channel, pause = _wait_out_pause(channel)
            return channel, effects + pause
        case FinishThen(reason=reason):
            return channel, [Finish(reason)]
        case Quiet():
            return channel, []


def _open(channel: Channel, purpose: Purpose | None = None, for_ms: int | None = None) -> tuple[Channel, list[Effect]]:
    """For what was to follow the speech, unless another purpose is given."""
    awaiting = channel.then.awaiting if isinstance(channel.then, ListenFor) else Awaiting.NUMBER
    if purpose is None:
        purpose = Purpose.CORRECTION if isinstance(channel.then, OpenPause) else Purpose.ANSWER
    listen = Listen(ListenId(channel.next_id), awaiting, channel.ear, purpose, for_ms)
    open_ear = OpenEar(listen.id, awaiting, is_between=listen.is_between)
    channel = replace(channel, next_id=listen.id + 1, open_ear=open_ear, segments=())
    return channel, [listen]


def _wait_out_pause(channel: Channel) -> tuple[Channel, list[Effect]]:
    return _wake(channel, PAUSE, channel.waits.said_back_ms)


def _wake(channel: Channel, name: str, after_ms: int | None, already_ms: int = 0) -> tuple[Channel, list[Effect]]:
    if after_ms is None:
        return replace(channel, timer=None), []
    id = WakeId(channel.next_id)
    wake = Wake(id, name, max(0, after_ms - already_ms))
    return replace(channel, next_id=id + 1, timer=Timer(id, name)), [wake]
