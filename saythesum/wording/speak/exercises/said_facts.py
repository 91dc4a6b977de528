"""The facts under bridging a ten in words. Each question ends with a question mark: it is no sum to be worked out."""

from collections.abc import Callable

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.facts import fact_remarks as remarks
from saythesum.core.exercises.facts.complement import Complement
from saythesum.core.exercises.facts.next_ten import NextTen
from saythesum.core.exercises.facts.small_sums import OneMore, TenAndOnes
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.exercise_words import E, ExerciseWords
from saythesum.wording.speak.exercises.said_sums import SumWords
from saythesum.wording.speak.lengths import begun, capital, joined


def together(message: remarks.Together, length: Length) -> str:
    return f"{begun(message.part)} and {words(message.given)} is {words(message.part + message.given)}."


class FactWords(ExerciseWords[E]):
    def question(self, asked: E) -> str:
        return capital(f"{self.whole(asked)}?")


class ComplementWords(FactWords[Complement]):
    def whole(self, asked: Complement, number: Callable[[int], str] = words) -> str:
        return f"{number(asked.amount)} and how many make {number(asked.start)}"

    def in_row(self, asked: Complement, number: Callable[[int], str] = words) -> str:
        return self.whole(asked, number)

    def answered(self, asked: Complement) -> str:
        return f"{begun(asked.amount)} and {words(asked.total)} is {words(asked.start)}."


class NextTenWords(FactWords[NextTen]):
    def whole(self, asked: NextTen, number: Callable[[int], str] = words) -> str:
        return f"next ten after {number(asked.start)}"

    def in_row(self, asked: NextTen, number: Callable[[int], str] = words) -> str:
        return self.whole(asked, number)

    def answered(self, asked: NextTen) -> str:
        if asked.total == 10:  # "the next ten is ten" says nothing to an ear
            return f"After {words(asked.start)}, it's ten."
        return f"The next ten after {words(asked.start)} is {words(asked.total)}."


class TenAndOnesWords(FactWords[TenAndOnes]):
    def whole(self, asked: TenAndOnes, number: Callable[[int], str] = words) -> str:
        return (
            joined(asked.start, asked.amount) if number is words else f"{number(asked.start)} + {number(asked.amount)}"
        )

    def answered(self, asked: TenAndOnes) -> str:
        return capital(f"{joined(asked.start, asked.amount)} is {words(asked.total)}.")


class OneMoreWords(FactWords[OneMore]):
    def whole(self, asked: OneMore, number: Callable[[int], str] = words) -> str:
        return f"one more than {number(asked.start)}"

    def in_row(self, asked: OneMore, number: Callable[[int], str] = words) -> str:
        return self.whole(asked, number)


class OnesFactWords(SumWords):
    def question(self, asked: Sum) -> str:
        return capital(f"{self.whole(asked)}?")
