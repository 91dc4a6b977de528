"""What the last practice whose purpose was to find out has found, told again to the adult."""

from collections.abc import Iterator

from saythesum.app.session.summary_for_adult import HEADING, what_was_found
from saythesum.app.setup.folders import own_places
from saythesum.app.setup.planning import plan_of
from saythesum.core.aims import Aim
from saythesum.dialogue.tutor.progress import folded
from saythesum.store.pupils import pupil_code
from saythesum.store.records import SqliteStore
from saythesum.wording.for_adults.days import day_said


def found_before(given: str) -> Iterator[str]:
    """`given`: a pupil's code. Raises CallerError where it is none."""
    pupil, own = pupil_code(given), own_places()
    store = SqliteStore(own.records_file)
    try:
        ids = store.practices(pupil, aim=Aim.FIND_OUT)
        if not ids:
            yield f"Nothing was found out with {pupil} yet: practise with --find-out first."
            return
        stored = store.practice(ids[-1])
        plan = plan_of(stored, store, own.snapshots(pupil))
        yield HEADING
        yield f"Found out on {day_said(plan.began_at.date())}:"
        yield from what_was_found(plan, folded(stored.rows))
    finally:
        store.close()
