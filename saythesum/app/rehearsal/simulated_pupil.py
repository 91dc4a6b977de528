"""What a made-up pupil knows, forgets, mistakes and lets slip, from question to question: seeded.

It does not use the learner's own model, which is tested on it: a thing is known or not, a memory decays with a
half-life that grows more the later it is recalled, and help teaches by chance. It is not evidence about children.
"""

from dataclasses import dataclass, field
from datetime import date, timedelta
from random import Random
from typing import Any, NamedTuple

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.core.mistakes.pattern import Mistake, Occasion, Pattern
from saythesum.core.sums import Part
from saythesum.learner.skills import fact_of, item_of, steps_of

SLIPS = 0.05
HEART_MS, STEPS_MS = 2000, 7000
"""Typical times to an answer known by heart, and to one found by its steps."""
TAUGHT = 0.4
"""How often help with a step is enough to know it from then on."""
FOUND = 0.5
"""How often a sum that was found by its steps is known by heart afterwards."""
TOLD = 0.25
"""How often a sum that was worked through with help is."""
CARRIED = 0.3
"""How often a fact that becomes known in one ten is known in another at once."""
FIRST_HALF_LIFE_DAYS, LONGEST_HALF_LIFE_DAYS = 4.0, 120.0
GROWS = 3.0
"""Recalled just before it is lost, a memory lasts four times as long; recalled at once, no longer (spacing: Cepeda et
al. 2008)."""


@dataclass(frozen=True, slots=True)
class Makeup:
    """What a pupil is made of at first."""

    by_heart: float = 1.0
    """The share of the sums that come to mind."""
    steps: float = 1.0
    """The share of the steps that are known: each bond, each way to split an amount, the next ten, joining."""
    slips: float = SLIPS
    broken: tuple[Skill, ...] = ()
    """Of these kinds no step is known at first."""
    mistakes: tuple[Mistake | Pattern[Any], ...] = ()
    """Made in every whole answer that can show one and does not come to mind; of two, one or the other by chance."""
    learns: bool = False
    forgets: bool = False
    days_away: int = 0
    """Since all of it was last in use."""


class Said(NamedTuple):
    given: int
    took_ms: int


@dataclass(slots=True)
class Memory:
    last: date
    half_life_days: float


