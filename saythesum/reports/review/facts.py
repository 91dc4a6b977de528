"""Every answer once, as the figures see it. All figures are counted from these, and CSV gives them out.

A *first answer* is the first that a pupil gave in a cell of one practice, of those that were not taken back. It is
unaided where the whole sum was answered without help; whoever asked for help first, or was asked for a step, was
helped. What was not heard for sure, or may have been misheard and was wrong, is counted apart, and so is what an adult
took out. An adult's marks hold here as they do for what the tool believes (`core.records.marks`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import lru_cache
from uuid import UUID

from saythesum.core.exercises.exercise import Exercise, Key
from saythesum.core.exercises.registry import exercise
from saythesum.core.records.marks import YES, judged_right, rows_that_count
from saythesum.core.records.rows import UNAIDED, Answer, Note, NoteKind, Purpose, Row, RowId, Void, VoidReason
from saythesum.core.records.voiding import gone_with
from saythesum.core.sums import CLOSING_PARTS, ExerciseName, Part
from saythesum.reports.review.source import PracticeRead


class Fate(StrEnum):
    COUNTED = "counted"
    UNSURE = "unsure"
    TAKEN_BACK = "taken-back"
    NOT_COUNTED = "not-counted"


@dataclass(frozen=True, slots=True)
class Fact:
    practice: UUID
    title: str
    day: date
    serial: int
    """Among the practice's rows."""
    answer: Answer
    """With the help that an adult noted, and right where an adult said so."""
    fate: Fate
    taken_back: str
    """Why; "" where it was not."""
    is_first: bool
    print_size: int
    rate_wpm: int

    @property
    def asked(self) -> Exercise:
        return _exercise_of(self.answer.key)

    @property
    def is_unaided(self) -> bool:
        return self.answer.part is Part.WHOLE and self.answer.tries == 1 and self.answer.support in UNAIDED

    @property
    def is_right_unaided(self) -> bool:
        return self.is_unaided and self.answer.right

    @property
    def is_closing(self) -> bool:
        """It ended its cell rightly."""
        return self.answer.right and self.answer.part in CLOSING_PARTS


@lru_cache(maxsize=4096)
def _exercise_of(key: Key) -> Exercise:
    return exercise(*key)


def facts_of(practice: PracticeRead) -> tuple[Fact, ...]:
    """In the order in which they were kept. A talk about patterns asks no sums, and is left out."""
    return tuple(_facts(practice))


def firsts(facts: Sequence[Fact], purpose: Purpose = Purpose.PRACTICE) -> tuple[Fact, ...]:
    """First answers that count, of one purpose: practice, probe and paper are never added up."""
    return tuple(one for one in facts if one.is_first and one.fate is Fate.COUNTED and one.answer.purpose is purpose)


def _facts(practice: PracticeRead) -> Iterator[Fact]:
    gone, counting = _taken_back(practice.rows), _counting(practice.rows)
    seen: set[object] = set()
    for serial, (row, day) in enumerate(zip(practice.rows, practice.days, strict=True)):
        if not isinstance(row, Answer) or row.exercise is ExerciseName.PATTERN:
            continue
        answer = counting.get(row.id, row)
        fate = _fate(answer, row.id in gone, row.id in counting)
        cell = (row.activity, row.row, row.column, row.key)
        is_first = row.id not in gone and cell not in seen
        if is_first:
            seen.add(cell)
        yield Fact(
            *(practice.id, practice.title, day, serial, answer, fate, gone.get(row.id, ""), is_first),
            *(practice.print_size, practice.rate_wpm),
        )


def _fate(answer: Answer, is_gone: bool, is_counted: bool) -> Fate:
    if is_gone:
        return Fate.TAKEN_BACK
    if not is_counted:
        return Fate.NOT_COUNTED
    is_doubtful = not answer.is_relied_on or (bool(answer.close_to) and not answer.right)
    return Fate.UNSURE if is_doubtful else Fate.COUNTED


def _taken_back(rows: Sequence[Row]) -> dict[RowId, str]:
    """With all that came of an answer that was taken back, or that was right after all."""
    gone: dict[RowId, str] = {}
    places = {row.id: place for place, row in enumerate(rows)}
    right = _said_to_be_right(rows)
    for place, row in enumerate(rows):
        match row:
            case Void(of=of, why=why) if of in places:
                for id in gone_with(of, rows[places[of] : place]):
                    gone.setdefault(id, why.value)
            case Note(id=note, of=of) if of in places and note in right:
                for id in gone_with(of, rows[places[of] : place]) - {of}:
                    gone.setdefault(id, VoidReason.ADULT.value)
    return gone


def _counting(rows: Sequence[Row]) -> dict[RowId, Answer]:
    """The answers that count, as they count."""
    right = {*_said_to_be_right(rows).values()}
    return {
        row.id: judged_right(row) if row.id in right else row
        for row in rows_that_count(rows)
        if isinstance(row, Answer)
    }


def _said_to_be_right(rows: Sequence[Row]) -> dict[RowId, RowId]:
    """The notes that hold, each with its answer."""
    newest = {row.of: row for row in rows if isinstance(row, Note) and row.what is NoteKind.WAS_RIGHT}
    return {row.id: of for of, row in newest.items() if of and row.value == YES}
