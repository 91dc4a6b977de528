"""Which hearings of a practice are certain to have been which number word.

Never those that were merely let stand: the program's own mistakes, learnt from, would breed.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

from saythesum.app.session.learning.beside_practice import Heard
from saythesum.core.meanings import NUMBER_KINDS, Meaning, Number, Unclear, WhyUnclear
from saythesum.core.records.marks import takes_back
from saythesum.core.records.rows import Answer, Ask, By, HeardId, Note, NoteKind, Row, RowId, Void
from saythesum.dialogue.turns.events import ListenId
from saythesum.hearing.embedded.own_words.own_words import WORDS
from saythesum.ports import Frames

MOST_SAYINGS = 40
"""Kept in memory, until the end of the practice at most; the oldest goes first."""


@dataclass(frozen=True, slots=True, eq=False)
class Saying:
    """What may have been one number word."""

    listen: ListenId
    segment: int
    heard: Meaning
    frames: Frames
    factor: float
    """The vocal-tract factor by which the sound was lowered."""


Certain: TypeAlias = dict[HeardId, tuple[int, Saying]]
"""Which number each was."""


class CertainSayings:
    """Told of all hearings and rows in their order."""

    def __init__(self) -> None:
        self._sayings: dict[HeardId, Saying] = {}
        self._of_this_question: set[HeardId] = set()
        self._spoken: dict[RowId, Answer] = {}
        self._certain: dict[RowId, Certain] = {}
        """By the answer that makes them so."""

    @property
    def certain(self) -> Certain:
        return {id: said for certain in self._certain.values() for id, said in certain.items()}

    def add(self, thing: Heard | Row) -> None:
        match thing:
            case Heard(awaiting=awaiting, frames=frames) if awaiting in NUMBER_KINDS and frames is not None:
                event = thing.event
                self._add_saying(event.id, Saying(event.listen, event.segment, event.heard, frames, thing.factor))
            case Ask():
                self._of_this_question.clear()
            case Answer(by=By.KEYS):
                unsure = (id for id in self._of_this_question if _is_not_sure(self._sayings[id].heard))
                self._certain[thing.id] = self._words(thing.given, unsure)
            case Answer(by=By.VOICE):
                self._spoken[thing.id] = thing
            case Void(of=of):
                self._certain.pop(of, None)
            case Note(what=NoteKind.WAS_RIGHT, of=of) if of in self._spoken:
                self._mark(self._spoken[of], is_right=not takes_back(thing))

    def _add_saying(self, id: HeardId, saying: Saying) -> None:
        """In place of what the same stretch of speech was before it went on."""
        self._sayings = {
            other_id: other
            for other_id, other in self._sayings.items()
            if (other.listen, other.segment) != (saying.listen, saying.segment)
        }
        self._sayings[id] = saying
        while len(self._sayings) > MOST_SAYINGS:
            del self._sayings[next(iter(self._sayings))]
        self._of_this_question = (self._of_this_question | {id}) & self._sayings.keys()

    def _mark(self, answer: Answer, *, is_right: bool) -> None:
        said = [answer.heard] if is_right and answer.heard else []
        self._certain[answer.id] = self._words(answer.right_answer, said)

    def _words(self, number: int, heard: Iterable[HeardId]) -> Certain:
        return {id: (number, self._sayings[id]) for id in heard if number in WORDS and self._is_alone(id)}

    def _is_alone(self, id: HeardId) -> bool:
        """Nothing else was said while the ear was open, and no sentence."""
        saying = self._sayings.get(id)
        if saying is None or not _is_plain(saying.heard):
            return False
        return sum(other.listen == saying.listen for other in self._sayings.values()) == 1


def _is_not_sure(meaning: Meaning) -> bool:
    return isinstance(meaning, Unclear) or (isinstance(meaning, Number) and not meaning.sure)


def _is_plain(meaning: Meaning) -> bool:
    match meaning:
        case Number():
            return not (meaning.objecting or meaning.corrected or meaning.said_first or meaning.counting)
        case Unclear(why=why):
            return why is WhyUnclear.OTHER
    return False
