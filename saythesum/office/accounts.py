"""What came of an operation, in sentences: the same ones for the verb and the desk."""

from collections.abc import Iterator

from saythesum.office.erasing import Erased
from saythesum.office.taking_in import TakenIn

NOT_REMOVED = "Not removed: files of records, logs and reports that you saved elsewhere, and the school's own backups."


def account_of_taking_in(came: TakenIn, *, would: bool) -> Iterator[str]:
    """`would`: nothing has come in yet."""
    added = came.added
    begins = "Would come in" if would else "Came in"
    yield (
        f"{begins}: {_count(added.practices, 'practice')}, {_count(added.rows, 'row')}, "
        f"{_count(added.moves, 'move')}, {_count(added.entries, 'target or change', 'targets and changes')}."
    )
    if came.known_here:
        yield f"Here before, and joined: {', '.join(came.known_here)}."
    if would and came.erased_here:
        yield f"Erased here before: {', '.join(came.erased_here)}. Say so if they are to come back."
    for id in added.forked:
        yield f"The practice {id} went on differently on two computers: the later way is kept as a practice of its own."
    for id in added.refused:
        yield f"The practice {id} is another one here, or damaged: nothing of it came in."
    for id, code in added.other_pupil:
        yield f"The practice {id} is of {code} here, and stays so."
    if came.other_settings:
        yield f"Other settings here, which stay: {', '.join(came.other_settings)}."
    if came.other_grids:
        yield f"Other grids of these names here, which stay: {', '.join(came.other_grids)}."
    yield from came.unreadable


def account_of_erasing(came: Erased, *, would: bool) -> Iterator[str]:
    begins = "Would be erased" if would else "Erased"
    yield (
        f"{begins} of {came.code}: {_count(came.practices, 'practice')}, {_count(came.rows, 'row')}, "
        f"{_count(came.entries, 'target or change', 'targets and changes')}."
    )
    for file in came.files:
        yield f"{begins}: {file}"
    for plan in came.plans:
        yield f"{begins} from the plan {plan}"
    yield NOT_REMOVED


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or f'{one}s'}"
