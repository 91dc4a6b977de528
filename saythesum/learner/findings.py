"""What may be told to an adult: what a pupil's mistake could be, with the answers for it and against it.

Nothing is named before two answers agree out of the last four in which the mistake could have shown.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.mistakes.pattern import Occasion, PartMistake
from saythesum.core.records.rows import RowId
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.learner.diagnosis import ALL_NAMES, FORETELLS, Diagnosis, diagnosed, numbers_shown
from saythesum.learner.evidence import Evidence
from saythesum.learner.pupil import Pupil

LOOKED_BACK = 4
AGREEING = 2
LEAST_SHARE = 0.2
"""Below this there is a much likelier reason for the same answers."""


@dataclass(frozen=True, slots=True)
class Finding:
    """`mistake` could be behind the answers `for_`; those `against` could have shown it and did not."""

    mistake: str
    share: float
    for_: tuple[RowId, ...]
    against: tuple[RowId, ...]


def findings(evidence: Sequence[Evidence], diagnosis: Diagnosis | None = None) -> tuple[Finding, ...]:
    """Likeliest first. Mistakes that give the same numbers are found together: nothing told them apart yet."""
    diagnosis = diagnosis or diagnosed(evidence)
    if diagnosis.none > 0.5:
        return ()
    found = (_found(evidence, name, diagnosis.shares[name]) for name in diagnosis.ranked)
    return tuple(finding for finding in found if finding is not None)


def _found(evidence: Sequence[Evidence], name: str, share: float) -> Finding | None:
    if share < LEAST_SHARE:
        return None
    place = ALL_NAMES.index(name)
    shown = [(one, numbers_shown(one.asked)[place]) for one in evidence if one.part is Part.WHOLE]
    able = [(one, one.given in numbers) for one, numbers in shown if numbers][-LOOKED_BACK:]
    agreeing = tuple(one for one, is_for in able if is_for)
    if len({one.asked for one in agreeing}) < AGREEING:
        return None
    against = tuple(one.of for one, is_for in able if not is_for)
    return Finding(name, share, tuple(one.of for one in agreeing), against)


def fitting_names(pupil: Pupil, occasion: Occasion[Exercise], part: Part, given: int) -> tuple[str, ...]:
    """At the total both kinds count: it is a step and a whole answer. Of equals, the catalogue's order."""
    shares = pupil.leaning(occasion.asked)

    def foretold(mistake: PartMistake[Any]) -> float:
        return max((shares.get(name, 0.0) for name in FORETELLS.get(mistake.name, ())), default=0.0)

    guided = sorted(occasion.asked.part_mistakes_giving(part, given), key=foretold, reverse=True)
    wholes = pupil.could_be(occasion, given) if part in CLOSING_PARTS else {}
    return (*(mistake.name for mistake in guided), *wholes)
