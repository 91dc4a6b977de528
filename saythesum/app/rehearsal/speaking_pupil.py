"""A made-up pupil in a rehearsal: what it says when the ear opens. It is not evidence about children."""

from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from saythesum.app.rehearsal.kinds import Manner, PupilKind, mind_of
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.records.rows import Ask, RowId, Support
from saythesum.core.sums import CLOSING_PARTS, Hidden, Part
from saythesum.dialogue.step import State
from saythesum.dialogue.turns.stack import (
    Confirming,
    OfferingFacts,
    OfferingPattern,
    OfferingTwoJumps,
    Paused,
    SayingBack,
    SayingBackCommand,
    Thinking,
)
from saythesum.dialogue.tutor.pattern_talk import standing_move
from saythesum.wording.numbers import words


@dataclass(frozen=True, slots=True)
class Utterance:
    text: str
    after_ms: int
    """Silence before it: after the ear opened, or after the utterance before it."""


Saying: TypeAlias = tuple[Utterance, ...]
THINKING_MS = 900
COUNTING_GAP_MS = 1200
OBJECTING_MS = 250
MISHEARD_EVERY = 3


class MadeUpPupil:
    """Follows the practice and speaks when the ear opens."""

    def __init__(self, kind: PupilKind, seed: int, on: date) -> None:
        self.mind = mind_of(kind, seed, on)
        self._manner, self._on = kind.manner, on
        self._likes_patterns = kind.likes_patterns
        self._meant = 0
        """The number last answered, as the pupil would have it heard."""
        self._asked: RowId | None = None
        self._times_asked = 0
        self._saying: Saying = ()

    def reply(self, state: State) -> Saying:
        """What to say now that the ear is open; nothing where the pupil lets what was said back stand."""
        match state.talk.topics[-1]:
            case SayingBack(number=number) if number.value != self._meant:
                return (Utterance(f"no, {words(self._meant)}", OBJECTING_MS),)
            case SayingBack() | SayingBackCommand():
                return ()
            case Confirming(number=number):
                return (Utterance("yes" if number.value == self._meant else "no", THINKING_MS),)
            case Paused():
                return (Utterance("go on", THINKING_MS),)
            case OfferingTwoJumps():
                return (Utterance("no", THINKING_MS),)
            case OfferingFacts():
                return (Utterance("yes", THINKING_MS),)
            case OfferingPattern():
                return (Utterance("yes" if self._likes_patterns else "no", THINKING_MS),)
            case Thinking():
                return (Utterance("go on", THINKING_MS),)
            case _ if state.progress.is_talking:
                return self._in_talk(state)
            case _:
                ask = state.progress.ask
                assert ask is not None
                if ask.id != self._asked:  # else it is to be said once more
                    self._asked, self._saying = ask.id, self._answer(state.plan.exercise_of(ask), ask)
                return self._saying

    def _in_talk(self, state: State) -> Saying:
        _, _, question = standing_move(state.plan, state.progress)
        assert question is not None, "in a talk a number is said where one is asked for"
        self._meant = question.right
        return (Utterance(words(self._meant), THINKING_MS),)

    def _answer(self, asked: Exercise, ask: Ask) -> Saying:
        self._times_asked += 1
        is_told = ask.support is Support.MODELLED
        self._meant, took_ms = (
            self.mind.say_after(asked, self._on) if is_told else self.mind.answer(asked, ask.part, self._on)
        )
        match self._manner:
            case Manner.IS_MISHEARD if ask.part in CLOSING_PARTS and self._times_asked % MISHEARD_EVERY == 0:
                return (Utterance(words(self._meant + 10), took_ms),)
            case Manner.COUNTS if ask.part is Part.WHOLE and asked.hidden is Hidden.TOTAL:
                way = 1 if self._meant >= asked.start else -1
                count = range(asked.start + way, self._meant + way, way)
                return tuple(Utterance(words(number), COUNTING_GAP_MS) for number in count)
            case Manner.DOES_NOT_KNOW if ask.part is Part.WHOLE:
                return (Utterance("I don't know", took_ms),)
            case _:
                return (Utterance(words(self._meant), took_ms),)
