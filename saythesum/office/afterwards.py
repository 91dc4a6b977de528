"""The two minutes after a practice: what the tool was not sure of, today in one line, the pupil's own words.

Everything is a row or an entry that is added; nothing is changed, and each press can be taken back by another.
"""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum, auto
from uuid import UUID

from saythesum.core.records.marks import KINDS, SAID_SO, YES, Mark, newest, rows_that_count
from saythesum.core.records.rows import UNAIDED, Answer, Note, NoteKind, Row, RowId, Void, VoidReason
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.tutor.progress import folded
from saythesum.errors import CallerError, StoreError
from saythesum.office.correcting import LONGEST_NOTE, add_row, take_back, whose
from saythesum.office.places import Places
from saythesum.office.plans.today import offers_not_done
from saythesum.office.pupils import known_code
from saythesum.ports import StoredPractice
from saythesum.settings.toml_text import shown
from saythesum.store.reading import StoredRecords, open_to_read
from saythesum.wording.for_adults.counted import counted

MOST_DOUBTFUL = 5


class Judgement(Enum):
    """One press for each answer that the tool was not sure of."""

    SAID_SO = auto()
    """The pupil said the number that was heard. It is told, and stays no evidence, as it was not heard for sure."""
    WAS_RIGHT = auto()
    """The pupil said the right answer, whatever was heard."""
    NOT_SAID = auto()
    WITH_HELP = auto()


@dataclass(frozen=True, slots=True)
class Doubtful:
    practice: UUID
    answer: Answer
    at: datetime
    judged: bool
    """An adult has said something of it since."""


def doubtful(places: Places, given: str, today: date) -> tuple[Doubtful, ...]:
    """The day's answers that were heard least surely, at most five, as they came. Raises CallerError and StoreError."""
    code = known_code(places, given)
    if not places.records_file.exists():
        return ()
    with _records(places) as reader:
        found = [one for stored in _of_day(reader, code, today) for one in _doubtful_in(reader, stored, code)]
    least_sure = sorted(found, key=lambda one: (one.answer.sure, one.answer.certainty or 0.0))[:MOST_DOUBTFUL]
    return tuple(sorted(least_sure, key=lambda one: one.at))


def judge(places: Places, pupil: str, answer: str, judgement: Judgement, now: datetime) -> tuple[Note, ...]:
    """What else adults have noted of that answer.

    Raises CallerError, also where the answer is another pupil's by now, and StoreError.
    """
    if (owner := whose(places, answer)) != pupil:
        raise CallerError(f"That answer is {owner}'s by now, and nothing was changed: mark it on the page of {owner}.")
    id = _judged(places, answer, judgement, now)
    with _records(places) as reader:
        found = reader.connection.execute("SELECT practice FROM rows WHERE id = ?", (id,)).fetchone()
        rows = reader.practice(UUID(found[0])).rows
    return tuple(row for row in rows if isinstance(row, Note) and row.of == answer and row.id != id)


def _judged(places: Places, answer: str, judgement: Judgement, now: datetime) -> RowId:
    match judgement:
        case Judgement.SAID_SO:
            return add_row(places, answer, now, lambda id, of: Note(id, of, NoteKind.TEXT, SAID_SO))
        case Judgement.WAS_RIGHT:
            return add_row(places, answer, now, lambda id, of: Note(id, of, NoteKind.WAS_RIGHT, YES))
        case Judgement.NOT_SAID:
            return take_back(places, answer, now, VoidReason.NOT_SAID)
        case Judgement.WITH_HELP:
            return add_row(places, answer, now, lambda id, of: Note(id, of, NoteKind.SUPPORT, KINDS[Mark.HELPED][0]))


def own_words(places: Places, practice: UUID, text: str, now: datetime) -> RowId:
    """What the pupil says of the practice, in one line; the newest holds. Raises CallerError and StoreError."""
    if len(text) > LONGEST_NOTE or not text.isprintable():
        raise CallerError(f"The words {shown(text)} must be one line of at most {LONGEST_NOTE} characters.")
    with _records(places) as reader:
        rows = reader.practice(practice).rows
    gone = {row.of for row in rows if isinstance(row, Void)}
    answers = [row.id for row in rows if isinstance(row, Answer) and row.id not in gone]
    if not answers:
        raise CallerError("Nothing was answered in that practice: there is nothing to keep the words with.")
    return add_row(places, answers[-1], now, lambda id, of: Note(id, None, NoteKind.OWN_WORDS, text.strip()))


