"""Answers that came back on paper, kept as rows: a practice of its own, over at once, its answers marked `paper`.

They are typed in as a probe is asked, sum after sum and without help, so that they come to the same rows. None of them
tells what the pupil knows unaided: nobody saw how they came about. They stand by themselves in every figure.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum
from uuid import UUID

from saythesum import __version__
from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import text_of
from saythesum.core.meanings import LARGEST_NUMBER, Command, Given, Number
from saythesum.core.records.codec import kind_of
from saythesum.core.records.rows import Answer, By, HeardId, Note, NoteKind, Purpose, Row, row_id
from saythesum.core.records.times import utc_text
from saythesum.dialogue.step import opened, step
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Began, Entered
from saythesum.dialogue.tutor.plan import Activity, planned
from saythesum.dialogue.tutor.progress import Progress
from saythesum.errors import CallerError
from saythesum.office.papers.sheets import KeptSheet
from saythesum.office.places import Places
from saythesum.office.upkeep.beside import writing_about
from saythesum.ports import StoredActivity
from saythesum.settings import Settings
from saythesum.store.codec import plan_as_text, row_as_text, settings_as_text
from saythesum.store.columns import insert_practice, insert_row


class Written(StrEnum):
    """How the answers came onto the paper; kept as a note of the practice (`worked-with`)."""

    HAND = "hand"
    BRAILLER = "brailler"
    SAID = "said to an adult"


@dataclass(frozen=True, slots=True)
class PaperKept:
    practice: UUID
    answered: int
    right: int
    empty: int


def keep_paper(  # noqa: PLR0917
    places: Places,
    pupil: str,
    sheet: KeptSheet,
    answers: Sequence[int | None],
    written: Written,
    practice: UUID,
    now: datetime,
) -> PaperKept:
    """`answers`: row by row, None for a cell left empty; `practice`: a new id. All of them are kept or none.

    Raises CallerError and StoreError.
    """
    if len(answers) != len(sheet.cells):
        raise CallerError(f"The sheet {sheet.code} has {len(sheet.cells)} sums, and {len(answers)} answers were given.")
    if all(answer is None for answer in answers):
        raise CallerError("No answer was given: nothing is kept.")
    for cell, answer in zip(sheet.cells, answers, strict=True):
        if answer is not None and not 0 <= answer <= LARGEST_NUMBER:
            shown = sheet.grid.exercise_at(cell).shown
            raise CallerError(f"The answer to {shown} is {answer}; right would be a number from 0 to {LARGEST_NUMBER}.")
    rows = paper_rows(sheet, answers, written, practice)
    _keep(places, pupil, sheet, practice, rows, now)
    kept = [row for row in rows if isinstance(row, Answer)]
    return PaperKept(practice, len(kept), sum(row.right for row in kept), len(answers) - len(kept))


def paper_rows(sheet: KeptSheet, answers: Sequence[int | None], written: Written, practice: UUID) -> tuple[Row, ...]:
    """What is kept of a filled sheet. How long the typing took says nothing of the pupil."""
    asked = Activity(sheet.grid, sheet.cells, Aim.PROBE)
    state = opened(planned(practice, [asked], Settings()), Progress(), Ear.TEXT)
    for event in _events(answers):
        state, _ = step(state, event)
    rows: list[Row] = [
        replace(row, purpose=Purpose.PAPER, took_ms=None) if isinstance(row, Answer) else row
        for row in state.progress.live
    ]
    return (*rows, Note(row_id(practice, len(rows)), None, NoteKind.WORKED_WITH, written.value))


def _events(answers: Sequence[int | None]) -> Iterator[Began | Entered]:
    yield Began(0)
    for place, answer in enumerate(answers):
        heard = Given(Command.SKIP) if answer is None else Number(answer)
        yield Entered(heard, "" if answer is None else str(answer), By.KEYS, 0, 0, HeardId(f"paper {place}"))


def _keep(  # noqa: PLR0917
    places: Places, pupil: str, sheet: KeptSheet, practice: UUID, rows: Sequence[Row], now: datetime
) -> None:
    at = utc_text(now)
    plan = plan_as_text([StoredActivity(Aim.PRACTISE, text_of(sheet.grid), sheet.cells)])
    head = (pupil, at, plan, 0, settings_as_text(Settings()), __version__, Aim.PRACTISE.value)
    with writing_about(places, pupil) as writer:
        connection = writer.connection
        if connection.execute("SELECT 1 FROM practices WHERE id = ?", (str(practice),)).fetchone():
            raise CallerError("These answers were kept already, and are not kept a second time.")
        (number,) = connection.execute("SELECT coalesce(max(number), 0) + 1 FROM practices").fetchone()
        insert_practice(connection, (number, str(practice), *head))
        for serial, row in enumerate(rows):
            insert_row(connection, (str(practice), serial, row.id, kind_of(row), at, 0, row_as_text(row)))
