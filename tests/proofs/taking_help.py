"""Every turn of help in taking away, and what its sentences claim, read off their words.

As in `true_sentences`, nothing here asks the wording what it meant: a sentence has one of the forms below, its numbers
are read by a reader of its own, and the claim is worked out from the question and the number that was given.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from saythesum.core.exercises.exercise import Lead, Remark
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.core.mistakes.anywhere import NEIGHBOUR_CELL, PREVIOUS_ANSWER
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.speak.exercises.said_exercises import remark_said, words_of
from saythesum.wording.speak.lengths import capital
from tests.proofs.flaws_of_help import MOST_WORDS, NOT_SAID
from tests.proofs.forms import NUMBERS, SMALL, Forms, numbers_in


@dataclass(frozen=True, slots=True)
class Turn:
    asked: Difference
    part: Part
    """That was asked before."""
    given: int | None
    """None where no number was given, or a right one."""
    remarks: tuple[Remark, ...]
    question: Remark | None
    """None: the whole question, once more."""
    is_worked: bool = False
    """The tool did a part, or says back a right one: the number is not spoken of."""

    def text(self, length: Length) -> str:
        told = [remark_said(remark, length) for remark in self.remarks]
        if self.question is None:
            told.append(capital(f"{words_of(self.asked).whole(self.asked)}."))
        else:
            told.append(remark_said(self.question, length))
        return " ".join(filter(None, told))


def turns(asked: Difference) -> Iterator[Turn]:
    yield from _after_a_whole(asked)
    for place, part in enumerate(asked.parts):
        for given in _wrong_at(asked, part):
            remarks = asked.about_part(part, given)
            lead = Lead(part, given, remarks=remarks, is_again=True)
            yield Turn(asked, part, given, remarks, asked.question_for(part, lead))
        yield Turn(asked, part, None, (), asked.question_for(part), is_worked=True)
        if part is Part.TOTAL:
            continue
        lead = Lead(part, asked.answer_to(part), is_right=True)
        following = asked.question_for(asked.parts[place + 1], lead)
        yield Turn(asked, part, None, asked.after_right(lead), following, is_worked=True)
        after = asked.question_for(asked.part_after_doing(part), Lead(is_again=True))
        yield Turn(asked, part, None, (asked.done(part),), after, is_worked=True)


def _after_a_whole(asked: Difference) -> Iterator[Turn]:
    occasion = Occasion(asked, is_typed=True)
    for given in _wrong_wholes(asked):
        begins = {one.help for one in asked.patterns if one.fits(occasion, given)}
        begins |= {NEIGHBOUR_CELL.help, PREVIOUS_ANSWER.help}
        helps = {asked.help_from(one, given) for one in begins}
        for help in helps:
            lead = Lead(Part.WHOLE, given, remarks=help.remarks)
            question = None if help.part is Part.WHOLE else asked.question_for(help.part, lead)
            yield Turn(asked, Part.WHOLE, given, help.remarks, question)


def _wrong_wholes(asked: Difference) -> list[int]:
    occasion = Occasion(asked, is_typed=True)
    explained = {value for one in asked.patterns for value in one.gives(occasion)}
    near = range(max(asked.start - 22, 0), asked.start + 12)
    return sorted({*explained, *near} & set(range(LARGEST_NUMBER + 1)) - {asked.total})


def _wrong_at(asked: Difference, part: Part) -> list[int]:
    by_mistakes = {value for one in asked.part_mistakes if part in one.parts for value in one.gives(asked)}
    right = asked.answer_to(part)
    others = {*range(21), asked.start, asked.start + 1, asked.next_ten, asked.next_ten + 10, asked.next_ten - 10}
    others |= {right + step for step in (-20, -10, -2, -1, 1, 2, 10, 20)}
    return sorted({*by_mistakes, *others} & set(range(LARGEST_NUMBER + 1)) - {right})


# ---- what sentences claim


@dataclass(frozen=True, slots=True)
class Told:
    asked: Difference
    part: Part
    given: int | None

    @property
    def ten(self) -> int:
        return self.asked.start - self.asked.start % 10

    @property
    def total(self) -> int:
        return self.asked.start - self.asked.amount

    @property
    def from_ten(self) -> int:
        """What stays of the number that is taken from."""
        return self.taken_from - self.asked.amount

    @property
    def taken_from(self) -> int:
        if isinstance(self.asked, DifferenceFromTen):
            return self.ten
        return self.asked.start % 10 or 10

    @property
    def pieces(self) -> tuple[int, int]:
        if isinstance(self.asked, DifferenceFromTen):
            return self.from_ten, self.asked.start % 10
        return self.asked.start - self.taken_from, self.from_ten

    @property
    def last_taken(self) -> int:
        """What is taken in this step: at the total only what is left after the jump to the ten."""
        ones, amount = self.asked.start % 10, self.asked.amount
        return amount - ones if self.part is Part.TOTAL and 0 < ones < amount else amount


_About = Callable[[Told, int, tuple[int, ...]], bool]
_Claim = Callable[[Told, tuple[int, ...]], bool]

ABOUT_GIVEN: dict[str, _About] = {
    # As in `true_sentences`; the brief wording leaves the number out.
    "{g} is more than {n}": lambda told, g, n: g > n[0],
    "More than {n}": lambda told, g, n: g > n[0],
    "{g} is where we start": lambda told, g, n: g == told.asked.start,
    "That's the start": lambda told, g, n: g == told.asked.start,
    "{g} is {n} past {n}": lambda told, g, n: g == n[0] + n[1],
    "{n} past {n}": lambda told, g, n: g == n[0] + n[1],
    "{g} is the ten before {n}": lambda told, g, n: g == told.ten and n[0] == told.asked.start,
    "The ten before {n}": lambda told, g, n: g == told.ten and n[0] == told.asked.start,
    "{g} is {n} less than {n}": lambda told, g, n: g == n[1] - n[0],
    "{n} less than {n}": lambda told, g, n: g == n[1] - n[0],
    "{g} is more than {n} below {n}": lambda told, g, n: n[0] == 10 and g < n[1] - 10,
    "{g} is far below {n}": lambda told, g, n: g <= n[0] - 20,
    "Far below {n}": lambda told, g, n: g <= n[0] - 20,
    "{g} is too many to stay": lambda told, g, n: g > told.total,
    "Too many": lambda told, g, n: g > told.total,
    "Less than {n}": lambda told, g, n: g < n[0],
    "Too far": lambda told, g, n: g < told.asked.start - 10,
    "{g} is too few to stay": lambda told, g, n: g < told.total,
    "Too few": lambda told, g, n: g < told.total,
    "{g} is too many": lambda told, g, n: g > told.asked.answer_to(told.part),
    "{g} is too few": lambda told, g, n: g < told.asked.answer_to(told.part),
    "{n} take away {n} is {g}": lambda told, g, n: n[0] - n[1] == g,
    "{n} take away {n} is {g}, that's true": lambda told, g, n: n[0] - n[1] == g,
    "{n} take away {g} is {n}": lambda told, g, n: n[0] - g == n[1],
    "That makes {n}": lambda told, g, n: told.asked.start - g == n[0],
    "That's taking away {n}": lambda told, g, n: g + n[0] in (told.asked.start, told.ten, told.taken_from),
    "{n} and {n} is {g}": lambda told, g, n: sum(n) == g,
    "{n} and {g} is {n}": lambda told, g, n: n[0] + g == n[1],
    "{g} is not a ten": lambda told, g, n: g % 10 > 0,
    "{g} comes after {n}": lambda told, g, n: g > n[0],
    "{g} is too far": lambda told, g, n: g < told.asked.start - 10,
    "{g} is all of it": lambda told, g, n: g == told.asked.amount,
    "{g} goes past {n}": lambda told, g, n: told.asked.start - g < n[0] == told.ten,
    "{g} is with nothing taken": lambda told, g, n: g in (told.taken_from, told.ten),
    "Nothing is taken there": lambda told, g, n: g in (told.taken_from, told.ten),
    "{g} is what we take": lambda told, g, n: g == told.last_taken,
    "{g} is part of it": lambda told, g, n: g in told.pieces,
    "That's part of it": lambda told, g, n: g in told.pieces,
    "{g} is less than {n}": lambda told, g, n: g < n[0],
    "Far past {n}": lambda told, g, n: g >= n[0] + 20,
    "{g} is far past {n}": lambda told, g, n: g >= n[0] + 20,
    "Too far past {n}": lambda told, g, n: g > n[0] + 10,
    "{g} is too far past {n}": lambda told, g, n: g > n[0] + 10,
}
BESIDE: dict[str, _Claim] = {
    "Taking away goes down": lambda told, n: told.total < told.asked.start,
    "We're taking away {n}": lambda told, n: n[0] == told.last_taken,
    "We're adding {n}": lambda told, n: told.part is Part.TOTAL and n[0] == told.pieces[1],
    "But we start at {n}": lambda told, n: n[0] == told.asked.start,
    "{n} gets you to {n}": lambda told, n: told.asked.start - n[0] == n[1] == told.ten,
    "{n} gets you to the ten": lambda told, n: told.asked.start - n[0] == told.ten,
    "{n} take away {n} is {n}": lambda told, n: n[0] - n[1] == n[2],
    "Yes, {n} take away {n} is {n}": lambda told, n: n[0] - n[1] == n[2] == told.ten,
    "{n} and {n} is {n}": lambda told, n: n[0] + n[1] == n[2],
    "{n} is less than ten": lambda told, n: n[0] == told.asked.amount < 10,
    "Tens count too": lambda told, n: told.total >= 10,
    "{n} gets you there": lambda told, n: told.asked.start - n[0] == told.ten,
    "The tens count too": lambda told, n: told.total >= 10,
    "Row {n}, take away {n}": lambda told, n: n == (told.asked.start, told.asked.amount),
    "That's past {n}": lambda told, n: told.given is not None and told.asked.start - told.given < n[0] == told.ten,
    "That's past the ten": lambda told, n: told.given is not None and told.asked.start - told.given < told.ten,
    "That's before {n}": lambda told, n: told.given is not None and told.asked.start - told.given > n[0] == told.ten,
    "That's before the ten": lambda told, n: told.given is not None and told.asked.start - told.given > told.ten,
    "That goes past {n}": lambda told, n: told.asked.start - told.asked.amount < n[0] == told.ten,
    "{n} is the other part": lambda told, n: sorted((n[0], told.given or 0)) == sorted(told.pieces),
    "I'll do this bit": lambda told, n: True,
    "The ten before {n} is {n}": lambda told, n: n == (told.asked.start, told.ten),
    "{n}": lambda told, n: n[0] == told.asked.answer_to(told.part),
    "Yes, {n}": lambda told, n: n[0] == told.asked.answer_to(told.part),
    # questions
    "{n} take away {n}.": lambda told, n: n == (told.asked.start, told.asked.amount),
    "{n} take away {n}?": lambda told, n: n in _takings(told),
    "Ones first: {n} take away {n}?": lambda told, n: n == (told.asked.start % 10, told.asked.amount),
    "Look at the ones first: {n} take away {n}?": lambda told, n: n == (told.asked.start % 10, told.asked.amount),
    "Open a ten: ten take away {n}?": lambda told, n: told.asked.start % 10 == 0 and n[0] == told.asked.amount,
    "Ten before {n}?": lambda told, n: n[0] == told.asked.start,
    "What's the ten before {n}?": lambda told, n: n[0] == told.asked.start,
    "You're at {n}": lambda told, n: n[0] == told.asked.start,
    "What's the ten before?": lambda told, n: True,
    "How many to get there?": lambda told, n: True,
    "How many take you back there?": lambda told, n: True,
    "How many back to {n}?": lambda told, n: n[0] == told.ten,
    "How many back to the ten?": lambda told, n: True,
    "How many from {n} back to the ten?": lambda told, n: n[0] == told.asked.start,
    "How many of the {n} get you to {n}?": lambda told, n: n == (told.asked.amount, told.ten),
    "How many still to take?": lambda told, n: True,
    "How many of the {n} are still to take?": lambda told, n: n[0] == told.asked.amount,
    "{n} and {n}?": lambda told, n: n == told.pieces,
    "{n}, then {n} more?": lambda told, n: n == told.pieces and n[0] % 100 == 0,
    "All taken: so?": lambda told, n: told.total == told.ten,
}


def _takings(told: Told) -> set[tuple[int, int]]:
    rest = told.asked.amount - told.asked.start % 10
    return {(told.ten, rest), (told.ten, told.asked.amount), (told.taken_from, told.asked.amount)}


def flaws(turn: Turn, length: Length) -> Counter[str]:
    """What is amiss with one turn; nothing, if all is well."""
    told = Told(turn.asked, turn.part, turn.given)
    text = turn.text(length)
    readings = [_read(sentence, told) for sentence in re.findall(r"[^.?]+[.?]", text)]
    is_told = turn.given is not None and not turn.is_worked and length != "brief"
    total = turn.asked.total
    in_question = {turn.asked.start, turn.asked.amount, turn.given}
    if 2 * total == turn.asked.next_ten:
        in_question.add(total)  # the step is "ten take away five", of eleven take away six
    numbers = set(numbers_in(_without_names(text)))
    words = len(text.split()) + 2 * (turn.part in (Part.WHOLE, Part.TOTAL))
    return +Counter(
        {
            f"{length}: untrue: {text}": not all(is_true for is_true, _ in readings),
            f"{length}: holds the right answer: {text}": total in numbers - in_question,
            f"{length}: tells nothing of the number: {text}": is_told and not any(tells for _, tells in readings),
            f"{length}: scolds or names a pattern: {text}": bool(NOT_SAID.search(text)),
            f"{length}: too long: {text}": turn.asked.start < 100 and words > MOST_WORDS[length],
        }
    )


def is_true(sentence: str, told: Told) -> bool:
    return _read(sentence, told)[0]


def _without_names(text: str) -> str:
    """ "The ten before" is the name of a place and no number; so is a ten that is opened."""
    names = r"(?i)ten before|to the ten|past the ten|before the ten|not a ten|open a ten: ten|than ten\b"
    return re.sub(names, "", text)


def _read(sentence: str, told: Told) -> tuple[bool, bool]:
    """Whether it is true, and whether it is about the number and would be false of the right answer."""
    right = told.asked.answer_to(told.part)
    forms = _FORMS.that_fit(sentence.strip())
    for form, named, given in forms:
        about = ABOUT_GIVEN.get(form)
        if about and told.given is not None and given in (None, told.given) and about(told, told.given, named):
            return True, not about(told, right, named)
    if _spells(sentence.strip(), told):
        return True, False
    others = [BESIDE[form](told, named) for form, named, _ in forms if form in BESIDE]
    if not others and not any(form in ABOUT_GIVEN for form, _, _ in forms):
        raise AssertionError(f"a sentence of no known form: {sentence}")
    return any(others), False


def _spells(sentence: str, told: Told) -> bool:
    """ "The keys: four, five." and "Sixty-three is six tens and three." """
    plain = sentence.removesuffix(".").lower()
    digits = plain.removeprefix("the keys: ").split(", ")
    if told.given is not None and digits == [SMALL[int(digit)] for digit in str(told.given)]:
        return True
    named, _, places = plain.rpartition(" is ")
    found = re.fullmatch(r"([a-z]+) tens?(?:(?: and |, )([a-z]+))?", places)
    if not found or found[1] not in SMALL:
        return False
    value = 10 * SMALL.index(found[1]) + (SMALL.index(found[2]) if found[2] else 0)
    return value in (told.given, told.asked.start) and (not named or NUMBERS[named] == value)


_FORMS = Forms((*ABOUT_GIVEN, *BESIDE))
