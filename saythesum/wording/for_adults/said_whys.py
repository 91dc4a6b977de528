"""For the adult and the log: why a sum was chosen, in one sentence. Never spoken to the pupil."""

from collections.abc import Mapping

from saythesum.core.exercises.skills import Item, Skill
from saythesum.learner.selection import ChoiceReason, WhyChosen
from saythesum.wording.for_adults.days import day_said
from saythesum.wording.for_adults.mistake_words import mistake_said
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.lengths import capital

REASONS: Mapping[ChoiceReason, str] = {
    ChoiceReason.UPKEEP: "known well, and not asked since {last}",
    ChoiceReason.BROKEN: "it needs {item}, which did not hold a moment ago",
    ChoiceReason.EASIER: "too few were right lately; {likely}",
    ChoiceReason.NEW: "new, the next kind in the order of teaching",
    ChoiceReason.SHAKY: "tried before, and not sure yet",
    ChoiceReason.FADING: "sure once, and likely to fade soon",
    ChoiceReason.SURE: "sure, like all that is left",
    ChoiceReason.LAST: "the last one left",
    ChoiceReason.LED_BACK: "{item} did not hold in the sums before",
    ChoiceReason.TELLING: "{telling}",
}
_SKILLS: Mapping[Skill, str] = {
    Skill.NEXT_TEN: "finding the next ten",
    Skill.JOIN: "joining a ten and ones",
    Skill.TENS: "putting tens to a number, or taking them away",
    Skill.COUNT_ON: "counting on",
    Skill.BRIDGES: "crossing a ten unprompted",
    Skill.HEARS: "holding the question in mind",
    Skill.ANSWER: "its answer",
    Skill.STEP: "one of its steps",
}


def why_said(why: WhyChosen) -> str:
    reason = REASONS[why.reason].format(
        last=day_said(why.last_asked) if why.last_asked else "before",
        item=item_said(why.item),
        telling=_telling(why.mistakes),
        likely="this one is likely to go well" if why.is_likely else "of those left, the likeliest to go well",
    )
    return f"{capital(words_of(why.asked).whole(why.asked))}: {reason}."


def item_said(item: Item) -> str:
    """What is to be known, as the end of "it needs …"."""
    numbers = [words(number) for number in item.numbers]
    match item.skill:
        case Skill.BOND:
            return f"the bond of {numbers[0]} and {words(10 - item.numbers[0])}"
        case Skill.PARTITION:
            return f"{numbers[0]} split into {numbers[1]} and {words(item.numbers[0] - item.numbers[1])}"
        case Skill.FACT | Skill.IN_DECADE:
            return f"{numbers[0]} and {numbers[1]}"
        case skill:
            return _SKILLS[skill]


def _telling(mistakes: tuple[str, ...]) -> str:
    match mistakes:
        case (one, other):
            return f"its answer tells {mistake_said(one)} from {mistake_said(other)}"
        case (one,):
            return f"its answer shows whether {mistake_said(one)} comes again"
        case _:
            return "its answer tells most about what a mistake could be"
