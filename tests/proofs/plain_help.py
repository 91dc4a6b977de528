"""Every turn of help with a missing number or a larger amount, and what its sentences claim, read off their words.

As in `true_sentences`, nothing here asks the wording what it meant: a sentence has one of the forms below, its numbers
are read by a reader of its own. Most sentences are plain arithmetic and are worked out as they stand; the others are
held against the numbers that the question says, the number that was given and the one that would have been right.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from saythesum.core.exercises.exercise import Exercise, Lead, Remark
from saythesum.core.meanings import LARGEST_NUMBER
from saythesum.core.mistakes.anywhere import PREVIOUS_ANSWER
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.speak.exercises.said_exercises import remark_said, words_of
from tests.proofs.flaws_of_help import MOST_WORDS, NOT_SAID
from tests.proofs.forms import Forms, numbers_in


@dataclass(frozen=True, slots=True)
class Turn:
    asked: Exercise
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
        question = self.question
        told.append(remark_said(question, length) if question else words_of(self.asked).question(self.asked))
        return " ".join(filter(None, told))


def turns(asked: Exercise) -> Iterator[Turn]:
    yield from _after_a_whole(asked)
    if asked.parts:
        yield Turn(asked, Part.WHOLE, None, (), asked.question_for(asked.parts[0]), is_worked=True)
    for place, part in enumerate(asked.parts):
        for given in _wrong_at(asked, part):
            remarks = asked.about_part(part, given)
            lead = Lead(part, given, remarks=remarks, is_again=True)
            yield Turn(asked, part, given, remarks, asked.question_for(part, lead))
        if part is Part.TOTAL:
            continue
        lead = Lead(part, asked.answer_to(part), is_right=True)
        following = asked.question_for(asked.parts[place + 1], lead)
        yield Turn(asked, part, None, asked.after_right(lead), following, is_worked=True)
        if asked.can_do(part):
            after = asked.question_for(asked.part_after_doing(part), Lead(is_again=True))
            yield Turn(asked, part, None, (asked.done(part),), after, is_worked=True)


def _after_a_whole(asked: Exercise) -> Iterator[Turn]:
    occasion = Occasion(asked, is_typed=True)
    for given in _wrong_wholes(asked):
        begins = {one.help for one in asked.patterns if one.fits(occasion, given)} | {PREVIOUS_ANSWER.help}
        for help in {asked.help_from(one, given) for one in begins}:
            lead = Lead(Part.WHOLE, given, remarks=help.remarks)
            question = None if help.part is Part.WHOLE else asked.question_for(help.part, lead)
            yield Turn(asked, Part.WHOLE, given, help.remarks, question)


def _wrong_wholes(asked: Exercise) -> list[int]:
    occasion = Occasion(asked, is_typed=True)
    explained = {value for one in asked.patterns for value in one.gives(occasion)}
    near = {asked.total + step for step in (-100, -20, -11, *range(-3, 4), 11, 20, 100)}
    return _possible({*explained, *near, *_said(asked), 0, LARGEST_NUMBER}, asked.total)


def _wrong_at(asked: Exercise, part: Part) -> list[int]:
    right = asked.answer_to(part)
    near = {right + step for step in (-20, -10, -2, -1, 1, 2, 10, 20)}
    return _possible({*range(21), *near, *_said(asked), *map(asked.answer_to, asked.parts)}, right)


def _possible(numbers: set[int], right: int) -> list[int]:
    return sorted(numbers & set(range(LARGEST_NUMBER + 1)) - {right})


def _said(asked: Exercise) -> set[int]:
    """The numbers of the question."""
    return {int(word) for word in re.findall(r"\d+", asked.shown)}


# ---- what sentences claim


@dataclass(frozen=True, slots=True)
class Told:
    turn: Turn
    said: frozenset[int] = field(init=False)
    steps: frozenset[int] = field(init=False)
    """The answers to the steps."""

    def __post_init__(self) -> None:
        asked = self.turn.asked
        object.__setattr__(self, "said", frozenset(_said(asked)))
        object.__setattr__(self, "steps", frozenset(map(asked.answer_to, asked.parts)))

    @property
    def given(self) -> int:
        return -1 if self.turn.given is None else self.turn.given

    @property
    def right(self) -> int:
        return self.turn.asked.answer_to(self.turn.part)

    @property
    def known(self) -> frozenset[int]:
        """All numbers that may stand in a question: those that it says, its steps, their tens and ones."""
        both = self.said | self.steps
        tens = {number - number % 10 for number in both}
        return both | tens | {number - ten for number in both for ten in tens if number >= ten} | {10}


_Claim = Callable[[Told, tuple[int, ...]], bool]

ARITHMETIC: dict[str, _Claim] = {
    "{n} add {n} is {n}": lambda told, n: n[0] + n[1] == n[2],
    "{n} and {n} is {n}": lambda told, n: n[0] + n[1] == n[2],
    "Yes, {n} and {n} is {n}": lambda told, n: n[0] + n[1] == n[2],
    "{n} and {n} is {n}, and {n} more": lambda told, n: n[0] + n[1] == n[2],
    "{n} take away {n} is {n}": lambda told, n: n[0] - n[1] == n[2],
    "Yes, {n} take away {n} is {n}": lambda told, n: n[0] - n[1] == n[2],
    "{n} is less than {n} add {n}": lambda told, n: n[0] < n[1] + n[2],
    "{n} is more than {n} add {n}": lambda told, n: n[0] > n[1] + n[2],
    "{n} is less than {n} take away {n}": lambda told, n: n[0] < n[1] - n[2],
    "{n} is more than {n} take away {n}": lambda told, n: n[0] > n[1] - n[2],
    "{n} is {n} before {n}": lambda told, n: n[0] == n[2] - n[1],
    "{n} is {n} past {n}": lambda told, n: n[0] == n[1] + n[2],
    "{n} is {n} less than {n}": lambda told, n: n[0] == n[2] - n[1],
    "{n} is {n} more than {n}": lambda told, n: n[0] == n[1] + n[2],
    "{n} comes before {n}": lambda told, n: n[0] <= n[1],
    "{n} comes after {n}": lambda told, n: n[0] > n[1],
    "{n} is less than {n}": lambda told, n: n[0] < n[1],
    "{n} is more than {n}": lambda told, n: n[0] > n[1],
    "{n} is more than ten past {n}": lambda told, n: n[0] > n[1] + 10,
    "{n} is more than ten below {n}": lambda told, n: n[0] < n[1] - 10,
    "{n} is far past {n}": lambda told, n: n[0] >= n[1] + 20,
    "{n} is too far past {n}": lambda told, n: n[0] > n[1] + 10,
    "{n} is far below {n}": lambda told, n: n[0] <= n[1] - 20,
    "{n} is not a ten": lambda told, n: n[0] % 10 > 0,
    "The next ten is {n}": lambda told, n: n[0] % 10 == 0,
    "The ten before {n} is {n}": lambda told, n: n[1] == n[0] - n[0] % 10,
    "After {n}, it's ten": lambda told, n: n[0] < 10,
}
"""True or not as they stand."""

OF_THE_QUESTION: dict[str, _Claim] = {
    "That makes {n}": lambda told, n: n[0] in _made(told),
    "That leaves {n}": lambda told, n: n[0] in _made(told),
    "That's taking away {n}": lambda told, n: any(value - n[0] == told.given for value in told.known),
    "{n} add {n}": lambda told, n: set(n) == told.said,
    "{n} take away {n}": lambda told, n: set(n) == told.said,
    "That's the tens": lambda told, n: told.given in told.steps,
    "{n} more": lambda told, n: n[0] in _ones_said(told),
    "{n} more to add": lambda told, n: n[0] in _ones_said(told),
    "{n} more to take away": lambda told, n: n[0] in _ones_said(told),
    "That's adding {n}": lambda told, n: any(value + n[0] == told.given for value in told.known),
    "We need {n}": lambda told, n: n[0] in told.said | told.steps | {10} | _ones_said(told),
    "We're adding {n}": lambda told, n: n[0] in told.known,
    "We're taking away {n}": lambda told, n: n[0] in told.known,
    "{n} is too many": lambda told, n: n[0] == told.given > told.right,
    "{n} is too few": lambda told, n: n[0] == told.given < told.right,
    "{n} is too many to stay": lambda told, n: n[0] == told.given > told.right,
    "{n} is too few to stay": lambda told, n: n[0] == told.given < told.right,
    "{n} is too far": lambda told, n: n[0] == told.given,
    "{n} is what it makes": lambda told, n: n[0] in told.said and n[0] == max(told.said),
    "{n} is what it leaves": lambda told, n: n[0] in told.said,
    "{n} is what we take": lambda told, n: n[0] in told.steps,
    "{n} is part of it": lambda told, n: n[0] == told.given and n[0] in told.known,
    "That's part of it": lambda told, n: told.given in told.known,
    "{n} is the other part": lambda told, n: n[0] + told.given == told.right,
    "{n} is all of it": lambda told, n: n[0] == told.given,
    "{n} is with nothing taken": lambda told, n: n[0] == told.given,
    "Nothing is taken there": lambda told, n: True,
    "{n} goes past {n}": lambda told, n: n[1] in told.steps,
    "That goes past {n}": lambda told, n: n[0] in told.steps,
    "That's past {n}": lambda told, n: n[0] in told.steps,
    "That's past the ten": lambda told, n: True,
    "That's past the next ten": lambda told, n: True,
    "That's before {n}": lambda told, n: n[0] in told.steps,
    "That's before the ten": lambda told, n: True,
    "That's before the next ten": lambda told, n: True,
    "{n} gets you to {n}": lambda told, n: n[1] in told.steps,
    "{n} gets you to the ten": lambda told, n: n[0] in told.steps,
    "It takes {n} to the next ten": lambda told, n: n[0] in told.steps,
    "{n} to the next ten": lambda told, n: n[0] in told.steps,
    "{n} to {n}": lambda told, n: n[0] in told.steps and n[1] in told.steps,
    "{n} reaches the next ten": lambda told, n: n[0] in told.steps,
    "{n} is where we start": lambda told, n: n[0] in told.known,
    "Less than {n}": lambda told, n: told.given < n[0],
    "More than {n}": lambda told, n: told.given > n[0],
    "Far below {n}": lambda told, n: told.given <= n[0] - 20,
    "Far past {n}": lambda told, n: told.given >= n[0] + 20,
    "Too far past {n}": lambda told, n: told.given > n[0] + 10,
    "{n} past {n}": lambda told, n: told.given == n[0] + n[1],
    "{n} ends in {n}": lambda told, n: n[0] % 10 == n[1],
    "You're at {n}": lambda told, n: n[0] in told.known,
    "{n} of the {n} are used": lambda told, n: n[0] in told.steps,
    "{n} of the {n} is used": lambda told, n: n[0] in told.steps,
    "That's the start": lambda told, n: told.given in told.known,
    "{n} before {n}": lambda told, n: told.given == n[1] - n[0],
    "{n} more than {n}": lambda told, n: told.given == n[0] + n[1],
    "{n} less than {n}": lambda told, n: told.given == n[1] - n[0],
    "Too far": lambda told, n: True,
    "Too many": lambda told, n: told.given > told.right,
    "Too few": lambda told, n: told.given < told.right,
    "It makes that": lambda told, n: told.given in told.said,
    "It leaves that": lambda told, n: told.given in told.said,
    "Adding goes up": lambda told, n: True,
    "Taking away goes down": lambda told, n: True,
    "I'll do this bit": lambda told, n: True,
    "Work back": lambda told, n: True,
    "Work back: {n} take away {n}": lambda told, n: n[0] - n[1] == told.turn.asked.total and n[0] in told.said,
    "Work back: {n} add {n}": lambda told, n: n[0] + n[1] == told.turn.asked.total and n[0] in told.said,
    "{n}": lambda told, n: n[0] == told.right,
    "Yes, {n}": lambda told, n: n[0] == told.right,
    "{n} of the {n}": lambda told, n: n[0] == told.right,
}

QUESTION = re.compile(r"[^.?]+\?")


def _made(told: Told) -> set[int]:
    """What comes of the number in the place of the one that was asked for."""
    numbers = told.known
    return {one + told.given for one in numbers} | {abs(one - told.given) for one in numbers}


def _ones_said(told: Told) -> set[int]:
    return {number % 10 for number in told.said}


def flaws(turn: Turn, length: Length) -> Counter[str]:
    """What is amiss with one turn; nothing, if all is well."""
    told = Told(turn)
    text = turn.text(length)
    statements = [one.strip() for one in re.findall(r"[^.?]+\.", text)]
    claims = [_claim(one, told) for one in statements]
    total = turn.asked.total
    in_question = {*told.said, turn.given}
    numbers = set(numbers_in(_without_names(text)))
    is_told = turn.given is not None and not turn.is_worked
    is_judged = turn.given is not None and turn.part in (Part.WHOLE, Part.TOTAL)
    words = len(text.split()) + 2 * is_judged
    is_small = max(told.said | told.steps) < 100
    return +Counter(
        {
            f"{length}: untrue: {text}": not all(claims),
            f"{length}: holds the right answer: {text}": total in numbers - in_question and not _is_step(turn, told),
            f"{length}: tells nothing of the number: {text}": is_told
            and turn.given not in numbers
            and not any(_tells(one, told) for one in statements),
            f"{length}: asks of other numbers: {text}": not _asks_of_its_own(text, told),
            f"{length}: scolds or names a pattern: {text}": bool(NOT_SAID.search(text)),
            f"{length}: too long: {text}": is_small and words > MOST_WORDS[length],
        }
    )


def _is_step(turn: Turn, told: Told) -> bool:
    """Two numbers of one sum are the same: "ten take away five" is a step of eleven take away six."""
    asked = turn.asked
    others = [asked.answer_to(part) for part in asked.parts if part is not Part.TOTAL]
    return asked.total in others or asked.total in {number % 10 for number in told.said}


def _tells(statement: str, told: Told) -> bool:
    """Whether it speaks of the number that was given, by itself or by what comes of it."""
    numbers = set(numbers_in(statement))
    return (
        told.given in numbers
        or statement.startswith(("That", "It ", "Less", "More", "Far", "Too", "Nothing", "Taking"))
        or (bool(re.search(r"past|before|more than|less than", statement)))
    )


def _asks_of_its_own(text: str, told: Told) -> bool:
    asked = " ".join(QUESTION.findall(text))
    numbers = set(numbers_in(_without_names(asked)))
    return numbers <= told.known


def _claim(sentence: str, told: Told) -> bool:
    found = _FORMS.that_fit(sentence)
    if not found:
        raise AssertionError(f"a sentence of no known form: {sentence}")
    return any((ARITHMETIC.get(form) or OF_THE_QUESTION[form])(told, numbers) for form, numbers, _ in found)


def is_true(sentence: str, turn: Turn) -> bool:
    return _claim(sentence, Told(turn))


def _without_names(text: str) -> str:
    """ "The next ten" is the name of a place and no number."""
    names = r"(?i)next ten|ten before|to the ten|past the ten|before the ten|not a ten|open a ten: ten|than ten\b"
    return re.sub(names, "", text)


_FORMS = Forms((*ARITHMETIC, *OF_THE_QUESTION))
