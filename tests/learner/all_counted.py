"""Many answers at once, by the one rule for what counts."""

from collections.abc import Iterable

from saythesum.core.records.rows import Answer
from saythesum.learner.evidence import Unsettled, counted


def all_counted(answers: Iterable[Answer]) -> tuple[Answer, ...]:
    """Those that count, in the order in which they came to count."""
    unsettled: Unsettled = {}
    found: list[Answer] = []
    for answer in answers:
        counts, unsettled = counted(answer, unsettled)
        found += [counts] if counts else []
    return tuple(found)
