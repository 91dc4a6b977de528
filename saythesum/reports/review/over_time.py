"""What was kept after weeks, and how long answers take, within one way of answering."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date
from statistics import quantiles

from saythesum.core.records.rows import Purpose
from saythesum.reports.review.facts import Fact
from saythesum.reports.review.shares import right_unaided
from saythesum.reports.share import Share

WEEKS = (2, 4)
"""Without the same sum in between. Source: maintenance probes after weeks, as in the studies of mastery criteria."""
FEWEST_TIMES = 8


def kept_after(firsts: Sequence[Fact], weeks: int, since: date) -> Share:
    """First answers from `since` on to sums that had been right unaided before and were not asked for so long."""
    last: dict[object, Fact] = {}
    asked_again = []
    for one in firsts:
        before = last.get(one.answer.key)
        if before and before.is_right_unaided and (one.day - before.day).days >= 7 * weeks and one.day >= since:
            asked_again.append(one)
        last[one.answer.key] = one
    return right_unaided(asked_again)


def seconds_by_way(facts: Iterable[Fact]) -> dict[tuple[str, str], tuple[float, float, float, int]]:
    """Quartiles of seconds to a right unaided first answer, and how many: by way and month. Few times say nothing."""
    times: dict[tuple[str, str], list[float]] = defaultdict(list)
    for one in facts:
        took_ms = one.answer.took_ms
        if took_ms is not None and one.is_right_unaided and one.answer.purpose is Purpose.PRACTICE:
            times[one.answer.by.value, f"{one.day:%Y-%m}"].append(took_ms / 1000)
    return {
        key: (*quantiles(times[key], n=4, method="inclusive"), len(times[key]))  # type: ignore[misc]
        for key in sorted(times)
        if len(times[key]) >= FEWEST_TIMES
    }
