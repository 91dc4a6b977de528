"""What the kept rows tell of the pupil by now, from the rows alone."""

from saythesum.dialogue.plan import Plan
from saythesum.dialogue.progress import Progress
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, Record, with_rows


def known(plan: Plan, progress: Progress) -> Pupil:
    """After the earlier practices that the plan knows of, and this one so far."""
    return _after(plan.before, plan, progress)


def known_here(plan: Plan, progress: Progress) -> Pupil:
    """From this practice alone."""
    return _after(Record(), plan, progress)


def _after(before: Record, plan: Plan, progress: Progress) -> Pupil:
    return with_rows(before, (Kept(row, plan.began_at, plan.known_grid) for row in progress.live)).pupil
