"""What may be amiss with a turn of help, in each length.

What a sentence claims is read off its words (true_sentences). The ceilings in words are common practice: what is said
to a pupil who is thinking has to be short.
"""

import re
from collections import Counter
from functools import cache

from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.adding_steps import PART_MISTAKES
from saythesum.core.records.rows import Form, Support
from saythesum.core.sums import Part
from saythesum.settings import Length
from saythesum.wording.speak.said import said
from tests.proofs.all_help import HelpTurn
from tests.proofs.said_numbers import numbers_said
from tests.proofs.true_sentences import Told, read, sentences

MOST_WORDS: dict[Length, int] = {"brief": 12, "short": 20, "full": 28}
NAMES = tuple(mistake.name for mistakes in (CATALOGUE, PART_MISTAKES) for mistake in mistakes)
NEVER = ("forgot", "wrong", "!", "should", "try harder", "careful", "mistake", "nearly", "good try", "oops")
NOT_SAID = re.compile("|".join((*NAMES, *(name.replace("-", " ") for name in NAMES), *NEVER)), re.IGNORECASE)
WORKED = (Support.FIRST_STEP, Support.MODELLED)
"""Here the tool does a part, and need not speak of the number again."""


SMALL = (Part.ONES, Part.ONE_MORE, Part.TENS_OF_ONES)


def _asks_of_its_own(turn: HelpTurn) -> bool:
    """A small question turns the pupil to what went otherwise and need not name the number; nor is a number of tens
    told from what it is worth: "thirty is three tens"."""
    is_first = turn.part is Part.WHOLE and turn.ask.form in (Form.TELLING_APART, Form.AFTER_WRONG)
    is_worth_it = turn.part in (Part.TENS, Part.TENS_OF_ONES) and turn.given == 10 * turn.asked.answer_to(turn.part)
    return (is_first and (turn.ask.part in SMALL or turn.ask.form is Form.TELLING_APART)) or is_worth_it


def text_of(turn: HelpTurn, length: Length) -> str:
    return " ".join(text for message in turn.messages if (text := said(message, length)))


@cache
def numbers_of(text: str) -> set[int]:
    return numbers_said(text)


def flaws(turn: HelpTurn, length: Length) -> Counter[str]:
    """What is amiss with one turn; nothing, if all is well."""
    told = Told(turn.asked, turn.part, turn.given)
    text = text_of(turn, length)
    readings = [read(sentence, told) for sentence in sentences(text)]
    is_wrong = turn.given is not None and turn.given != turn.asked.answer_to(turn.part)
    is_told = is_wrong and turn.ask.support not in (*WORKED, Support.INDEPENDENT) and not _asks_of_its_own(turn)
    holds_answer = turn.ask.support not in (Support.MODELLED, Support.INDEPENDENT) and turn.given != turn.asked.total
    return +Counter(
        {
            f"{length}: nothing asked at its end": not said(turn.messages[-1], length),
            f"{length}: untrue": not all(reading.is_true for reading in readings),
            f"{length}: too long": len(text.split()) > MOST_WORDS[length],
            f"{length}: names a pattern, scolds or gushes": bool(NOT_SAID.search(text)),
            f"{length}: holds the right answer": holds_answer and turn.asked.total in numbers_of(text),
            f"{length}: leaves the number out": is_told
            and length != "brief"
            and not any(reading.names_given for reading in readings),
            f"{length}: would be true of the right answer": is_told
            and length != "brief"
            and not any(reading.tells_from_right for reading in readings),
        }
    )
