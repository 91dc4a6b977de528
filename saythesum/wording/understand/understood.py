"""What a line of text means: something typed, or what a recogniser wrote when it was free to write anything."""

from itertools import groupby

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.wording.understand.answers import NO, answer
from saythesum.wording.understand.beside_a_number import without_asides
from saythesum.wording.understand.choices import choice
from saythesum.wording.understand.grammar import fits
from saythesum.wording.understand.phrases import PHRASES, Where, open_for
from saythesum.wording.understand.sentences import wish
from saythesum.wording.understand.tokens import LONGEST_LINE, Line, split, without_pauses

SHORTEST_SPOKEN_WISH = 8
"""In letters. A test computes that what is longer is four sounds from every number."""
_FILLER = "like"
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
        _phrase(words, awaiting, typed=typed)
        or (choice(text) if awaiting is Awaiting.CHOICE else None)
        or (Choice(False) if awaiting is Awaiting.COMMAND and fits(NO, words) else None)
        or (_alone(words) if awaiting in NUMBER_KINDS else None)
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


def _phrase(words: Line, awaiting: Awaiting, *, typed: bool) -> Given | Choice | None:
    opened = open_for(awaiting, typed=typed)
    return next((phrase.meaning for phrase in opened if fits(phrase.rule, words)), None)


def _alone(words: Line) -> Given | None:
    """A short word where a number is awaited may be a misheard number: the dialogue asks before it acts on it."""
    if fits(NO, words):
        return Given(Command.NOT_WHAT_I_SAID, alone=True)
    for phrase in PHRASES:
        if phrase.meaning in _SAID_BACK_FIRST and phrase.where is Where.NO_NUMBER and fits(phrase.rule, words):
            return Given(phrase.meaning.command, alone=True)
    return None