@dataclass(slots=True)
class Mind:
    makeup: Makeup
    seed: str
    began: date
    """The day on which it is as it was made."""
    _memories: dict[Item, Memory | None] = field(default_factory=dict)
    _dice: Random = field(init=False)

    def __post_init__(self) -> None:
        self._dice = Random(self.seed)  # noqa: S311  made-up pupils come again with their seed

    def knows(self, item: Item) -> bool:
        return self._memory(item) is not None

    def recall(self, item: Item, on: date) -> float:
        """The chance that it comes to mind."""
        memory = self._memory(item)
        if memory is None:
            return 0.0
        return 0.5 ** ((on - memory.last).days / memory.half_life_days) if self.makeup.forgets else 1.0

    def answer(self, asked: Exercise, part: Part, on: date) -> Said:
        """To the whole sum, or to the one step that was asked for."""
        if part is Part.WHOLE and asked.step_items == (item_of(asked),):
            return self._known_or_not(asked.total, item_of(asked), on)  # a fact is a step by itself
        return self._whole(asked, on) if part is Part.WHOLE else self._step(asked, part, on)

    def say_after(self, asked: Exercise, on: date) -> Said:
        """The answer to a sum that was worked through aloud to its end just now."""
        self._learn(asked, on, TOLD)
        return self._said(asked.total, HEART_MS)

    def _whole(self, asked: Exercise, on: date) -> Said:
        fact = item_of(asked)
        if self._recalls(fact, on):
            self._strengthen(fact, on, is_recalled=True)
            return self._said(asked.total, HEART_MS)
        if shown := self._shown(asked):
            return self._said(self._dice.choice(self._dice.choice(shown)), HEART_MS)
        if not all(self._recalls(step, on) for step in steps_of(asked)):
            return Said(self._beside(asked.total), self._took_ms(HEART_MS))
        self._learn(asked, on, FOUND)
        return self._said(asked.total, STEPS_MS)

    def _shown(self, asked: Exercise) -> list[list[int]]:
        """For each mistake that shows in this question, the numbers it gives."""
        occasion = Occasion(asked)
        patterns = {pattern.name: pattern for pattern in asked.patterns}
        made = [patterns[mistake.name] for mistake in self.makeup.mistakes if mistake.name in patterns]
        numbers = (
            [
                number
                for number in pattern.gives(occasion)
                if number <= LARGEST_NUMBER and pattern.fits(occasion, number)
            ]
            for pattern in made
        )
        return [given for given in numbers if given]

    def _step(self, asked: Exercise, part: Part, on: date) -> Said:
        """With the last one the sum has been worked through."""
        item = asked.item_of(part)
        if item is None:
            return self._told_apart(asked, part)
        said = self._known_or_not(asked.answer_to(part), item, on)
        if part is Part.TOTAL:
            self._learn(asked, on, TOLD)
        return said

    def _known_or_not(self, right: int, item: Item, on: date) -> Said:
        is_recalled = self._recalls(item, on)
        said = self._said(right, HEART_MS) if is_recalled else Said(self._beside(right), self._took_ms(HEART_MS))
        if said.given == right or self._happens(TAUGHT):
            self._strengthen(item, on, is_recalled=is_recalled)
        return said

    def _told_apart(self, asked: Exercise, part: Part) -> Said:
        """A question that only tells mistakes apart: the mistake shows where it can, anybody else knows it."""
        shown = [given for mistake in self.makeup.mistakes if (given := asked.foretold(mistake.name, part))]
        meant = self._dice.choice(self._dice.choice(shown)) if shown else asked.answer_to(part)
        return self._said(meant, HEART_MS)

    def _said(self, meant: int, usual_ms: int) -> Said:
        given = self._beside(meant) if self._happens(self.makeup.slips) else meant
        return Said(given, self._took_ms(usual_ms))

    def _beside(self, right: int) -> int:
        """Another number: often one or two beside, seldom a ten beside, now and then any."""
        steps = self._dice.choices((1, -1, 2, -2, 10, -10, 0), (6, 6, 2, 2, 2, 2, 2))[0]
        given = max(right + steps, 0) if steps else self._dice.randrange(200)
        return given if given != right else right + 1

    def _took_ms(self, usual_ms: int) -> int:
        return round(usual_ms * self._dice.lognormvariate(0, 0.4))

    def _happens(self, chance: float) -> bool:
        return self._dice.random() < chance

    # ---- memory

    def _memory(self, item: Item) -> Memory | None:
        """What was known at first hangs on seed and item, not on what is asked when."""
        if item not in self._memories:
            dice = Random(f"{self.seed} {item.skill} {item.numbers}")  # noqa: S311
            share = self._share_known(item.skill)
            last = self.began - timedelta(days=self.makeup.days_away)
            is_known = dice.random() < share
            self._memories[item] = Memory(last, FIRST_HALF_LIFE_DAYS * dice.uniform(0.5, 4)) if is_known else None
        return self._memories[item]

    def _share_known(self, skill: Skill) -> float:
        if skill in self.makeup.broken:
            return 0.0
        return self.makeup.by_heart if skill is Skill.IN_DECADE else self.makeup.steps

    def _recalls(self, item: Item, on: date) -> bool:
        recall = self.recall(item, on)
        return recall > 0 and (recall == 1 or self._happens(recall))

    def _strengthen(self, item: Item, on: date, *, is_recalled: bool) -> None:
        """Learned anew, recalled, or lost and learned again: then half as lasting as it was."""
        if not self.makeup.learns:
            return
        memory = self._memory(item)
        if memory is None:
            self._memories[item] = Memory(on, FIRST_HALF_LIFE_DAYS)
        elif not is_recalled:
            self._memories[item] = Memory(on, max(memory.half_life_days / 2, FIRST_HALF_LIFE_DAYS))
        else:
            forgotten = 1 - self.recall(item, on)
            grown = min(memory.half_life_days * (1 + GROWS * forgotten), LONGEST_HALF_LIFE_DAYS)
            self._memories[item] = Memory(on, grown)

    def _learn(self, asked: Exercise, on: date, chance: float) -> None:
        if not (self.makeup.learns and self._happens(chance)):
            return
        self._strengthen(item_of(asked), on, is_recalled=False)
        fact = fact_of(asked)
        if item_of(asked).skill is not Skill.IN_DECADE:
            return
        for ten in range(1, 10):
            other = Item(Skill.IN_DECADE, (*fact.numbers, ten), fact.of)
            if not self.knows(other) and self._happens(CARRIED):
                self._strengthen(other, on, is_recalled=False)
