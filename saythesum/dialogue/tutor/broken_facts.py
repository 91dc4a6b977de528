"""Back to the fact that broke, and forward again: when a few facts are offered before the next sum.

From the kept rows alone, except that the offer itself is never kept: it belongs to the sum that has just ended.
"""

from collections import Counter
from collections.abc import Iterable

from saythesum.core.aims import Aim
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.grids.facts import place_of
from saythesum.core.records.rows import Answer, Ask, Row
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.tutor.plan import Activity, Plan
from saythesum.dialogue.tutor.progress import Progress, answers_in, ended

EVERY_MISSES = 2
"""So many wrong answers to one kind of step lead back to its facts: our own choice."""


def facts_to_go_back_to(plan: Plan, progress: Progress) -> Activity | None:
    """After a sum that is done with: the facts that broke in it, where this kind of step was missed for the second,
    fourth, … time in this practice, some of those facts are left, and so are sums."""
    ask = progress.ask
    if ask is None or plan.is_aside(ask) or plan.activity_on(ask).aim is not Aim.PRACTISE or ended(progress):
        return None
    if all(cell in progress.closed for cell in plan.activity_on(ask).cells):
        return None
    in_all, here = Counter(_kinds_missed(progress.live)), Counter(_kinds_missed(progress.visit))
    for broken in reversed(list(_missed(progress.visit))):
        skill, is_so = broken.skill, in_all[broken.skill] // EVERY_MISSES
        if is_so > (in_all[skill] - here[skill]) // EVERY_MISSES and (found := _facts(plan, progress, broken)):
            return found
    return None


def is_among_facts(plan: Plan, progress: Progress) -> bool:
    """Whether the sums led back to the facts that are asked now."""
    return progress.ask is not None and plan.is_aside(progress.ask)


def facts_asked_in_a_row(progress: Progress) -> int:
    """Since the sums led back to them."""
    asked = set()
    for row in reversed(progress.live):
        if isinstance(row, Ask) and progress.ask and row.activity != progress.ask.activity:
            break
        if isinstance(row, Ask):
            asked.add(row.place)
    return len(asked)


def _facts(plan: Plan, progress: Progress, broken: Item) -> Activity | None:
    place = place_of(broken)
    if place is None:
        return None
    activity = plan.asides[place]
    return activity if any(cell not in progress.asked for cell in activity.cells) else None


def _kinds_missed(rows: Iterable[Row]) -> list[Skill]:
    return [item.skill for item in _missed(rows)]


def _missed(rows: Iterable[Row]) -> Iterable[Item]:
    """What each wrong answer to a step of a sum was about; a hearing that was not sure is no evidence."""
    for answer in answers_in(rows):
        item = _broken_by(answer)
        if item is not None and place_of(item) is not None:
            yield item


def _broken_by(answer: Answer) -> Item | None:
    """A wrong total closes its cell like a whole answer, and speaks of the whole."""
    if answer.right or answer.part in CLOSING_PARTS or not answer.is_relied_on:
        return None
    return answer.asked.item_of(answer.part)
