"""Adding in words."""

from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Kind
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.lengths import by_length, capital


class SumWords(ExerciseWords[Sum]):
    def worked(self, asked: Sum, length: Length) -> str:
        return _worked(asked, length)

    def right(self, asked: Sum, length: Length, *, is_by_steps: bool) -> str:
        if asked.kind is Kind.LANDING:
            return by_length(length, "", "", "Right on the ten, nothing left over.")
        if is_by_steps and asked.kind is Kind.CROSSING:
            two_jumps = capital(f"{words(asked.gap)}, then {words(asked.rest)}.")
            return by_length(length, "", two_jumps, two_jumps)
        return super().right(asked, length, is_by_steps=is_by_steps)


def _worked(asked: Sum, length: Length) -> str:
    start, amount, total = words(asked.start), words(asked.amount), words(asked.total)
    match asked.kind:
        case Kind.CROSSING:
            ten, rest = words(asked.next_ten), words(asked.rest)
            both = capital(f"{start} and {words(asked.gap)} is {ten}. {capital(rest)} more is {total}.")
            return by_length(length, capital(f"{ten}, then {rest}: {total}."), both, both)
        case Kind.WITHIN if asked.tens and asked.ones and length != "brief":
            ones = f"{words(asked.ones)} and {amount} is {words(asked.ones + asked.amount)}"
            return capital(f"{ones}, so {start} and {amount} is {total}.")
        case Kind.WITHIN if asked.start and asked.start % 100 == 0:
            return capital(f"{start}, then {amount} more: {total}.")
        case Kind.LANDING | Kind.WITHIN:
            return capital(f"{start} and {amount} is {total}.")
