"""Taking away in words: the questions for its parts, what says them back, and the parts that the tool does.

"Four take away three" in every length: "from", "less" and "minus" turn the numbers round or are hard to hear.
"""

from typing import assert_never

from saythesum.core.exercises import taking_remarks as remarks
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.sums import Bridge, Kind, Part
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.lengths import begun, by_length, capital, joined


def taken(whole: int, amount: int) -> str:
    return f"{words(whole)} take away {words(amount)}"


def makes(whole: int, amount: int) -> str:
    """A sentence: what stays."""
    return capital(f"{taken(whole, amount)} is {words(whole - amount)}.")


def back_question(message: remarks.BackQuestion, length: Length) -> str:
    match message:
        case remarks.AskTenBefore(start=start):
            before = f"en before {words(start)}?"
            where = f"You're at {words(start)}. What's the ten before?"
            return by_length(length, f"T{before}", f"What's the t{before}", where)
        case remarks.AskGapBack():
            return _gap(message, length)
        case remarks.AskStillToTake(is_gap_just_told=True):
            return "How many still to take?"
        case remarks.AskStillToTake(asked=asked):
            of_amount = f"How many of the {words(asked.amount)} are still to take?"
            return by_length(length, "How many still to take?", of_amount, of_amount)
        case remarks.AskOnesTaken(asked=asked):
            ones = f"{taken(asked.ones or 10, asked.amount)}?"
            opened = f"Open a ten: {ones}"
            if not asked.ones:
                return by_length(length, capital(ones), opened, opened)
            return by_length(length, capital(ones), f"Ones first: {ones}", f"Look at the ones first: {ones}")
        case remarks.AskFromTen(asked=asked):
            return capital(f"{taken(asked.next_ten, asked.amount)}?")
        case remarks.AskLastStep():
            return _last_step(message)
        case _:
            assert_never(message)


def _gap(ask: remarks.AskGapBack, length: Length) -> str:
    """Where the ten is the answer itself it is not named."""
    asked = ask.asked
    if ask.is_ten_just_said:
        return by_length(length, "How many to get there?", "How many to get there?", "How many take you back there?")
    if asked.kind is Kind.LANDING:
        from_start = f"How many from {words(asked.start)} back to the ten?"
        return "How many back to the ten?" if ask.is_again or length == "brief" else from_start
    if ask.is_again or length == "brief":
        return f"How many back to {words(asked.next_ten)}?"
    return f"How many of the {words(asked.amount)} get you to {words(asked.next_ten)}?"


def _last_step(ask: remarks.AskLastStep) -> str:
    if ask.to_join:
        return capital(f"{joined(*ask.to_join)}?")
    if ask.asked.kind is Kind.LANDING:
        return "All taken: so?"
    if ask.asked.kind is Kind.WITHIN:
        return capital(f"{taken(ask.asked.start, ask.asked.amount)}?")
    return capital(f"{taken(ask.asked.next_ten, ask.asked.rest)}?")


def gap_given(given: remarks.GapBackGiven, length: Length) -> str:
    gap = words(given.asked.gap)
    if given.asked.kind is Kind.LANDING:
        return by_length(length, f"{capital(gap)}.", f"Yes, {gap}.", f"Yes, {gap}.")
    reached = f"{taken(given.asked.start, given.asked.gap)} is {words(given.asked.next_ten)}"
    return by_length(length, f"{capital(gap)}.", f"Yes, {gap}.", f"Yes, {reached}.")


def step_done(message: remarks.DoStepBack, length: Length) -> str:
    doing = "" if length == "brief" else "I'll do this bit. "
    return doing + _done(message.asked, message.part)


def _done(asked: Bridge, part: Part) -> str:
    match part:
        case Part.TEN_BEFORE:
            return f"The ten before {words(asked.start)} is {words(asked.next_ten)}."
        case Part.GAP if asked.kind is Kind.LANDING:
            return f"{begun(asked.gap)} gets you to the ten."
        case Part.GAP:
            return makes(asked.start, asked.gap)
        case Part.REST:
            return f"{begun(asked.gap)} and {words(asked.rest)} is {words(asked.amount)}."
        case Part.FROM_TEN:
            return makes(asked.next_ten, asked.amount)
        case _:
            return makes(asked.ones or 10, asked.amount)


class TakingWords(ExerciseWords[Difference]):
    def worked(self, asked: Difference, length: Length) -> str:
        if asked.kind is Kind.CROSSING:
            total = words(asked.total)
            then = f"then take away {words(asked.rest)}: {total}."
            ten = f"{capital(words(asked.next_ten))}, {then}"
            return by_length(length, ten, *[f"{makes(asked.start, asked.gap)} {capital(then)}"] * 2)
        if asked.kind is Kind.WITHIN and asked.parts and length != "brief":
            return f"{makes(asked.opened, asked.amount)} {makes(asked.start, asked.amount)}"
        return makes(asked.start, asked.amount)

    def right(self, asked: Difference, length: Length, *, is_by_steps: bool) -> str:
        if asked.kind is Kind.LANDING and asked.parts:
            return by_length(length, "", "", "Right on the ten.")
        if is_by_steps and asked.kind is Kind.CROSSING:
            return by_length(length, "", *[self.by_steps(asked)] * 2)
        return super().right(asked, length, is_by_steps=is_by_steps)

    def by_steps(self, asked: Difference) -> str:
        return capital(f"{words(asked.gap)}, then {words(asked.rest)}.")

    def part_name(self, part: Part) -> str:
        return _PART_NAMES.get(part) or super().part_name(part)


_PART_NAMES = {Part.GAP: "Back to the ten", Part.REST: "Still to take", Part.TOTAL: "What stays"}


class FromTenWords(TakingWords):
    def worked(self, asked: Difference, length: Length) -> str:
        if not isinstance(asked, DifferenceFromTen):
            return super().worked(asked, length)
        and_ones = f"{capital(joined(*asked.to_join))} is {words(asked.total)}."
        return f"{makes(asked.next_ten, asked.amount)} {and_ones}"

    def by_steps(self, asked: Difference) -> str:
        """From the ten there are no two jumps to name."""
        return ""
