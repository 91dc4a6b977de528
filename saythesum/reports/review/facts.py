"""Every answer once, as the figures see it. All figures are counted from these, and CSV gives them out.

A *first answer* is the first that a pupil gave in a cell of one practice, of those that were not taken back. It is
unaided where the whole sum was answered without help; whoever asked for help first, or was asked for a step, was
helped. What was not heard for sure, or may have been misheard and was wrong, is counted apart, and so is what an adult
took out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from enum import StrEnum
from functools import lru_cache
from uuid import UUID

from saythesum.core.exercises.exercise import Exercise, Key
from saythesum.core.exercises.registry import exercise
from saythesum.core.records.rows import UNAIDED, Answer, Note, NoteKind, Purpose, Row, RowId, Support, Void
from saythesum.core.records.voiding import gone_with
from saythesum.core.sums import CLOSING_PARTS, ExerciseName, Part
from saythesum.reports.review.source import PracticeRead
from saythesum.values import dataclass


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
    """With the help that an adult noted."""
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
    gone, amended = _taken_back(practice.rows), _amended(practice.rows)
    seen: set[object] = set()
    for serial, (row, day) in enumerate(zip(practice.rows, practice.days, strict=True)):
        if not isinstance(row, Answer) or row.exercise is ExerciseName.PATTERN:
            continue
        support, is_counted = amended.get(row.id, (row.support, True))
        answer = replace(row, support=support) if support is not row.support else row
        fate = _fate(answer, row.id in gone, is_counted)
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
    """With all that came of an answer that was taken back."""
    gone: dict[RowId, str] = {}
    places = {row.id: place for place, row in enumerate(rows)}
    for place, row in enumerate(rows):
        if isinstance(row, Void) and row.of in places:
            for id in gone_with(row.of, rows[places[row.of] : place]):
                gone.setdefault(id, row.why.value)
    return gone


def _amended(rows: Sequence[Row]) -> dict[RowId, tuple[Support, bool]]:
    """What adults noted of answers: the help that they were given with, and whether they count."""
    support = {row.id: row.support for row in rows if isinstance(row, Answer)}
    amended: dict[RowId, tuple[Support, bool]] = {}
    for row in rows:
        if isinstance(row, Note) and row.of in support:
            before = amended.get(row.of, (support[row.of], True))
            if row.what is NoteKind.NOT_COUNTED:
                amended[row.of] = (before[0], False)
            elif row.what is NoteKind.SUPPORT and row.value in list(Support):
                amended[row.of] = (Support(row.value), before[1])
    return amended
