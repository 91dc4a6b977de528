"""What an adult marks in their turn, by digits. Nothing of it is said; the same digit again takes it back."""

from dataclasses import replace

from saythesum.core.records.marks import COUNTS, FROM_HERE, KINDS, LONGER, NOTES, YES, Mark, newest
from saythesum.core.records.rows import Answer, Note, NoteKind, Reason, Row, RowId, Void, VoidReason
from saythesum.dialogue.turns.stack import AdultsTurn
from saythesum.dialogue.turns.turn import Swap, Turn
from saythesum.dialogue.tutor.next_cell import Chosen, NothingLeft, cell_asked, next_cell
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, answers_in, cell_of
from saythesum.settings import Waits

LONGEST_WAIT_MS = 60_000
_SETTINGS = {Mark.WAITS: LONGER, Mark.NOT_COUNTED: FROM_HERE}
"""Marks of what comes, not of an answer."""


def marked(plan: Plan, progress: Progress, topic: AdultsTurn, digit: int) -> Turn:
    """A digit that stands for nothing changes nothing."""
    if topic.open is not None:
        return _kind_marked(plan, progress, topic, topic.open, digit)
    mark = mark_of(digit)
    if mark is None:
        return Turn()
    match mark:
        case Mark.HELPED | Mark.WORKED_WITH | Mark.WAY:
            return Turn(Swap(replace(topic, open=mark))) if last_answer(progress) else Turn()
        case Mark.NOT_SAID:
            return _not_said(plan, progress, topic)
        case Mark.SKIP:
            return _skipped(plan, progress, topic)
        case Mark.WAS_RIGHT:
            answer = last_answer(progress)
            is_needed = answer is not None and (not answer.right or is_on(progress, topic, mark))
            return _noted(plan, progress, topic, mark, YES) if is_needed else Turn()
        case Mark.WAITS | Mark.NOT_COUNTED:
            return _noted(plan, progress, topic, mark, _SETTINGS[mark])


def mark_of(digit: int) -> Mark | None:
    marks = tuple(Mark)
    return marks[digit - 1] if 1 <= digit <= len(marks) else None


def last_answer(progress: Progress) -> Answer | None:
    """What the marks are about."""
    answers = answers_in(progress.live)
    return answers[-1] if answers else None


def value_of(progress: Progress, mark: Mark) -> str:
    """The value that holds now; "" where it is not marked."""
    of = _about(progress, mark)
    value = newest(progress.live, NOTES[mark], of) if mark in _SETTINGS or of else None
    return "" if value in (None, COUNTS) else str(value)


def is_on(progress: Progress, topic: AdultsTurn, mark: Mark) -> bool:
    match mark:
        case Mark.NOT_SAID:
            return topic.taken_back is not None
        case Mark.SKIP:
            return topic.skipped is not None
        case Mark.WAS_RIGHT:
            answer = last_answer(progress)
            return answer is not None and any(one.id == answer.id for one in progress.as_heard) and answer.right
        case _:
            return value_of(progress, mark) != ""


def waits_of(plan: Plan, progress: Progress) -> Waits:
    """Twice as long as the settings say, where the adult wished for it."""
    usual = plan.settings.waits
    if value_of(progress, Mark.WAITS) != LONGER:
        return usual
    return replace(
        usual,
        said_back_ms=_longer(usual.said_back_ms),
        after_number_ms=_longer(usual.after_number_ms),
        after_bare_ten_ms=_longer(usual.after_bare_ten_ms),
        counting_ms=_longer(usual.counting_ms),
        after_other_ms=_longer(usual.after_other_ms),
    )


def _longer(ms: int | None) -> int | None:
    return None if ms is None else min(2 * ms, LONGEST_WAIT_MS)


def not_counted(progress: Progress, answer: Answer, id: RowId) -> Note | None:
    """What is kept beside an answer after the adult has said that the practice does not count from here."""
    return Note(id, answer.id, NoteKind.NOT_COUNTED, "") if value_of(progress, Mark.NOT_COUNTED) else None


def _about(progress: Progress, mark: Mark) -> RowId | None:
    answer = None if mark in _SETTINGS else last_answer(progress)
    return answer.id if answer else None


def _kind_marked(plan: Plan, progress: Progress, topic: AdultsTurn, mark: Mark, digit: int) -> Turn:
    """0 goes back to the list."""
    closed = replace(topic, open=None)
    kinds = KINDS[mark]
    if digit == 0:
        return Turn(Swap(closed))
    if digit > len(kinds):
        return Turn()
    return _noted(plan, progress, closed, mark, kinds[digit - 1])


def _noted(plan: Plan, progress: Progress, topic: AdultsTurn, mark: Mark, value: str) -> Turn:
    off = COUNTS if mark is Mark.NOT_COUNTED else ""
    standing = YES * is_on(progress, topic, mark) if mark is Mark.WAS_RIGHT else value_of(progress, mark)
    new = off if standing == value else value
    note = Note(plan.next_id(progress.kept), _about(progress, mark), NOTES[mark], new)
    return Turn(Swap(topic), keep=(note,))


def _not_said(plan: Plan, progress: Progress, topic: AdultsTurn) -> Turn:
    """A void is permanent: an answer that was said after all is kept once more, the same in all but its place."""
    id = plan.next_id(progress.kept)
    if topic.taken_back:
        again: Row = replace(topic.taken_back, id=id)
        return Turn(Swap(replace(topic, taken_back=None)), keep=(again,))
    answer = last_answer(progress)
    if answer is None:
        return Turn()
    return Turn(Swap(replace(topic, taken_back=answer)), keep=(Void(id, answer.id, VoidReason.NOT_SAID),))


def _skipped(plan: Plan, progress: Progress, topic: AdultsTurn) -> Turn:
    if topic.skipped:
        back = cell_asked(plan, progress, topic.skipped, Reason.MOVED)
        return Turn(Swap(replace(topic, skipped=None)), keep=(back,))
    ask = progress.ask
    next = next_cell(plan, progress, Reason.SKIPPED)
    if ask is None or ask.row is None or isinstance(next, NothingLeft):
        return Turn()
    asked = next.ask if isinstance(next, Chosen) else next
    return Turn(Swap(replace(topic, skipped=cell_of(ask))), keep=(asked,))
