"""How an exercise is worded by default, from its operator; an exercise that needs other words overrides these."""

from collections.abc import Callable, Mapping
from typing import Generic, TypeVar

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import by_length, capital

PART_NAMES: Mapping[Part, str] = {
    Part.WHOLE: "",
    Part.NEXT_TEN: "The next ten",
    Part.GAP: "To the next ten",
    Part.REST: "What is left",
    Part.ONES: "The ones",
    Part.TOTAL: "All together",
    Part.AFTER_TENS: "After the tens",
    Part.TENS_TOGETHER: "The tens",
    Part.TEN_BEFORE: "The ten before",
    Part.FROM_TEN: "From the ten",
    Part.TENS: "The tens",
    Part.ONE_MORE: "One more",
    Part.TENS_OF_ONES: "The tens",
    Part.TEN_ON: "Ten more",
    Part.TOO_MANY: "Too many",
    Part.DOUBLE: "The double",
    Part.LISTEN: "Listen",
    Part.HOW_MUCH_MORE: "How much more",
    Part.EVERY_ROW: "Here, too",
    Part.PREDICT: "A new row",
    Part.WHY: "Why",
    Part.TURN_ROUND: "Turned round",
    Part.MAKE_ONE: "Your own row",
}

E = TypeVar("E", bound=Exercise)


class ExerciseWords(Generic[E]):
    def whole(self, asked: E, number: Callable[[int], str] = words) -> str:
        """What is asked, to go into a sentence: "thirty-eight add five". `number` says or writes one."""
        return f"{number(asked.start)} {asked.operator.says} {number(asked.amount)}"

    def in_row(self, asked: E, number: Callable[[int], str] = words) -> str:
        """The same where its start was said just before: "add five"."""
        return f"{asked.operator.says} {number(asked.amount)}"

    def question(self, asked: E) -> str:
        """The whole, asked by itself."""
        return capital(f"{self.whole(asked)}.")

    def answered(self, asked: E) -> str:
        """A sentence with the right answer."""
        return capital(f"{self.whole(asked)} is {words(asked.total)}.")

    def worked(self, asked: E, length: Length) -> str:
        """The whole way, the answer included."""
        return self.answered(asked)

    def right(self, asked: E, length: Length, *, is_by_steps: bool) -> str:
        """What follows "Yes."."""
        return by_length(length, "", "", self.answered(asked))

    def part_name(self, part: Part) -> str:
        """What a window calls the field for this part; "" for the whole."""
        return PART_NAMES[part]

    def part_question(self, asked: E, part: Part, length: Length) -> str:
        """For an exercise without questions of its own."""
        raise NotImplementedError(f"{asked.operation} has no words for the question {part}")

    def part_done(self, asked: E, part: Part, length: Length) -> str:
        """What the tool says in doing this part, for an exercise without words of its own."""
        raise NotImplementedError(f"{asked.operation} has no words for doing {part}")
