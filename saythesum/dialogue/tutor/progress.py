"""What the stored rows add up to. It changes through one fold only, live and on resume alike."""

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from typing import TypeGuard

from saythesum.core.grids.grid import Cell
from saythesum.core.records.marks import judged_right, rows_that_count
from saythesum.core.records.rows import (
    UNAIDED,
    Answer,
    Ask,
    End,
    EndReason,
    Form,
    Note,
    NoteKind,
    Purpose,
    Reason,
    Row,
    RowId,
    Support,
    Void,
)
from saythesum.core.records.voiding import gone_with
from saythesum.core.sums import CLOSING_PARTS, ExerciseName, Part
from saythesum.dialogue.tutor.feedback import Replied, deciding_names
from saythesum.dialogue.tutor.plan import Plan
from saythesum.learner.evidence import Tells, tells
from saythesum.learner.pupil import Pupil


@dataclass(frozen=True, slots=True)
class Progress:
    kept: int = 0
    """Rows kept so far, dead ones included: the serial of the next row."""
    live: tuple[Row, ...] = ()
    """The rows that no void has reached, in order; voids themselves left out."""
    closed: frozenset[Cell] = frozenset()
    """Cells that are done with: answered rightly, or worked through to the end; in a probe, answered."""
    asked: frozenset[Cell] = frozenset()
    helped: frozenset[Cell] = frozenset()
    """Cells that the pupil was helped with since the practice began or went on."""
    left: tuple[Cell, ...] = ()
    """Cells that the pupil chose to leave unanswered since then, each as often as it was left."""
    closed_since: int = 0
    """How many cells were closed since then."""

    as_heard: tuple[Answer, ...] = ()
    """Answers that an adult said were right, as they were heard."""
    replied: tuple[Replied, ...] = ()
    """What the wrong whole answers were met with so far."""
    talked: tuple[Ask | Answer, ...] = ()
    """The live rows of talks about patterns, which are none of `live`: what counts sums knows nothing of them."""
    is_talking: bool = False
    """A talk about a pattern goes on; what was asked last in the grid waits beneath it."""

    @property
    def standing(self) -> Ask | None:
        """The question that stands, in a talk or in a grid."""
        return self.talk_ask if self.is_talking else self.ask

    @property
    def talk_ask(self) -> Ask | None:
        """What was asked last in a talk."""
        return next((row for row in reversed(self.talked) if isinstance(row, Ask)), None)

    @property
    def talk(self) -> tuple[Ask | Answer, ...]:
        """The rows of the last talk, from its first question on."""
        rows: list[Ask | Answer] = []
        for row in reversed(self.talked):
            rows.append(row)
            if isinstance(row, Ask) and opens_talk(row):
                break
        return tuple(reversed(rows))

    def has_talked_about(self, activity: int) -> bool:
        return any(row.activity == activity for row in self.talked)

    @property
    def ask(self) -> Ask | None:
        """What is being asked in a grid."""
        return next((row for row in reversed(self.live) if isinstance(row, Ask)), None)

    @property
    def last(self) -> Ask | Answer | None:
        return next((row for row in reversed(self.live) if isinstance(row, Ask | Answer)), None)

    def asked_in(self, activity: int) -> frozenset[Cell]:
        return frozenset(cell for cell in self.asked if cell.activity == activity)

    def answered_in(self, activities: Container[int]) -> int:
        """How many cells were answered in these activities; not those whose answer was told in the end. In a probe any
        answer is one."""
        told = {cell_of(row) for row in answers_in(self.live) if _is_left_told(row)}
        right = {cell_of(row) for row in answers_in(self.live) if row.right and row.part in CLOSING_PARTS}
        return sum(cell.activity in activities for cell in self.closed - (told - right))

    def closed_in(self, activity: int) -> int:
        """How many cells of this activity are done with."""
        return sum(cell.activity == activity for cell in self.closed)

    def answer(self, id: RowId) -> Answer | None:
        return next((row for row in reversed(self.live) if row.id == id and isinstance(row, Answer)), None)

    @property
    def visit(self) -> tuple[Ask | Answer, ...]:
        """The rows of this visit to the cell being asked, from its first question on."""
        if self.ask is None:
            return ()
        here = cell_of(self.ask)
        rows: list[Ask | Answer] = []
        for row in reversed(self.live):
            if isinstance(row, Ask | Answer) and cell_of(row) == here:
                rows.append(row)
                if isinstance(row, Ask) and opens_visit(row):
                    break
        return tuple(reversed(rows))


