"""Going back to the facts that sums stand on, and forward again: why, in a few words."""

from collections.abc import Mapping
from typing import assert_never

from saythesum.core.sums import ExerciseName
from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.speak.lengths import begun, by_length

_CALLED: Mapping[ExerciseName, tuple[str, str]] = {
    ExerciseName.BOND: ("Making ten.", "Let's make some tens first."),
    ExerciseName.NEXT_TEN: ("Next tens.", "Let's find some next tens first."),
    ExerciseName.TEN_AND_ONES: ("Tens and ones.", "Let's put some tens and ones together first."),
    ExerciseName.SPLIT: ("Splitting numbers.", "Let's split some numbers first."),
    ExerciseName.ONE_MORE: ("One more.", "Let's count on by one first."),
    ExerciseName.FACT: ("Small sums.", "Let's do some small sums first."),
}
"""Their name, and the offer of a few of them."""


def of_facts(message: say.Facts, length: Length) -> str:
    match message:
        case say.FactsIntro(facts=facts, most=most):
            name, _ = _CALLED[facts]
            short = f"{name} {begun(most)} questions."
            return by_length(length, name, short, f"{short} Take as long as you like; Space says it again.")
        case say.FactsOffered(facts=facts, is_again=False):
            return f"{_CALLED[facts][1]} Yes or no?"
        case say.FactsOffered(facts=facts):
            return f"{_CALLED[facts][0]} Yes or no?"
        case say.BackToSums():
            return by_length(length, "", "Back to the sums.", "Now back to the sums.")
        case _:
            assert_never(message)
