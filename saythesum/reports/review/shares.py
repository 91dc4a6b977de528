"""Shares of unaided first answers: by skill, by ones fact, and by what was different on the day."""

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import TypeVar

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.sums import Bridge, ExerciseName, Hidden, Kind
from saythesum.reports.review.facts import Fact
from saythesum.reports.share import Share

SECURE_OF = 10
"""First answers on a day that the criterion looks at, at least. Our own choice."""
SECURE_SHARE = 0.9
SECURE_DAYS = 3
"""Source: criteria of 90 % and more over three days were kept up to a month, 80 % was not (Longino et al. 2021; Fuller
and Fienup)."""

K = TypeVar("K")

_KINDS = {Kind.CROSSING: "across a ten", Kind.LANDING: "onto a ten", Kind.WITHIN: "within a ten"}
_FACTS = {
    ExerciseName.BOND: "Bonds to ten",
    ExerciseName.NEXT_TEN: "Next tens",
    ExerciseName.TEN_AND_ONES: "A ten and ones",
    ExerciseName.SPLIT: "Splitting a number",
    ExerciseName.ONE_MORE: "One more",
    ExerciseName.FACT: "Sums of two ones",
}
_HIDDEN = {Hidden.TOTAL: "", Hidden.AMOUNT: ", the amount missing", Hidden.START: ", the start missing"}


@dataclass(frozen=True, slots=True)
class SkillShare:
    skill: str
    share: Share
    days: int
    """Days with SECURE_SHARE of SECURE_OF first answers or more right unaided."""

    @property
    def is_secure(self) -> bool:
        return self.days >= SECURE_DAYS


@lru_cache(maxsize=4096)
def skill_said(asked: Exercise) -> str:
    name = asked.key.name
    if name in _FACTS:
        return _FACTS[name]
    what = f"{asked.operator.doing[:1].upper()}{asked.operator.doing[1:]}"
    way = asked.total_asked
    kind = f" {_KINDS[way.kind]}" if isinstance(way, Bridge) else ""
    return f"{what}{kind}{_HIDDEN[asked.key.hidden]}"


def by_skill(facts: Iterable[Fact]) -> tuple[SkillShare, ...]:
    """In the order in which schools teach them."""
    groups = _grouped(facts, lambda one: skill_said(one.asked))
    order = {name: min(one.asked.place_in_teaching for one in some) for name, some in groups.items()}
    return tuple(
        SkillShare(name, right_unaided(groups[name]), _secure_days(groups[name]))
        for name in sorted(groups, key=lambda name: (order[name], name))
    )


def newest_of_each_skill(facts: Iterable[Fact], most: int) -> tuple[Fact, ...]:
    groups = _grouped(facts, lambda one: skill_said(one.asked))
    return tuple(one for some in groups.values() for one in some[-most:])


def by_ones_fact(facts: Iterable[Fact]) -> dict[tuple[str, int, int], Share]:
    """By operation, the start's ones, and the amount: what a sum rests on, whatever its tens."""
    sums = (one for one in facts if isinstance(one.asked, Bridge) and one.answer.hidden is Hidden.TOTAL)
    groups = _grouped(sums, lambda one: (one.answer.operation, one.answer.start % 10, one.answer.amount))
    return {key: right_unaided(groups[key]) for key in sorted(groups)}


def by_way(facts: Iterable[Fact]) -> dict[str, Share]:
    return _shares(facts, lambda one: one.answer.by.value)


def by_print_size(facts: Iterable[Fact]) -> dict[str, Share]:
    return _shares(facts, lambda one: f"size {one.print_size}")


def by_rate(facts: Iterable[Fact]) -> dict[str, Share]:
    return _shares(facts, lambda one: f"{one.rate_wpm} words a minute")


def by_week(facts: Iterable[Fact]) -> dict[date, Share]:
    """By the Monday of each week."""
    return _shares(facts, lambda one: monday(one.day))


def by_day(facts: Iterable[Fact]) -> dict[date, Share]:
    return _shares(facts, lambda one: one.day)


def monday(day: date) -> date:
    return date.fromordinal(day.toordinal() - day.weekday())


def right_unaided(facts: Iterable[Fact]) -> Share:
    some = list(facts)
    return Share(sum(one.is_right_unaided for one in some), len(some))


def _secure_days(facts: Iterable[Fact]) -> int:
    return sum(day.of >= SECURE_OF and day.right >= SECURE_SHARE * day.of for day in by_day(facts).values())


def _shares(facts: Iterable[Fact], key: Callable[[Fact], K]) -> dict[K, Share]:
    groups = _grouped(facts, key)
    return {name: right_unaided(groups[name]) for name in sorted(groups, key=str)}


def _grouped(facts: Iterable[Fact], key: Callable[[Fact], K]) -> dict[K, list[Fact]]:
    groups: dict[K, list[Fact]] = defaultdict(list)
    for one in facts:
        groups[key(one)].append(one)
    return groups
