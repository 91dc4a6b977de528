"""Which answers say something about a mistake, and how often each pattern fits.

A count proves nothing: several patterns often give the same number. It is what a report may build on.
"""

from collections import Counter
from collections.abc import Iterable

from saythesum.core.records.rows import Answer, By, Row


def evidence(live: Iterable[Row]) -> tuple[Answer, ...]:
    """The wrong answers that count, in order. `live` are the rows that no void has reached.

    An answer heard with others close to it does not count until the same number comes again in its cell; nor does an
    unsure answer to a part, which was only followed.
    """
    given_before: set[tuple[int, int, int]] = set()
    counted: list[Answer] = []
    for answer in live:
        if not isinstance(answer, Answer):
            continue
        here = (*answer.place, answer.given)
        is_plain = answer.by is not By.VOICE or not answer.close_to or here in given_before
        if answer.is_relied_on and not answer.right and is_plain:
            counted.append(answer)
        given_before.add(here)
    return tuple(counted)


def mistake_counts(live: Iterable[Row]) -> Counter[str]:
    """How many of the answers that count each mistake fits, by the mistake's name."""
    return Counter(name for answer in evidence(live) for name in answer.could_be)