def words_kept(places: Places, practice: UUID) -> str:
    """ "" where there are none."""
    with _records(places) as reader:
        return newest(reader.practice(practice).rows, NoteKind.OWN_WORDS, None) or ""


@dataclass(frozen=True, slots=True)
class Today:
    """A day of a pupil in numbers."""

    code: str
    day: date
    sums: int
    """Cells that were answered, by any help: what was attended."""
    counted: int
    """First answers that count."""
    unaided: int
    """Of these, right and unaided."""
    doesnt_count: int
    """Answers that an adult said do not count."""
    words: str
    """The pupil's own."""
    not_done: str
    """Why what was planned was not done."""


def today_of(places: Places, given: str, day: date) -> Today:
    """Raises CallerError and StoreError."""
    code = known_code(places, given)
    try:
        with _records(places) as reader:
            practices = [(stored, rows_now(stored.rows_of(code))) for stored in _of_day(reader, code, day)]
    except StoreError:
        if places.records_file.exists():
            raise
        practices = []
    first = [answer for _, rows in practices for answer in _first_answers(rows_that_count(rows))]
    all_first = [answer for _, rows in practices for answer in _first_answers(rows)]
    words = [newest(stored.rows, NoteKind.OWN_WORDS, None) or "" for stored, _ in practices]
    reasons = [one.reason for one in offers_not_done(places, code) if one.day == day]
    return Today(
        code=code,
        day=day,
        sums=len(all_first),
        counted=len(first),
        unaided=sum(answer.right and answer.support in UNAIDED for answer in first),
        doesnt_count=len(all_first) - len(first),
        words=next((one for one in reversed(words) if one), ""),
        not_done=reasons[-1] if reasons else "",
    )


def today_said(today: Today) -> str:
    """One line to copy into the school's book."""
    parts = [f"{today.code}, {today.day}:"]
    if today.sums:
        parts.append(
            f"{counted(today.sums, 'sum')}, {today.unaided} of {today.counted} right at the first try and unaided."
        )
    elif not today.not_done:
        parts.append("nothing practised.")
    if today.doesnt_count:
        parts.append(f"{today.doesnt_count} not counted.")
    if today.not_done:
        parts.append(f"Offered and not done: {today.not_done}.")
    if today.words:
        parts.append(f'The pupil: "{today.words}"')
    return " ".join(parts)


def rows_now(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """A practice's rows with every void carried out, and every answer right that an adult said was right."""
    return folded(rows).live


def _first_answers(rows: tuple[Row, ...]) -> Iterator[Answer]:
    """Of each cell, the first that stands for the whole sum."""
    seen = set()
    for row in rows:
        if isinstance(row, Answer) and row.part in CLOSING_PARTS:
            place = (row.activity, row.row, row.column, row.key)
            if place not in seen:
                seen.add(place)
                yield row


def _records(places: Places) -> "closing[StoredRecords]":
    return closing(open_to_read(places.records_file))


def _of_day(reader: StoredRecords, code: str, day: date) -> Iterator[StoredPractice]:
    """The pupil's practices that began that day, by the clock on the wall; newest first until the day before."""
    for id in reversed(reader.practices(code)):
        stored = reader.practice(id)
        began = datetime.fromisoformat(stored.began_at).astimezone().date()
        if began == day:
            yield stored
        elif began < day:
            return


def _doubtful_in(reader: StoredRecords, stored: StoredPractice, code: str) -> Iterator[Doubtful]:
    times = reader.times(stored.id)
    own = {row.id for row in stored.rows_of(code)}
    gone = {row.of for row in stored.rows if isinstance(row, Void)}
    noted = {row.of for row in stored.rows if isinstance(row, Note)}
    for row, at in zip(stored.rows, times, strict=True):
        if isinstance(row, Answer) and row.id in own - gone and _is_doubtful(row):
            yield Doubtful(stored.id, row, at, judged=row.id in noted)


def _is_doubtful(answer: Answer) -> bool:
    """Heard, and not for sure, or easily confused with another number. Typed answers are not."""
    return answer.certainty is not None and (not answer.sure or bool(answer.close_to))