def opens_visit(ask: Ask) -> bool:
    """The whole sum, not because of an answer to it: for the first time, or come back to after help."""
    after_an_answer = ask.because is not None and not isinstance(ask.because, Reason)
    opening = (Support.INDEPENDENT, Support.ENCOURAGED)
    return ask.part is Part.WHOLE and ask.support in opening and not after_an_answer


def is_of_talk(row: Row) -> TypeGuard[Ask | Answer]:
    """A talk's rows stand in no cell."""
    return isinstance(row, Ask | Answer) and row.exercise is ExerciseName.PATTERN


def opens_talk(ask: Ask) -> bool:
    return ask.part is Part.LISTEN and ask.support is Support.INDEPENDENT


def is_help(row: Row) -> TypeGuard[Ask]:
    """A question that helps with the one before it."""
    return isinstance(row, Ask) and row.support not in UNAIDED and not opens_visit(row)


def cell_of(row: Ask | Answer) -> Cell:
    return Cell(*row.place, row.activity)


def with_row(progress: Progress, row: Row) -> Progress:
    """The one fold."""
    kept = progress.kept + 1
    if is_of_talk(row):
        return replace(progress, kept=kept, talked=(*progress.talked, row), is_talking=True)
    if isinstance(row, Void):
        return replace(_voided(progress, row.of), kept=kept)
    if isinstance(row, Note) and row.what is NoteKind.WAS_RIGHT and row.of:
        return replace(_judged(progress, row.of, is_right=bool(row.value)), kept=kept)
    return replace(_counted(progress, row), kept=kept, live=(*progress.live, row))


def _refolded(progress: Progress, live: tuple[Row, ...]) -> Progress:
    """What is talked about stays as it is."""
    whole = folded_on(Progress(as_heard=progress.as_heard), live)
    return replace(whole, talked=progress.talked, is_talking=progress.is_talking)


def _judged(progress: Progress, of: RowId, *, is_right: bool) -> Progress:
    """The adult says that an answer was right, or takes that back; what followed from the answer is asked anew."""
    answer = progress.answer(of)
    before = next((one for one in progress.as_heard if one.id == of), answer)
    if answer is None or before is None:
        return progress
    at = progress.live.index(answer)
    gone = gone_with(of, progress.live[at:]) - {of}
    later = tuple(row for row in progress.live[at + 1 :] if row.id not in gone)
    heard = progress if before is not answer else replace(progress, as_heard=(*progress.as_heard, answer))
    return _refolded(heard, (*progress.live[:at], judged_right(before) if is_right else before, *later))


def _voided(progress: Progress, of: RowId) -> Progress:
    talked = tuple(row for row in _without(progress.talked, of) if is_of_talk(row))
    if talked != progress.talked:
        return replace(progress, talked=talked)
    return _refolded(progress, _without(progress.live, of))


def _counted(progress: Progress, row: Row) -> Progress:
    """Counts as rows arrive what every answer looks up, so that an answer costs the same in a long practice. A question
    in the grid ends a talk, and so does the end of a finished practice; one that was stopped goes on next time.
    """
    if isinstance(row, Ask) or (isinstance(row, End) and row.reason is EndReason.FINISHED):
        progress = replace(progress, is_talking=False)
    match row:
        case Ask():
            here, before = cell_of(row), _asked_before(progress)
            is_left = before is not None and row.because is Reason.SKIPPED
            return replace(
                progress,
                asked=progress.asked | {here},
                replied=(*progress.replied, *_replied(progress, row)),
                helped=progress.helped | {here} if is_help(row) else progress.helped,
                left=(*progress.left, cell_of(before)) if before and is_left else progress.left,
            )
        case Answer() if _closes(row):
            closed = progress.closed | {cell_of(row)}
            new = len(closed) - len(progress.closed)
            return replace(progress, closed=closed, closed_since=progress.closed_since + new)
        case End():
            return replace(progress, helped=frozenset(), left=(), closed_since=0)
        case _:
            return progress


