"""Records put right afterwards, with a trace: a row is added that says what holds instead; none is changed."""

from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from saythesum.core.records.codec import kind_of
from saythesum.core.records.rows import Answer, Note, NoteKind, Row, RowId, Support, Void, VoidReason, row_id
from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError, StoreError
from saythesum.office.places import Places
from saythesum.office.upkeep.beside import writing_about
from saythesum.settings.toml_text import shown
from saythesum.store.codec import row_as_text
from saythesum.store.columns import insert_row
from saythesum.store.reading import StoredRecords, open_to_read

LONGEST_NOTE = 500


@dataclass(frozen=True, slots=True)
class AnswerCard:
    practice: UUID
    serial: int
    at: datetime
    answer: Answer
    is_taken_back: bool
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class PracticeCard:
    id: UUID
    began_at: str
    """UTC, ISO 8601."""
    grids: tuple[str, ...]
    """As texts in the grid file's format, one for each activity."""
    rows: int
    answers: int


def practices(places: Places, code: str) -> tuple[PracticeCard, ...]:
    """Oldest first; those that cannot be read are left out (`saythesum check` names them)."""
    reader = open_to_read(places.records_file)
    cards = []
    try:
        for id in reader.practices(code):
            try:
                stored = reader.practice(id)
            except StoreError:
                continue
            rows = stored.rows_of(code)
            answers = sum(isinstance(row, Answer) for row in rows)
            grids = tuple(one.grid_text for one in stored.activities)
            cards.append(PracticeCard(id, stored.began_at, grids, len(rows), answers))
    finally:
        reader.close()
    return tuple(cards)


def answers(places: Places, practice: UUID) -> tuple[AnswerCard, ...]:
    """In the order in which they were given. Raises StoreError where there is no such practice."""
    reader = open_to_read(places.records_file)
    try:
        rows, times = reader.practice(practice).rows, reader.times(practice)
    finally:
        reader.close()
    gone = {row.of for row in rows if isinstance(row, Void)}
    notes = [row for row in rows if isinstance(row, Note) and row.of]
    return tuple(
        AnswerCard(practice, serial, at, row, row.id in gone, tuple(note for note in notes if note.of == row.id))
        for serial, (row, at) in enumerate(zip(rows, times, strict=True))
        if isinstance(row, Answer)
    )


def take_back(places: Places, answer: str, now: datetime, why: VoidReason = VoidReason.ADULT) -> RowId:
    """The answer counts no more, nor does what came of it. Raises CallerError and StoreError."""
    return add_row(places, answer, now, lambda id, of: Void(id, of, why))


def was_helped(places: Places, answer: str, now: datetime, support: Support = Support.ADULT_HELP) -> RowId:
    """The answer counts as given with that help."""
    return add_row(places, answer, now, lambda id, of: Note(id, of, NoteKind.SUPPORT, support.value))


def does_not_count(places: Places, answer: str, now: datetime) -> RowId:
    """The answer stays, and is no evidence."""
    return add_row(places, answer, now, lambda id, of: Note(id, of, NoteKind.NOT_COUNTED, ""))


def add_note(places: Places, answer: str, text: str, now: datetime) -> RowId:
    """One line beside an answer."""
    if not text.strip() or len(text) > LONGEST_NOTE or not text.isprintable():
        raise CallerError(f"The note {shown(text)} must be one line of 1 to {LONGEST_NOTE} characters.")
    return add_row(places, answer, now, lambda id, of: Note(id, of, NoteKind.TEXT, text.strip()))


def add_row(places: Places, answer: str, now: datetime, row: Callable[[RowId, RowId], Row]) -> RowId:
    of, code = _as_id(answer), whose(places, answer)
    with writing_about(places, code) as writer:
        practice, _ = _found(writer, of)
        stored = writer.practice(practice)
        if stored.left_aside:
            raise StoreError(f"The practice {practice} has damaged rows, and nothing is added to it.")
        if any(isinstance(one, Void) and one.of == of for one in stored.rows):
            raise CallerError("That answer was taken back already, and nothing was changed.")
        serial = len(stored.rows)
        id = row_id(practice, serial)
        new = row(id, of)
        columns = (str(practice), serial, id, kind_of(new), utc_text(now), 0, row_as_text(new))
        insert_row(writer.connection, columns)
    return id


def whose(places: Places, answer: str) -> str:
    """The pupil's code. Raises CallerError and StoreError."""
    with closing(open_to_read(places.records_file)) as reader:
        _, code = _found(reader, _as_id(answer))
    return code


def _found(reader: StoredRecords, answer: RowId) -> tuple[UUID, str]:
    """The practice, and whose the answer is."""
    found = reader.connection.execute(
        "SELECT practice, serial FROM rows WHERE id = ? AND kind = 'answer'", (answer,)
    ).fetchone()
    if not found:
        raise CallerError(f"There is no answer {answer}; saythesum records correct CODE lists them.")
    stored = reader.practice(UUID(found[0]))
    place = next((place for place, row in enumerate(stored.rows) if row.id == answer), 0)
    return stored.id, stored.owners[place] if stored.owners else stored.pupil


def _as_id(given: str) -> RowId:
    try:
        return RowId(str(UUID(given)))
    except ValueError as error:
        raise CallerError(
            f"{shown(given)} is not an answer's id; saythesum records correct CODE lists them."
        ) from error
