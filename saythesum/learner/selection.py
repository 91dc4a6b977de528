"""Which open cell to ask next, and why.

A mix of new, shaky and sure sums keeps the pupil's share of right answers in a band that the adult sets; what was
known weeks ago comes first, what just broke comes soon, and the last cell of a grid is one that will go well.
Sources: interleaving, Rohrer et al. 2014; a larger share of known facts for pupils of low confidence (incremental
rehearsal), Burns et al. 2019; the order of kinds, NCETM topic 1.13.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.skills import Item
from saythesum.core.grids.grid import Cell
from saythesum.errors import CallerError
from saythesum.learner.pupil import Pupil
from saythesum.learner.skills import fact_of, item_of, steps_of, tracing_of
from saythesum.settings import Choosing


@dataclass(frozen=True, slots=True)
class Band:
    """The share of right first answers to aim at, 0 to 1."""

    lowest: float = 0.7
    highest: float = 0.85

    def __post_init__(self) -> None:
        if not 0 <= self.lowest <= self.highest <= 1:
            raise CallerError(
                f"The share of right answers from {self.lowest} to {self.highest} is no band; it runs from a lower "
                "number to a higher one, both from 0 to 1."
            )

    @property
    def middle(self) -> float:
        return (self.lowest + self.highest) / 2


LOW_CONFIDENCE = Band(0.88, 0.95)
"""Nine known sums to one new one."""


def band_of(choosing: Choosing) -> Band:
    if choosing.right_percent:
        lowest, highest = choosing.right_percent
        return Band(lowest / 100, highest / 100)
    return LOW_CONFIDENCE if choosing.confidence == "low" else NO_BAND_SET


class ChoiceReason(StrEnum):
    UPKEEP = "upkeep"
    """Known well, and not asked for some weeks."""
    BROKEN = "broken"
    """It needs what broke a moment ago."""
    EASIER = "easier"
    """Too few were right lately."""
    NEW = "new"
    """The next kind of sum in the order of teaching."""
    SHAKY = "shaky"
    """Tried before, not sure yet."""
    FADING = "fading"
    """Sure once, likely to fade soon."""
    SURE = "sure"
    """Everything open is sure."""
    LAST = "last"
    """Held back so that the grid ends on a success."""
    LED_BACK = "led-back"
    """A fact of the kind that broke in the sums before."""
    TELLING = "telling"
    """Its answer tells most about what a mistake could be."""


@dataclass(frozen=True, slots=True)
class WhyChosen:
    """For the adult and the log: one sentence is made of it."""

    reason: ChoiceReason
    asked: Exercise
    item: Item
    """What it is about: the fact, the bond that broke, the sum in its ten."""
    chance: float
    """Of a right first answer, as expected now."""
    last_asked: date | None
    """The day of the last first answer to this sum."""
    mistakes: tuple[str, ...] = ()
    """Two that its answer tells apart, or the one that it would show again; none where everything is open yet."""
    is_likely: bool = True
    """Of a sum chosen as an easier one: whether it is likely to go well, and not only likelier than all others left."""


@dataclass(frozen=True, slots=True)
class Choice:
    cell: Cell
    why: WhyChosen


@dataclass(frozen=True, slots=True)
class _Open:
    cell: Cell
    asked: Exercise
    chance: float


NO_BAND_SET = Band()
LOOKED_BACK = 8
"""So many of the last answers make the share of right ones."""
HELD_BACK_FROM = 16
"""With so few cells open, the surest is kept for the end. Earlier than in the last few: by then all the sure ones may
have been asked."""
UPKEEP_EVERY = 5
"""While anything is left to learn, at most one question in five is there to keep up what is known."""
LEAST_ALIKE = 3
"""Answers to one kind of sum, before its being missed each time says anything."""
FADING_BELOW = 0.9
"""The recall at which the FSRS model lets a fact come again."""
APART = 3
"""A sum, and its fact, stay away for so many questions where others are open."""
BY_HEART_IF_WORKED_OUT = 0.5
"""Of what is believed of a sum that was worked out the last time, so much is for knowing it by heart."""
FOUND_OUT = 0.05
"""What a first answer is worth for what it tells, beside what may be learned from it. Both are our own choice."""


def choose(pupil: Pupil, open_cells: Mapping[Cell, Exercise], on: date, band: Band = NO_BAND_SET) -> Choice:
    """`open_cells` holds one cell at least; of equals the first in its order is taken."""
    candidates = [_Open(cell, asked, pupil.chance(asked, on)) for cell, asked in open_cells.items()]
    if len(candidates) == 1:
        return _chosen(pupil, candidates[0], ChoiceReason.LAST, fact_of(candidates[0].asked))
    candidates = _apart_from_lately(pupil, _without_last(candidates), on)
    return (
        _to_keep_up(pupil, candidates, on)
        or _easier(pupil, candidates, on, band)
        or _of_what_broke(pupil, candidates, on)
        or _to_learn(pupil, candidates, on, band)
        or _to_remember(pupil, candidates, on)
    )


def why_it_broke(pupil: Pupil, asked: Exercise, on: date) -> WhyChosen:
    """A fact that the sums led back to."""
    return _why(pupil, ChoiceReason.LED_BACK, asked, fact_of(asked), pupil.chance(asked, on))


def why_it_tells_most(pupil: Pupil, asked: Exercise, on: date, mistakes: tuple[str, ...]) -> WhyChosen:
    why = _why(pupil, ChoiceReason.TELLING, asked, fact_of(asked), pupil.chance(asked, on))
    return replace(why, mistakes=mistakes)


def _chosen(pupil: Pupil, one: _Open, reason: ChoiceReason, item: Item) -> Choice:
    return Choice(one.cell, _why(pupil, reason, one.asked, item, one.chance))


def _why(pupil: Pupil, reason: ChoiceReason, asked: Exercise, item: Item, chance: float) -> WhyChosen:
    last = pupil.traces.get(item_of(asked))
    return WhyChosen(reason, asked, item, chance, last.last if last else None)


def _without_last(candidates: list[_Open]) -> list[_Open]:
    if len(candidates) > HELD_BACK_FROM:
        return candidates
    last = max(candidates, key=lambda one: one.chance)
    return [one for one in candidates if one is not last]


def _apart_from_lately(pupil: Pupil, candidates: list[_Open], on: date) -> list[_Open]:
    """Interleaved, where enough is open: no fact twice in a short while, nor a start or an amount twice running."""
    lately = [seen for seen in pupil.recent[-APART:] if seen.on == on]
    facts = {fact_of(seen.asked) for seen in lately}
    others = [one for one in candidates if fact_of(one.asked) not in facts] or candidates
    if not lately:
        return others
    last = lately[-1].asked
    return [one for one in others if one.asked.start != last.start and one.asked.amount != last.amount] or others


def _to_keep_up(pupil: Pupil, candidates: list[_Open], on: date) -> Choice | None:
    """Mixed with the rest: a practice of nothing but what is known long ago would teach little."""
    lately = [seen for seen in pupil.recent[1 - UPKEEP_EVERY :] if seen.on == on]
    return None if any(seen.was_due for seen in lately) else _due(pupil, candidates, on)


def _due(pupil: Pupil, candidates: list[_Open], on: date) -> Choice | None:
    due = [one for one in candidates if (kept := pupil.upkeep.get(item_of(one.asked))) and kept.is_due(on)]
    if not due:
        return None
    one = min(due, key=lambda one: pupil.upkeep[item_of(one.asked)].last)
    return _chosen(pupil, one, ChoiceReason.UPKEEP, fact_of(one.asked))


def _share_right(pupil: Pupil) -> float | None:
    lately = pupil.recent[-LOOKED_BACK:]
    return sum(seen.right for seen in lately) / len(lately) if lately else None


def _easier(pupil: Pupil, candidates: list[_Open], on: date, band: Band) -> Choice | None:
    """Where one more wrong answer would make too few right. Not the easiest of all: of what will likely go well, what
    was worked out the last time, or is not sure yet, and fades soonest."""
    missed = sum(not seen.right for seen in pupil.recent[1 - LOOKED_BACK :])
    if not missed or missed + 1 <= LOOKED_BACK * (1 - band.lowest):
        return None
    likely = [one for one in candidates if one.chance >= band.lowest and not _always_missed(pupil, one.asked)]
    found = [one for one in likely if item_of(one.asked) in pupil.worked_out]
    unsure = [one for one in likely if not pupil.is_sure(item_of(one.asked))]
    one = min(
        found or unsure or likely,
        key=lambda one: (pupil.recall(one.asked, on), _practised(pupil, one)),
        default=max(candidates, key=lambda one: one.chance),
    )
    choice = _chosen(pupil, one, ChoiceReason.EASIER, item_of(one.asked))
    return replace(choice, why=replace(choice.why, is_likely=one in likely))


def _always_missed(pupil: Pupil, asked: Exercise) -> bool:
    """Whether none of its kind was right lately: then none is likely to go well, whatever its steps promise."""
    alike = [seen for seen in pupil.recent if seen.asked.place_in_teaching == asked.place_in_teaching]
    return len(alike) >= LEAST_ALIKE and not any(seen.right for seen in alike)


def _of_what_broke(pupil: Pupil, candidates: list[_Open], on: date) -> Choice | None:
    """The nearest way back to it: of the kinds that need it, the first in the order of teaching.

    A sum that is known by heart does not lead through its steps.
    """
    broken = pupil.broken
    if broken is None:
        return None
    needing = [one for one in candidates if one.asked.needs(broken) and pupil.by_heart(one.asked, on) < 0.5]
    if not needing:
        return None
    one = min(needing, key=lambda one: (one.asked.place_in_teaching, -_gained_by_question(pupil, one)))
    return _chosen(pupil, one, ChoiceReason.BROKEN, broken)


def _to_learn(pupil: Pupil, candidates: list[_Open], on: date, band: Band) -> Choice | None:
    """What is shaky is worked on; something new comes when the share of right answers is in the upper half of the
    band, or when nothing is shaky, and then the first kind in the order of teaching. A sum that was right rests until
    it begins to fade: recalled late, it lasts longer. Of the sums left, the one that is worth most for the questions
    it will take."""
    open_to_learn = [one for one in candidates if not _is_known(pupil, one) and not _rests(pupil, one, on)]
    shaky = [one for one in open_to_learn if not _is_new(pupil, one)]
    share = _share_right(pupil)
    if shaky and share is not None and share <= band.middle:
        return _worth_most(pupil, shaky)
    new = [one for one in open_to_learn if _is_new(pupil, one)]
    first = min((one.asked.place_in_teaching for one in new), default=0)
    able = shaky + [one for one in new if one.asked.place_in_teaching == first]
    hard = [one for one in able if one.chance < band.lowest]
    return _worth_most(pupil, hard or able) if able else None


def _worth_most(pupil: Pupil, able: list[_Open]) -> Choice:
    one = max(able, key=lambda one: _gained_by_question(pupil, one))
    return _chosen(pupil, one, ChoiceReason.NEW if _is_new(pupil, one) else ChoiceReason.SHAKY, item_of(one.asked))


def _to_remember(pupil: Pupil, candidates: list[_Open], on: date) -> Choice:
    """Everything open is known, or too fresh to be asked again."""
    due = _due(pupil, candidates, on)
    if due:
        return due
    fading = [one for one in candidates if not _rests(pupil, one, on)]
    unsure = [one for one in candidates if not _is_known(pupil, one)]
    one = min(fading or unsure or candidates, key=lambda one: pupil.recall(one.asked, on))
    return _chosen(pupil, one, ChoiceReason.FADING if fading else ChoiceReason.SURE, fact_of(one.asked))


def _gained_by_question(pupil: Pupil, one: _Open) -> float:
    """What is expected to be learned from a sum, for each question that it is expected to take.

    A right answer may settle the sum; a wrong one leads through its steps, each a question, and may settle those.
    So a sum with several shaky steps is worth its many questions, and one that is known is worth none.
    """
    item = item_of(one.asked)
    missed = 1 - one.chance
    gained = (1 - _known_by_heart(pupil, item)) * tracing_of(item).learned_each_time
    for step in steps_of(one.asked):
        gained += missed * (1 - pupil.belief(step).known) * tracing_of(step).learned_each_time
    if not _practised(pupil, one):
        gained += FOUND_OUT
    return gained / (1 + missed * len(one.asked.parts))


def _known_by_heart(pupil: Pupil, item: Item) -> float:
    known = pupil.belief(item).known
    return known * BY_HEART_IF_WORKED_OUT if item in pupil.worked_out else known


def _rests(pupil: Pupil, one: _Open, on: date) -> bool:
    return _practised(pupil, one) > 0 and pupil.recall(one.asked, on) >= FADING_BELOW


def _is_known(pupil: Pupil, one: _Open) -> bool:
    """Sure, and not because it can be worked out."""
    item = item_of(one.asked)
    return pupil.is_sure(item) and item not in pupil.worked_out


def _is_new(pupil: Pupil, one: _Open) -> bool:
    return item_of(one.asked) not in pupil.traces


def _practised(pupil: Pupil, one: _Open) -> float:
    return pupil.belief(item_of(one.asked)).answers
