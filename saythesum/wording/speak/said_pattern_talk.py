"""Beginning and ending a talk about a pattern; what it says of numbers is in `patterns/`."""

from collections.abc import Mapping
from typing import assert_never

from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import by_length, capital


def pattern_talk(message: say.Patterns, length: Length) -> str:
    match message:
        case say.PatternOffered():
            short = "Shall we look for a pattern? Yes or no."
            full = "Shall we look for a pattern? Nothing is marked, and no stops it. Yes or no."
            return by_length(length, "Look for a pattern? Yes or no.", short, short if message.is_again else full)
        case say.NoPattern(why=why):
            return _WHY_NONE[why]
        case say.PatternOver():
            return by_length(length, "", "That's the pattern.", "That's the pattern, and why it is so.")
        case say.PatternLeft():
            return "We'll leave the pattern."
        case say.PatternThanks():
            return "Thank you for thinking about it. We'll look another day."
        case say.WhereInTalk(moves_left=left):
            return capital(f"We're looking for a pattern. {capital(words(left))} more to do. Say no to leave it.")
        case say.Farewell():
            return "Bye for now."
        case _:
            assert_never(message)


_WHY_NONE: Mapping[say.WhyNoPattern, str] = {
    say.WhyNoPattern.ONE_SUM: "One sum alone has no pattern.",
    say.WhyNoPattern.NO_GRID: "These sums stand in no grid, so there's no pattern to look for.",
    say.WhyNoPattern.NOT_YET: "There's no pattern to hear yet. We'll need more sums done.",
    say.WhyNoPattern.NO_OTHER: "There's no other pattern here today.",
}
