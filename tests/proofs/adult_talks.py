"""An adult who talks to the pupil in the open ear without taking the turn: how much of it becomes an answer.

The sentences stand as a recogniser that makes no mistake would write them. Real rooms are worse.
"""

from dataclasses import dataclass

from tests.talk import Talk, plan_of

SENTENCES = (
    "so sixty and what? five",
    "have another listen",
    "what comes after fifty-seven",
    "use your fingers",
    "eight, isn't it",
    "you had three and five",
    "fifty-eight, fifty-nine, sixty",
    "come and sit down please",
    "is it sixty-five",
    "think about it first",
    "take your time",
    "how many have you got left",
    "sixty",
    "that's it, good",
    "three more to sixty",
    "what did she ask you",
    "just say the number",
    "no, not that one",
    "fifty-seven add eight",
    "try it with the beads",
    "where are you now",
    "shall we stop there or do one more",
    "let's see, five and three is eight",
    "you know this one",
)


@dataclass(frozen=True, slots=True)
class Figures:
    sentences: int
    said_back: int
    """A number or a command was said back, or acted on."""
    kept: int
    """An answer was kept, because nobody objected."""


def measured() -> Figures:
    answered = kept = 0
    for sentence in SENTENCES:
        talk = Talk(plan_of((57,), (8,)))
        talk.begin()
        before = len(talk.said)
        talk.hear(sentence)
        talk.wait()
        answered += len(talk.said) > before
        talk.wait()
        kept += bool(talk.answers)
    return Figures(len(SENTENCES), answered, kept)
