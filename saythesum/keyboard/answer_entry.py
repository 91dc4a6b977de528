"""The half-typed answer, and the situation in the dialogue that gives keys their meaning."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Awaiting, HowHeard, Number
from saythesum.core.records.rows import Answer, Ask, RowId, Settled
from saythesum.core.sums import Part
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.stack import AdultsTurn, Confirming, Ending, OfferingPattern, Paused, SayingBack, Topic
from saythesum.dialogue.turns.turn_taking import Channel
from saythesum.dialogue.tutor.progress import cell_of, is_of_talk
from saythesum.keyboard.keys import Focus, KeyAction, SpeakKey, StillTyped

Question: TypeAlias = tuple[Cell | None, Part]
"""The cell and part that digits are typed for; no cell in a talk about patterns."""
Digits: TypeAlias = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class TakenBack:
    """What Backspace took back, and what will still be true if nothing has happened since."""

    number: Number
    how: HowHeard
    """Without the time it took, which belonged to another press or utterance."""
    settled: Settled
    part: Part | None
    cell: Cell | None
    answers_left: int


@dataclass(frozen=True, slots=True)
class Typing:
    """The half-typed answer, and where Tab is. A window may show it as it stands."""

    digits: Digits = ()
    has_letters: bool = False
    """Some of the digits were typed as braille letters."""
    began_ms: int | None = None
    """When the first key of this answer was pressed, whether or not it was rubbed out."""
    question: Question | None = None
    set_aside: tuple[tuple[Question, Digits], ...] = ()
    """Half-typed answers to questions that the pupil has left."""
    rubbed_ms: int | None = None
    """When Backspace last rubbed something out."""
    taken_back: TakenBack | None = None
    """Set only while nothing else has been pressed."""
    focus: Focus = Focus.ANSWER
    shows_grid: bool = False
    """The grid is shown in place of the sum."""
    verdict_passed: RowId | None = None
    """The answer whose verdict the pupil has gone on from, by a key."""

    @property
    def places(self) -> tuple[Focus, ...]:
        """Where Tab goes. Patterns are looked for in the opened grid; its key works anywhere."""
        return tuple(focus for focus in Focus if focus is not Focus.PATTERNS or self.shows_grid)


@dataclass(frozen=True, slots=True)
class Situation:
    """What the meaning of a key depends on in the dialogue."""

    is_running: bool
    is_speaking: bool
    is_paused: bool
    is_about_patterns: bool
    """A talk about one goes on, or is offered."""
    is_adults_turn: bool
    question: Question | None
    takes_back: TakenBack | None
    """What "not what I said" would take back."""
    answers: int
    """How many answers count."""
    verdict_on: RowId | None
    """The answer whose verdict was said last."""
    awaits: Awaiting | None
    """What the pupil may enter just now; None while the tool speaks, or waits for nobody."""
    turns_said: int
    """How many turns the tool has said."""
    is_talk: bool
    """A pattern is talked about."""


Outcome: TypeAlias = tuple[Typing, tuple[KeyAction, ...]]


def situation(state: State) -> Situation:
    top = state.talk.topics[-1] if state.talk.topics else None
    ask = state.progress.standing
    rows = state.progress.talk if state.progress.is_talking else state.progress.live
    answers = [row for row in rows if isinstance(row, Answer)]
    return Situation(
        is_running=top is not None and not isinstance(top, Ending),
        is_speaking=state.channel.speaking is not None,
        is_paused=isinstance(top, Paused),
        is_about_patterns=state.progress.is_talking or isinstance(top, OfferingPattern),
        is_adults_turn=isinstance(top, AdultsTurn),
        question=(_cell(ask), ask.part) if ask else None,
        takes_back=_to_take_back(top, ask, answers),
        answers=len(answers),
        verdict_on=state.talk.verdict.answer if state.talk.verdict else None,
        awaits=_awaited(state.channel),
        turns_said=state.channel.turns_said,
        is_talk=state.progress.is_talking,
    )


def _awaited(channel: Channel) -> Awaiting | None:
    is_open = channel.speaking is None and channel.open_ear is not None and not channel.open_ear.is_between
    return channel.open_ear.awaiting if is_open and channel.open_ear else None


def _to_take_back(top: Topic | None, ask: Ask | None, answers: Sequence[Answer]) -> TakenBack | None:
    if ask and isinstance(top, SayingBack | Confirming):
        settled = top.settled if isinstance(top, SayingBack) else Settled.CONFIRMED
        how = replace(top.how, took_ms=None)
        return TakenBack(top.number, how, settled, part=None, cell=_cell(ask), answers_left=len(answers))
    if not answers:
        return None
    last = answers[-1]
    return TakenBack(
        Number(last.given, certainty=last.certainty, sure=last.sure, close_to=last.close_to),
        HowHeard(last.by, last.heard, took_ms=None),
        last.settled,
        part=last.part,
        cell=_cell(last),
        answers_left=len(answers) - 1,
    )


def _cell(row: Ask | Answer) -> Cell | None:
    return None if is_of_talk(row) else cell_of(row)


def keep_with_question(typing: Typing, situation: Situation) -> Outcome:
    """Half-typed answers stay with their questions. To be called whenever something has happened in the dialogue."""
    if situation.question == typing.question or situation.question is None:
        return typing, ()
    others = tuple(
        (question, digits)
        for question, digits in typing.set_aside
        if question not in (situation.question, typing.question)
    )
    if typing.question and typing.digits:
        others = (*others, (typing.question, typing.digits))
    digits = dict(typing.set_aside).get(situation.question, ())
    there = replace(
        typing, digits=digits, has_letters=False, began_ms=None, question=situation.question, set_aside=others
    )
    return there, (SpeakKey(StillTyped(digits)),) if digits else ()
