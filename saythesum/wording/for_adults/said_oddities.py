"""For the adult: kept answers that cannot be taken at their word, and what is made of them."""

from collections.abc import Iterator, Mapping, Sequence

from saythesum.learner.data_quality import Odd, Oddity
from saythesum.wording.for_adults.days import day_said
from saythesum.wording.speak.exercises.said_exercises import words_of

_ODD: Mapping[Odd, tuple[str, str]] = {
    Odd.CLOCK_WENT_BACK: (
        "with an earlier time than the answer before",
        "they count, but memory is worked out forwards only; look whether this machine's clock is right",
    ),
    Odd.SAME_TIME: (
        "with the same time as the answer before",
        "they count in the order in which they were kept",
    ),
    Odd.UNKNOWN_MISTAKE: (
        "with the name of a mistake that only a newer saythesum knows",
        "the name is passed over, the number counts",
    ),
    Odd.IMPOSSIBLE_ANSWER: (
        "with a number that is never awaited, or marked otherwise than their sum says",
        "nothing is made of them",
    ),
}


def oddities_said(pupil: str, found: Sequence[Oddity]) -> Iterator[str]:
    """A sentence for each kind that was found: how many, which was the first, and what becomes of them."""
    for what, (which, made_of_them) in _ODD.items():
        alike = [oddity for oddity in found if oddity.what is what]
        if alike:
            yield f"Answers of {pupil} {which}: {len(alike)}, {_first(alike[0])}; all are kept; {made_of_them}."


def _first(oddity: Oddity) -> str:
    answer, day = oddity.answer, oddity.at.date()
    asked = words_of(answer.asked).whole(answer.asked, str)
    return f"first {asked} answered {answer.given} on {day_said(day)} {day.year}"
