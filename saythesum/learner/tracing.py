"""Knowledge tracing: how sure it is that a skill is known, from right and wrong first answers.

Source: Corbett and Anderson 1995, "Knowledge tracing: modeling the acquisition of procedural knowledge", User
Modeling and User-Adapted Interaction 4, 253-278.
"""

from dataclasses import dataclass
from math import sqrt
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Tracing:
    """The four probabilities of one kind of skill."""

    known_at_first: float
    learned_each_time: float
    slip: float
    """Wrong though known."""
    guess: float
    """Right though not known."""

    def __post_init__(self) -> None:
        for name in ("known_at_first", "learned_each_time", "slip", "guess"):
            if not 0 <= getattr(self, name) <= 1:
                raise ValueError(f"{name} is {getattr(self, name)}; a probability is from 0 to 1")
        if self.slip + self.guess >= 1:
            raise ValueError("slip and guess together must be below 1, or a right answer would lower the belief")


class Belief(NamedTuple):
    known: float
    """The probability that the skill is known, 0 to 1."""
    answers: float = 0.0
    """How many answers it rests on, each by how much it tells."""

    @property
    def doubt(self) -> float:
        """The standard deviation of known or not known: 0 where it is certain, 0.5 where it is open."""
        return sqrt(self.known * (1 - self.known))


def chance_right(known: float, tracing: Tracing) -> float:
    return known * (1 - tracing.slip) + (1 - known) * tracing.guess


def given_answer(known: float, tracing: Tracing, *, right: bool) -> float:
    """The belief after seeing the answer, before anything is learned from it."""
    seen = chance_right(known, tracing)
    if right:
        return known * (1 - tracing.slip) / seen if seen else known
    return known * tracing.slip / (1 - seen) if seen < 1 else known


def stepped(known: float, tracing: Tracing, *, right: bool, weight: float = 1.0) -> float:
    """Seen, then perhaps learned; with weight 1, the published step.

    `weight` 0 to 1 is how much the answer tells about this skill: a whole answer tells little about one step.
    """
    seen = known + weight * (given_answer(known, tracing, right=right) - known)
    return seen + (1 - seen) * tracing.learned_each_time * weight


def traced(belief: Belief, tracing: Tracing, *, right: bool, weight: float = 1.0) -> Belief:
    """The belief for the next time.

    A wrong answer never raises it, which the published step may do where much is learned each time.
    """
    known = stepped(belief.known, tracing, right=right, weight=weight)
    return Belief(known if right else min(known, belief.known), belief.answers + weight)
