"""Made-up pupils for rehearsals: what each says when the ear opens. They are no evidence about children."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from saythesum.core.mistakes import MISTAKES
from saythesum.core.rows import Ask
from saythesum.core.sums import CLOSING_PARTS, Part, Sum
from saythesum.dialogue.progress import cell_of
from saythesum.dialogue.step import State
from saythesum.dialogue.topics import Confirming, Paused, SayingBack, SayingBackCommand
from saythesum.errors import CallerError
from saythesum.wording.numbers import words


class PupilKind(StrEnum):
    RIGHT = "right"
    MISTAKE = "mistake"
    """Makes one named mistake in every whole answer that can show it, and no other."""
    MISHEARD = "misheard"
    """Is misheard in every third answer, and puts it right while it is being said back."""
    COUNTS = "counts"
    """Counts on aloud to every answer."""
    DOES_NOT_KNOW = "does-not-know"
    """Says so to every question for the whole answer, and knows every part."""


@dataclass(frozen=True, slots=True)
class Utterance:
    text: str
    after_ms: int
    """Silence before it: after the ear opened, or after the utterance before it."""


Saying: TypeAlias = tuple[Utterance, ...]
THINKING_MS = 900
COUNTING_GAP_MS = 1200
OBJECTING_MS = 250


class MadeUpPupil:
    """Follows the practice and speaks when the ear opens."""

    def __init__(self, kind: PupilKind, mistake: str | None = None) -> None:
        """Raises CallerError where a mistake has to be named and is not, or is not known."""
        if (kind is PupilKind.MISTAKE) != (mistake is not None):
            raise CallerError("A mistake is rehearsed with both: --pupil-kind mistake and --mistake NAME.")
        self._asked = 0
        self._kind = kind
        self._gives = _gives(mistake) if mistake else None

    def reply(self, state: State) -> Saying:
        """What to say now that the ear is open; nothing where the pupil lets what was said back stand."""
        topic = state.talk.topics[-1]
        ask = state.progress.ask
        assert ask is not None
        asked = state.plan.sum_at(cell_of(ask))
        right = asked.answer_to(ask.part)
        match topic:
            case SayingBack(number=number) if number.value == right or self._kind is PupilKind.MISTAKE:
                return ()
            case SayingBack():
                return (Utterance(f"no, {words(right)}", OBJECTING_MS),)
            case SayingBackCommand():
                return ()
            case Confirming(number=number):
                return (Utterance("yes" if number.value == right else "no", THINKING_MS),)
            case Paused():
                return (Utterance("go on", THINKING_MS),)
            case _:
                return self._answer(asked, ask, right)

    def _answer(self, asked: Sum, ask: Ask, right: int) -> Saying:
        self._asked += 1
        match self._kind:
            case PupilKind.MISTAKE if ask.part is Part.WHOLE and self._gives:
                wrong = self._gives(asked)
                return (Utterance(words(wrong if wrong is not None else right), THINKING_MS),)
            case PupilKind.MISHEARD if ask.part in CLOSING_PARTS and self._asked % 3 == 0:
                return (Utterance(words(right + 10), THINKING_MS),)
            case PupilKind.COUNTS if ask.part is Part.WHOLE:
                count = [Utterance(words(number), COUNTING_GAP_MS) for number in range(asked.start + 1, right + 1)]
                return tuple(count)
            case PupilKind.DOES_NOT_KNOW if ask.part is Part.WHOLE:
                return (Utterance("I don't know", THINKING_MS),)
            case _:
                return (Utterance(words(right), THINKING_MS),)


def _gives(name: str | None) -> Callable[[Sum], int | None]:
    """The wrong answer that the named mistake leads to; None in a sum that cannot show it."""
    known = {mistake.name: mistake for mistake in MISTAKES}
    if name not in known:
        raise CallerError(f"{name!r} is no mistake that can be rehearsed; right would be one of: {', '.join(known)}.")
    mistake = known[name]

    def gives(asked: Sum) -> int | None:
        return next((value for value in mistake.gives(asked) if mistake.fits(asked, value)), None)

    return gives
