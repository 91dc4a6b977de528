"""Where several sums in a row did not go well, from the kept rows alone: then something easier comes, or a rest."""

from collections.abc import Iterator

from saythesum.core.records.rows import UNAIDED, Answer, Ask, Support
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.tutor.progress import Progress, answers_in, cell_of, opens_visit

MOST_WORKED = 2
"""Sums in a row that ended in the worked line."""
MOST_MISSED = 5
"""Wrong whole answers since one was right unaided. Both are our own choice."""
EVERY_REST = 3
"""Every third time a rest is offered in place of an easier sum."""

Visit = list[Ask | Answer]


def hard_goings(progress: Progress) -> int:
    """How often it was hard going in this practice, if it was so once more in the visit that has just ended; else 0."""
    if not any(_is_hard(row) for row in progress.visit):
        return 0
    times = worked = missed = 0
    was_just_now = False
    for visit in visits(progress):
        worked = worked + 1 if any(_is_worked(row) for row in visit) else 0
        missed = 0 if _went_well(visit) else missed + sum(_is_missed(row) for row in visit)
        was_just_now = worked >= MOST_WORKED or missed >= MOST_MISSED
        if was_just_now:
            times, worked, missed = times + 1, 0, 0
    return times if was_just_now else 0


def _is_hard(row: Ask | Answer) -> bool:
    return _is_worked(row) or _is_missed(row)


def _is_worked(row: Ask | Answer) -> bool:
    return isinstance(row, Ask) and row.support is Support.MODELLED


def _is_missed(row: Ask | Answer) -> bool:
    return isinstance(row, Answer) and not row.right and row.part in CLOSING_PARTS


def _went_well(visit: Visit) -> bool:
    first = next(iter(answers_in(visit)), None)
    return first is not None and first.right and first.support in UNAIDED


def visits(progress: Progress) -> Iterator[Visit]:
    """Each with its questions and answers. A question that is only said again goes on with its visit."""
    visit: Visit = []
    for row in progress.live:
        if isinstance(row, Ask) and opens_visit(row) and visit:
            yield visit
            visit = []
        if isinstance(row, Ask) or (isinstance(row, Answer) and visit and cell_of(row) == cell_of(visit[0])):
            visit.append(row)
    if visit:
        yield visit
