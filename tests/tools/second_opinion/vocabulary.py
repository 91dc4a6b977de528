"""What the second opinion tells apart: words one after the other, and meanings of whole answers, by name."""

from collections.abc import Iterator

from saythesum.core.meanings import Awaiting, Choice, Command, Given
from saythesum.wording.numbers import TENS, UNDER_TWENTY
from saythesum.wording.understand.phrases import spellings

HUNDREDS_TOLD_APART = 200
"""Numbers below it have a meaning of their own: no sum of a one-digit and a two-digit number reaches it."""
LONGER, YES, NO, OTHER = "longer", "yes", "no", "other"
"""A number of 200 and more; a choice; and whatever is none of all these."""

BLANK, OTHER_WORD = "", "…"
_JOINING = ("hundred", "thousand", "and", "a")


def phrases() -> dict[Command, tuple[str, ...]]:
    """Each spoken command with the ways of saying it, as the closed sets have them."""
    found: dict[Command, set[str]] = {}
    for awaiting in (Awaiting.COMMAND, Awaiting.CHOICE):
        for spelling in spellings(awaiting):
            if isinstance(spelling.meaning, Given):
                found.setdefault(spelling.meaning.command, set()).add(spelling.text)
    return {command: tuple(sorted(found[command])) for command in Command if command in found}


def choices() -> dict[str, str]:
    """Each way of saying yes or no, and which it is."""
    return {
        spelling.text: YES if spelling.meaning.yes else NO
        for spelling in spellings(Awaiting.CHOICE)
        if isinstance(spelling.meaning, Choice)
    }


def words_of(phrase: str) -> tuple[str, ...]:
    return tuple(phrase.lower().split())


def _words() -> Iterator[str]:
    yield from (BLANK, *UNDER_TWENTY, *TENS.values(), *_JOINING, YES, NO, OTHER_WORD)
    yield from (word for ways in phrases().values() for way in ways for word in words_of(way))


WORDS = tuple(dict.fromkeys(_words()))
"""The blank of connectionist temporal classification comes first."""
MEANINGS = (
    *(str(value) for value in range(HUNDREDS_TOLD_APART)),
    *(LONGER, YES, NO),
    *(command.value for command in phrases()),
    OTHER,
)
