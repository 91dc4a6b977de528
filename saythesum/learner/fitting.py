"""The names that are kept with a wrong answer: all that fit, what also fits the pupil's other answers first."""

from saythesum.core.catalogue.wider import Asked
from saythesum.core.guided_mistakes import PartMistake, fitting_part
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.learner.diagnosis import FORETELLS
from saythesum.learner.pupil import Pupil


def fitting_names(pupil: Pupil, asked: Asked, part: Part, given: int) -> tuple[str, ...]:
    """At the total both kinds count: it is a step and a whole answer. Of equals, the catalogue's order."""
    shares = pupil.leaning()

    def foretold(mistake: PartMistake) -> float:
        return max((shares[name] for name in FORETELLS.get(mistake.name, ())), default=0.0)

    guided = sorted(fitting_part(asked.sum, part, given), key=foretold, reverse=True)
    wholes = pupil.could_be(asked, given) if part in CLOSING_PARTS else {}
    return (*(mistake.name for mistake in guided), *wholes)
