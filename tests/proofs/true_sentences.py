"""What each sentence of help claims, read off its words, and whether that is so.

Nothing here asks the dialogue or the wording what they meant: a sentence is matched with one of the forms below, its
numbers are read by a reader of its own, and the claim is worked out from the sum and the number that was given.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Part
from tests.proofs.forms import NUMBERS, SMALL, Forms


@dataclass(frozen=True, slots=True)
class Told:
    """What a sentence was said about."""

    asked: Sum
    part: Part
    """That was asked."""
    given: int | None
    """None after "I don't know"."""

    @property
    def ten(self) -> int:
        return self.asked.start - self.asked.start % 10 + 10

    @property
    def tens(self) -> int:
        return self.asked.start - self.asked.start % 10

    @property
    def ones_total(self) -> int:
        return self.asked.start % 10 + self.asked.amount

    @property
    def right(self) -> int:
        return self.asked.answer_to(self.part)

    @property
    def parts(self) -> tuple[int, int]:
        """The ten and the ones that the total is put together from."""
        total = self.asked.start + self.asked.amount
        ten = self.ten if total > self.ten else self.asked.start - self.asked.start % 10
        return ten, total - ten


Claim = Callable[[Told, tuple[int, ...]], bool]


def _digits(value: int) -> tuple[int, ...]:
    return tuple(int(digit) for digit in str(value))


ABOUT_GIVEN: dict[str, Callable[[Told, int, tuple[int, ...]], bool]] = {
    # The second argument is the number that was given; the others are named by {n}, in order. In the brief wording
    # the number is left out, as it has just been said back: it is what such a sentence is about.
    "{g} is less than {n}": lambda told, g, n: g < n[0],
    "Less than {n}": lambda told, g, n: g < n[0],
    "{g} is where we start": lambda told, g, n: g == told.asked.start,
    "That's the start": lambda told, g, n: g == told.asked.start,
    "{g} is {n} before {n}": lambda told, g, n: g == n[1] - n[0],
    "{n} before {n}": lambda told, g, n: g == n[1] - n[0],
    "{g} is the next ten": lambda told, g, n: g == told.ten,
    "That's the next ten": lambda told, g, n: g == told.ten,
    "{g} is {n} past {n}": lambda told, g, n: g == n[1] + n[0],
    "{n} past {n}": lambda told, g, n: g == n[1] + n[0],
    "{g} is {n} more than {n}": lambda told, g, n: g == n[1] + n[0],
    "{n} more than {n}": lambda told, g, n: g == n[1] + n[0],
    "{g} is more than {n} past {n}": lambda told, g, n: g > n[1] + n[0],
    "Too far past {n}": lambda told, g, n: n[0] in (told.asked.start, *told.parts) and g > told.right,
    "{g} is too far past {n}": lambda told, g, n: n[0] in (told.asked.start, *told.parts) and g > told.right,
    "{g} is far past {n}": lambda told, g, n: g >= n[0] + 20,
    "Far past {n}": lambda told, g, n: g >= n[0] + 20,
    "{n} and {n} is {g}": lambda told, g, n: sum(n) == g,
    "{n} and {n} is {g}, that's true": lambda told, g, n: sum(n) == g,
    "That's adding {n}": lambda told, g, n: told.asked.start + n[0] == g,
    "{g}: {n} gets you to {n}": lambda told, g, n: g == sum(n) and told.asked.start + n[0] == n[1],
    "{g} is not a ten": lambda told, g, n: g % 10 > 0,
    "{g} comes before {n}": lambda told, g, n: g < n[0],
    "{g} is too far": lambda told, g, n: g > told.asked.start + 10,
    "{n} and {g} is {n}": lambda told, g, n: n[0] + g == n[1],
    "That makes {n}": lambda told, g, n: told.asked.start + g == n[0],
    "{g} tens is too many": lambda told, g, n: g > told.right,
    "{g} tens is {n}": lambda told, g, n: 10 * g == n[0],
    "{g} ten is {n}": lambda told, g, n: 10 * g == n[0],
    "{g} is all of it": lambda told, g, n: g == told.asked.amount,
    "{g} goes past {n}": lambda told, g, n: told.asked.start + g > n[0] == told.ten,
    "{n} ends in {g}": lambda told, g, n: n[0] % 10 == g,
    "{g} is more than {n}": lambda told, g, n: g > n[0],
    "{g} is too many": lambda told, g, n: g > told.right,
    "{g} is part of it": lambda told, g, n: g in told.parts,
    "That's part of it": lambda told, g, n: g in told.parts,
}
"""What is true of the number that was given and false of the right answer."""

BESIDE: dict[str, Claim] = {
    "Adding goes up": lambda told, n: told.asked.start + told.asked.amount > told.asked.start,
    "We're adding {n}": lambda told, n: n[0] == (told.parts[1] if told.part is Part.TOTAL else told.asked.amount),
    "But we're adding {n}": lambda told, n: n[0] == told.asked.amount,
    "But we start at {n}": lambda told, n: n[0] == told.asked.start,
    "{n} and {n} is {n}": lambda told, n: n[0] + n[1] == n[2],
    "{n} gets you to {n}": lambda told, n: told.asked.start + n[0] == n[1],
    "{n} gets you there": lambda told, n: told.asked.start + n[0] == told.ten,
    "{n} reaches the next ten": lambda told, n: told.asked.start + n[0] == told.ten,
    "{n} is less than ten": lambda told, n: n[0] == told.asked.amount < 10,
    "Adding {n} is {n} step": lambda told, n: n == (1, 1) and told.asked.amount == 1,
    "Adding {n} is {n} steps": lambda told, n: n[0] == n[1] == told.asked.amount > 1,
    "Go {n} step": lambda told, n: n == (1,) and told.asked.amount == 1,
    "Go {n} steps": lambda told, n: n[0] == told.asked.amount > 1,
    "The tens count too": lambda told, n: told.asked.start + told.asked.amount >= 10,
    "Row {n}, add {n}": lambda told, n: n == (told.asked.start, told.asked.amount),
    "That's past {n}": lambda told, n: n[0] == told.ten < told.asked.start + (told.given or 0),
    "That's past the next ten": lambda told, n: told.ten < told.asked.start + (told.given or 0),
    "That's before {n}": lambda told, n: n[0] == told.ten > told.asked.start + (told.given or 0),
    "That's before the next ten": lambda told, n: told.ten > told.asked.start + (told.given or 0),
    "That goes past {n}": lambda told, n: n[0] == told.ten < told.asked.start + told.asked.amount,
    "{n} of the {n} is used": lambda told, n: n == (told.ten - told.asked.start, told.asked.amount) and n[0] == 1,
    "{n} of the {n} are used": lambda told, n: n == (told.ten - told.asked.start, told.asked.amount) and n[0] > 1,
    "{n} of the {n}": lambda told, n: n == (told.ten - told.asked.start, told.asked.amount),
    "{n} is the other part": lambda told, n: n[0] in told.parts and n[0] != told.given,
    "You start on {n}": lambda told, n: n[0] == told.asked.start,
    "{n} tens": lambda told, n: n[0] == told.given,
    "{n} ten": lambda told, n: n == (1,) == (told.given,),
    "{n} more than {n} is {n}": lambda told, n: n == (1, told.asked.start, told.asked.start + 1),
    "You're at {n}": lambda told, n: n[0] == told.asked.start,
    # what the tool does
    "The next ten is {n}": lambda told, n: n[0] == told.ten,
    "After {n}, it's {n}": lambda told, n: n == (told.asked.start, told.ten),
    "{n} to {n}": lambda told, n: told.asked.start + n[0] == n[1] == told.ten,
    "{n} to the next ten": lambda told, n: told.asked.start + n[0] == told.ten,
    "It takes {n} to the next ten": lambda told, n: told.asked.start + n[0] == told.ten,
    "{n} and {n} is {n}, and {n} more": lambda told, n: (
        n[:3] == (told.asked.start, n[1], told.ten)
        and n[0] + n[1] == n[2]
        and n[2] + n[3] == told.asked.start + told.asked.amount
    ),
    "{n} more is {n}": lambda told, n: n == (told.parts[1], told.asked.start + told.asked.amount),
    "{n}, then {n}: {n}": lambda told, n: n[0] + n[1] == n[2] == told.asked.start + told.asked.amount,
    "{n}, then {n} more: {n}": lambda told, n: n[0] == told.asked.start and n[0] + n[1] == n[2],
    "{n} and {n} is {n}, so {n} and {n} is {n}": lambda told, n: n[0] + n[1] == n[2] and n[3] + n[4] == n[5],
    # what was right
    "{n}": lambda told, n: n[0] == told.given,
    "Yes, {n}": lambda told, n: n[0] == told.given == told.right,
    "Yes, {n} and {n} is {n}": lambda told, n: n[0] + n[1] == n[2] == told.ten,
    "{n}, then {n}": lambda told, n: told.asked.start + n[0] == told.ten and sum(n) == told.asked.amount,
    "{n} add {n} is {n}": lambda told, n: n[0] + n[1] == n[2],
    "Right on the ten, nothing left over": lambda told, n: told.asked.start + told.asked.amount == told.ten,
}
"""True, whatever was given."""

QUESTIONS: dict[str, Claim] = {
    "{n} add {n}.": lambda told, n: n == (told.asked.start, told.asked.amount),
    "Now you: {n} add {n}?": lambda told, n: n == (told.asked.start, told.asked.amount),
    "Next ten after {n}?": lambda told, n: n[0] == told.asked.start,
    "What's the next ten after {n}?": lambda told, n: n[0] == told.asked.start,
    "What's the next ten?": lambda told, n: True,
    "How many to get there?": lambda told, n: True,
    "How many get you there?": lambda told, n: True,
    "How many of the {n} get you there?": lambda told, n: n[0] == told.asked.amount,
    "How many of the {n} get you to {n}?": lambda told, n: n == (told.asked.amount, told.ten),
    "How many of the {n} to {n}?": lambda told, n: n == (told.asked.amount, told.ten),
    "How many to {n}?": lambda told, n: n[0] == told.ten,
    "How many to the next ten?": lambda told, n: True,
    "How many from {n} to the next ten?": lambda told, n: n[0] == told.asked.start,
    "{n} and how many make ten?": lambda told, n: n[0] == told.asked.start % 10,
    "{n} and what makes ten?": lambda told, n: n[0] == told.asked.start % 10,
    "How many left?": lambda told, n: True,
    "How many are left?": lambda told, n: True,
    "How many of the {n} are left?": lambda told, n: n[0] == told.asked.amount,
    "{n} and {n}?": lambda told, n: (
        n in (told.parts, (told.asked.start % 10, told.asked.amount), (told.tens, told.ones_total))
    ),
    "How many tens in {n}?": lambda told, n: n[0] in (told.asked.start, told.ones_total),
    "How many tens in that?": lambda told, n: True,
    "{n} more is?": lambda told, n: n == (1,),
    "{n} more than {n}?": lambda told, n: n == (1, told.asked.start),
    "{n}: is that {n} tens or {n} tens?": lambda told, n: n == (told.asked.start, *divmod(told.asked.start, 10)),
    "{n}: is that {n} tens or one ten?": lambda told, n: n == (told.asked.start, told.asked.start // 10),
    "{n}: is that one ten or {n} tens?": lambda told, n: n == (told.asked.start, told.asked.start % 10),
    "{n} tens or {n} tens?": lambda told, n: n == divmod(told.asked.start, 10),
    "{n} tens or one ten?": lambda told, n: (*n, 1) == divmod(told.asked.start, 10),
    "One ten or {n} tens?": lambda told, n: (1, *n) == divmod(told.asked.start, 10),
    "{n}, then {n} more?": lambda told, n: n == told.parts and n[0] % 100 == 0,
    "Ones first: {n} and {n}?": lambda told, n: n == (told.asked.start % 10, told.asked.amount),
    "Look at the ones first: {n} and {n}?": lambda told, n: n == (told.asked.start % 10, told.asked.amount),
    "All used: so?": lambda told, n: told.asked.start + told.asked.amount == told.ten,
}
"""Each asks about this sum and no other."""

PLAIN = frozenset(
    {
        *("Not yet", "Yes", "Now you", "I'll do this bit", "That's fine", "We'll take it in steps"),
        *(
            "That's fine, we'll take it in steps",
            "Let's look again",
            "Let's count on",
            "We'll have that one another day",
            "That one's done",
            "Bye for now",
        ),
    }
)
"""Claims nothing about a number."""


@dataclass(frozen=True, slots=True)
class Reading:
    is_true: bool
    tells_from_right: bool = False
    """It is about the number that was given, and would be false of the right answer."""
    names_given: bool = False


def sentences(text: str) -> list[str]:
    return [sentence.strip() for sentence in re.findall(r"[^.?]+[.?]", text)]


def read(sentence: str, told: Told) -> Reading:
    """Raises AssertionError for a sentence of no known form."""
    if sentence.removesuffix(".") in PLAIN:
        return Reading(True)
    matches = _FORMS.that_fit(sentence)
    for form, numbers, given in matches:
        if form in ABOUT_GIVEN and told.given is not None and given in (None, told.given):
            holds = ABOUT_GIVEN[form]
            if holds(told, told.given, numbers):
                return Reading(True, not holds(told, told.right, numbers), given is not None)
    found = [_OTHERS[form](told, numbers) for form, numbers, _ in matches if form in _OTHERS]
    found += [spells(sentence, told) for spells in (_digit_by_digit, _in_places)]
    assert matches or any(found), f"a sentence of no known form, or not true: {sentence}"
    return Reading(any(found))


def _digit_by_digit(sentence: str, told: Told) -> bool:
    words = sentence.removesuffix(".").removeprefix("The keys: ").lower().split(", ")
    return told.given is not None and words == [SMALL[int(digit)] for digit in str(told.given)]


def _in_places(sentence: str, told: Told) -> bool:
    """ "Two tens and seven", of the number given or of the start."""
    named, _, places = sentence.removesuffix(".").lower().rpartition(" is ")
    found = re.fullmatch(r"([a-z]+) tens?(?:(?: and |, )([a-z]+))?", places)
    if not found:
        return False
    tens, ones = found.groups()
    value = 10 * SMALL.index(tens) + (SMALL.index(ones) if ones else 0)
    return value in (told.given, told.asked.start, told.ones_total) and (not named or NUMBERS[named] == value)


_OTHERS = {**BESIDE, **QUESTIONS}
_FORMS = Forms((*ABOUT_GIVEN, *BESIDE, *QUESTIONS))
