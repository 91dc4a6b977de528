"""What a line of text means: something typed, or what a recogniser wrote when it was free to write anything."""

from collections.abc import Iterable, Mapping
from functools import cache
from itertools import groupby
from typing import TypeVar

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.wording.understand.answers import NO, answer
from saythesum.wording.understand.beside_a_number import without_asides
from saythesum.wording.understand.choices import choice
from saythesum.wording.understand.grammar import Rule, bare, fits, written
from saythesum.wording.understand.phrases import PHRASES, Where, open_for
from saythesum.wording.understand.sentences import wish
from saythesum.wording.understand.tokens import LONGEST_LINE, Line, split, without_pauses

SHORTEST_SPOKEN_WISH = 8
"""In letters. A test computes that what is longer is four sounds from every number."""
_FILLER = "like"
_T = TypeVar("_T", bound=Meaning)
_SAID_BACK_FIRST = {Given(Command.STOP), Given(Command.HELP), Given(Command.WAIT)}


def understood(text: str, awaiting: Awaiting, *, typed: bool = False) -> Meaning:
    """A typed line may use every command in any form; one that was spoken only those open for `awaiting`.

    Never raises, whatever the text. `WhyUnclear.NOTHING` is an empty line, or one that only hesitates ("um").
    """
    if len(text.strip()) > LONGEST_LINE:
        return Unclear(WhyUnclear.OTHER)
    line = split(text)
    if not set(without_pauses(line)) - {_FILLER} and not (awaiting is Awaiting.CHOICE and choice(text)):
        return Unclear(WhyUnclear.NOTHING)
    words = tuple(word for word, _ in groupby(without_pauses(line)) if word != "oh")
    return (
        _meanings(awaiting, typed).get(words)
        or (choice(text) if awaiting is Awaiting.CHOICE else None)
        or (Choice(False) if awaiting is Awaiting.COMMAND and fits(NO, words) else None)
        or (_meanings_alone().get(words) if awaiting in NUMBER_KINDS else None)
        or _answer(line, awaiting)
        or _wish(line, awaiting, typed=typed)
        or answer(line, awaiting)
    )


def _answer(line: Line, awaiting: Awaiting) -> Meaning | None:
    """The number or choice in it, also with an aside beside it. None where there is none to be found."""
    meant = answer(line, awaiting)
    if not isinstance(meant, Unclear):
        return meant
    alone = answer(without_asides(line), awaiting)
    if isinstance(alone, Number):
        return alone
    return meant if meant.why is WhyUnclear.TWO_NUMBERS else None


def _wish(line: Line, awaiting: Awaiting, *, typed: bool) -> Given | None:
    """Where a number is awaited a few sounds that were spoken may be a misheard number."""
    letters = sum(map(len, without_pauses(line)))
    if awaiting in NUMBER_KINDS and not typed and letters < SHORTEST_SPOKEN_WISH:
        return None
    command = wish(line)
    return Given(command) if command else None


@cache
def _meanings(awaiting: Awaiting, typed: bool) -> Mapping[Line, Given | Choice]:
    """Of every way to write a phrase."""
    return _by_line((phrase.rule, phrase.meaning) for phrase in open_for(awaiting, typed=typed))


@cache
def _meanings_alone() -> Mapping[Line, Given]:
    """Of a short word where a number is awaited, which may be a misheard number: the dialogue asks before it acts."""
    short = [
        (phrase.rule, Given(phrase.meaning.command, alone=True))
        for phrase in PHRASES
        if isinstance(phrase.meaning, Given) and phrase.meaning in _SAID_BACK_FIRST and phrase.where is Where.NO_NUMBER
    ]
    return _by_line([(NO, Given(Command.NOT_WHAT_I_SAID, alone=True)), *short])


def _by_line(meant: Iterable[tuple[Rule, _T]]) -> Mapping[Line, _T]:
    """Of two that are written alike the first counts."""
    meanings: dict[Line, _T] = {}
    for rule, meaning in meant:
        for text in written(rule):
            meanings.setdefault(tuple(map(bare, text.split())), meaning)
    return meanings
