"""What the kept rows tell of the pupil by now, from the rows alone."""

from saythesum.dialogue.plan import Plan
from saythesum.dialogue.progress import Progress
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, with_rows


def known(plan: Plan, progress: Progress) -> Pupil:
    """After the earlier practices that the plan knows of, and this one so far."""
    return with_rows(plan.before, (Kept(row, plan.began_at, plan.grid) for row in progress.live)).pupil