def _replied(progress: Progress, ask: Ask) -> tuple[Replied, ...]:
    """Where the question is the first after a wrong whole answer."""
    if ask.form not in _FIRST_AFTER_WRONG or ask.because is None or isinstance(ask.because, Reason):
        return ()
    answer = progress.answer(ask.because)
    if answer is None or answer.part is not Part.WHOLE or answer.right:
        return ()
    return (Replied(deciding_names(answer), ask.part),)


_FIRST_AFTER_WRONG = (Form.AFTER_WRONG, Form.LOOK_AGAIN, Form.TELLING_APART)


def _asked_before(progress: Progress) -> Ask | None:
    """Since the practice began or went on."""
    last = next((row for row in reversed(progress.live) if isinstance(row, Ask | End)), None)
    return last if isinstance(last, Ask) else None


def folded_on(progress: Progress, rows: Iterable[Row]) -> Progress:
    return reduce(with_row, rows, progress)


def folded(rows: Iterable[Row]) -> Progress:
    return folded_on(Progress(), rows)


def answers_in(rows: Iterable[Row]) -> tuple[Answer, ...]:
    return tuple(row for row in rows if isinstance(row, Answer))


def number_before(progress: Progress) -> int | None:
    """The last whole answer before this visit, since the practice began or went on."""
    visit = progress.visit
    if not visit:
        return None
    rows = reversed(progress.live)
    while next(rows) is not visit[0]:
        pass
    for row in rows:
        if isinstance(row, End):
            return None
        if isinstance(row, Answer) and row.part in CLOSING_PARTS:
            return row.given
    return None


def closed_of(plan: Plan, progress: Progress) -> frozenset[Cell]:
    """The closed cells of the plan's own activities, without the facts that its sums led back to."""
    return frozenset(cell for cell in progress.closed if not plan.is_aside(cell))


def right_first_time(plan: Plan, progress: Progress) -> int:
    """Of these, those whose first answer counts for the whole sum, and was right."""
    first: dict[Cell, Answer] = {}
    for answer in answers_in(rows_that_count(progress.live)):
        first.setdefault(cell_of(answer), answer)
    right = {cell for cell, answer in first.items() if answer.right and tells(answer) is Tells.THE_SUM}
    return len(right & closed_of(plan, progress))


def ended(progress: Progress) -> EndReason | None:
    """Why the practice ended, where nothing has been asked since."""
    last = next((row for row in reversed(progress.live) if not isinstance(row, Note)), None)
    return last.reason if isinstance(last, End) else None


def _is_left_told(answer: Answer) -> bool:
    return answer.part in CLOSING_PARTS and answer.support is Support.MODELLED and not answer.right


def _closes(answer: Answer) -> bool:
    """In a probe any answer closes its cell: there is no help and no second try."""
    is_done = answer.right or answer.support is Support.MODELLED or answer.purpose is Purpose.PROBE
    return answer.part in CLOSING_PARTS and is_done


def _without(live: Sequence[Row], of: RowId) -> tuple[Row, ...]:
    """Without the voided answer and all that leads back to it, so that its question stands again."""
    at = next((place for place, row in enumerate(live) if row.id == of), None)
    if at is None:
        return tuple(live)
    gone = gone_with(of, live[at:])
    return (*live[:at], *_without_open_questions([row for row in live[at:] if row.id not in gone]))


def _without_open_questions(rows: list[Row]) -> list[Row]:
    """If nothing has been answered since, the questions asked since are withdrawn."""
    if any(isinstance(row, Answer) for row in rows):
        return rows
    return [row for row in rows if not isinstance(row, Ask)]


def known(plan: Plan, progress: Progress) -> Pupil:
    """After the earlier practices that the plan knows of, and this one so far."""
    return plan.known.after(progress.live)


def known_here(plan: Plan, progress: Progress) -> Pupil:
    """From this practice alone."""
    return plan.known_here.after(progress.live)
