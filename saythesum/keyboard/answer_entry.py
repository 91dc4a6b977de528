"""The half-typed answer, and what keys depend on in the dialogue."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import HowHeard, Number
from saythesum.core.records.rows import Answer, Ask, RowId, Settled
from saythesum.core.sums import Part
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.stack import AdultsTurn, Confirming, Ending, Paused, SayingBack, Topic
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.keyboard.keys import Focus, KeyAction, SpeakKey, StillTyped

Place: TypeAlias = tuple[Cell, Part]
"""The question that digits are typed for."""
Digits: TypeAlias = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class TakenBack:
    """What Backspace took back, and how things stand if nothing has happened since."""

    number: Number
    how: HowHeard
    """Without the time it took: that was another press or breath."""
    settled: Settled
    part: Part | None
    cell: Cell
    answers_left: int


@dataclass(frozen=True, slots=True)
class Typing:
    """The half-typed answer, and where Tab is. A window may show it as it stands."""

    digits: Digits = ()
    has_letters: bool = False
    """Of braille, among the digits."""
    began_ms: int | None = None
    """The first key of this answer, rubbed out or not."""
    place: Place | None = None
    put_by: tuple[tuple[Place, Digits], ...] = ()
    """Half-typed answers to questions that the pupil has left."""
    rubbed_ms: int | None = None
    """The last Backspace that was one of rubbing out."""
    taken_back: TakenBack | None = None
    """Set only while nothing else has been pressed."""
    focus: Focus = Focus.ANSWER
    shows_grid: bool = False
    """The grid is shown in place of the sum."""
    verdict_passed: RowId | None = None
    """The answer whose verdict the pupil has gone on from, by a key."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What keys depend on in the dialogue."""

    is_running: bool
    is_speaking: bool
    is_paused: bool
    is_adults_turn: bool
    place: Place | None
    takes_back: TakenBack | None
    """What "not what I said" would take back."""
    answers: int
    """How many answers count."""
    verdict_on: RowId | None
    """The answer whose verdict was said last."""


Outcome: TypeAlias = tuple[Typing, tuple[KeyAction, ...]]


def seen(state: State) -> Seen:
    top = state.talk.topics[-1] if state.talk.topics else None
    ask = state.progress.ask
    answers = [row for row in state.progress.live if isinstance(row, Answer)]
    return Seen(
        is_running=top is not None and not isinstance(top, Ending),
        is_speaking=state.channel.speaking is not None,
        is_paused=isinstance(top, Paused),
        is_adults_turn=isinstance(top, AdultsTurn),
        place=(cell_of(ask), ask.part) if ask else None,
        takes_back=_to_take_back(top, ask, answers),
        answers=len(answers),
        verdict_on=state.talk.verdict.answer if state.talk.verdict else None,
    )


def _to_take_back(top: Topic | None, ask: Ask | None, answers: Sequence[Answer]) -> TakenBack | None:
    if ask and isinstance(top, SayingBack | Confirming):
        settled = top.settled if isinstance(top, SayingBack) else Settled.CONFIRMED
        how = replace(top.how, took_ms=None)
        return TakenBack(top.number, how, settled, part=None, cell=cell_of(ask), answers_left=len(answers))
    if not answers:
        return None
    last = answers[-1]
    return TakenBack(
        Number(last.given, certainty=last.certainty, sure=last.sure, close_to=last.close_to),
        HowHeard(last.by, last.heard, took_ms=None),
        last.settled,
        part=last.part,
        cell=cell_of(last),
        answers_left=len(answers) - 1,
    )


def followed(typing: Typing, seen: Seen) -> Outcome:
    """To be called after whatever happened in the dialogue: half-typed answers stay with their questions."""
    if seen.place == typing.place or seen.place is None:
        return typing, ()
    others = tuple((place, digits) for place, digits in typing.put_by if place not in (seen.place, typing.place))
    if typing.place and typing.digits:
        others = (*others, (typing.place, typing.digits))
    digits = dict(typing.put_by).get(seen.place, ())
    there = replace(typing, digits=digits, has_letters=False, began_ms=None, place=seen.place, put_by=others)
    return there, (SpeakKey(StillTyped(digits)),) if digits else ()
