"""Where a target stands: on which days it was met."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from saythesum.reports.review.facts import Fact
from saythesum.reports.review.shares import by_day, skill_said
from saythesum.reports.review.source import TargetSet
from saythesum.reports.share import Share


@dataclass(frozen=True, slots=True)
class Standing:
    target: TargetSet
    is_matched: bool
    """Whether its sums could be told from all others: by a grid's title or a skill's name."""
    days: tuple[tuple[date, Share], ...]
    """With as many first answers as the target speaks of, or more."""

    @property
    def met(self) -> tuple[date, ...]:
        return tuple(day for day, share in self.days if share.right * self.target.of >= self.target.right * share.of)


def standing(target: TargetSet, firsts: Sequence[Fact]) -> Standing:
    """`firsts`: of the days to be looked at. What was done before the target was set is no step towards it."""
    since = [one for one in firsts if one.day >= target.at.date()]
    wanted = target.sums.lower().strip()
    matching = [one for one in since if wanted in (one.title.lower(), skill_said(one.asked).lower())] or [
        one for one in since if wanted and wanted in skill_said(one.asked).lower()
    ]
    days = by_day(matching or since)
    enough = tuple((day, share) for day, share in days.items() if share.of >= target.of)
    return Standing(target, bool(matching), enough)
