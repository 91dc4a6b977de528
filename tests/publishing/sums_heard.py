"""Which sum a sound says, of all 1,620 sums of a two-digit start, by the embedded engine: the sums as a closed set."""

from functools import cache

from saythesum.core.exercises.registry import exercise
from saythesum.core.meanings import Number
from saythesum.hearing.embedded.beam_search import searched_between
from saythesum.hearing.embedded.moonshine import embedded_model
from saythesum.hearing.embedded.recogniser import with_quiet_end
from saythesum.hearing.embedded.trie import Node, grown
from saythesum.ports import Samples
from saythesum.wording.speak.exercises.said_exercises import words_of

SUMS = tuple(
    exercise(operation, start, amount)
    for operation in ("add", "take")
    for start in range(10, 100)
    for amount in range(1, 10)
)


def sum_heard(samples: Samples) -> str | None:
    """In signs; None where none of them fits at all. `samples`: at the rate of listening."""
    utterance = embedded_model().encode(with_quiet_end(samples))
    found = searched_between(utterance, _tree(), ())
    if not found:
        return None
    best = max(found, key=lambda meaning: found[meaning])
    assert isinstance(best, Number)
    return SUMS[best.value].shown


@cache
def _tree() -> Node:
    spelled = ((words_of(one).whole(one).replace("-", " "), Number(place)) for place, one in enumerate(SUMS))
    return grown(spelled, embedded_model().pieces)
