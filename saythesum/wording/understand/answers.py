"""The number that a sentence gives as its answer.

Nothing is guessed: a line with a word in it that belongs to no known way of giving an answer is not understood,
nor is a line with two different numbers, except where it says itself which of them counts.
"""

from dataclasses import dataclass, replace
from enum import Enum, auto

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Meaning, Unclear, WhyUnclear
from saythesum.wording.understand.grammar import Rule, either, ends, maybe, say
from saythesum.wording.understand.number_parser import JOINS, UNITS, is_number_word, number_of, with_homophones_read
from saythesum.wording.understand.phrases import NOT_SAID, SAID_FIRST
from saythesum.wording.understand.tokens import PAUSE, Line


class _Turn(Enum):
    """What a piece of a line begins with."""

    NO = auto()
    I_SAID = auto()
    I_SAID_FIRST = auto()
    CHANGED_MIND = auto()


NO = either("no", "nope")
_TURNS = {
    _Turn.NO: NO,
    _Turn.I_SAID: either(say("I", maybe("already"), "said"), "what I said was"),
    _Turn.CHANGED_MIND: either("I mean", "I meant", "sorry", "wait", "actually", "hang on", "hold on", "or rather"),
}
_SAID_EARLIER = {"first", "before", "already"}
_YES = {"yes", "yeah", "yep", "yup"}
_NONE = {"nothing", "none"}
_EQUALS = {"is", "its", "thats", "makes", "make", "equals", "gives", "get"}
_SMALL_TALK = """
a altogether another answer answers are be could equal getting got guess i innit isnt it just know left like
made maybe miss more must my need needs not now number of oh or perhaps please probably reckon right say sir
still that the them then there theres think was we will would you
"""
_AROUND = _YES | _EQUALS | JOINS | {PAUSE, *_SMALL_TALK.split()}
"""Words that may stand around a number and change nothing."""


@dataclass(frozen=True, slots=True)
class _Part:
    """A piece of a line, without the words that it began with."""

    turn: _Turn | None
    words: Line = ()

    @property
    def has_number(self) -> bool:
        return any(is_number_word(word) for word in self.words)

    @property
    def is_known(self) -> bool:
        return all(is_number_word(word) or word in _AROUND for word in self.words)


def answer(line: Line, awaiting: Awaiting) -> Meaning:
    line, said_first = _without(line, SAID_FIRST)
    line, not_said = _without(line, NOT_SAID)
    if (said_first or not_said) and not set(line) - {PAUSE, "oh", "no", "but"}:
        return Given(Command.NOT_WHAT_I_SAID if not_said else Command.SAID_FIRST)
    parts = _parts(_with_disguised_read(line, awaiting))
    if not all(part.is_known for part in parts):
        return Unclear(WhyUnclear.OTHER)
    choice = _choice(parts) if awaiting is Awaiting.CHOICE else None
    if choice:
        return choice
    number = number_of(_concluded(parts[-1].words))
    if isinstance(number, Unclear):
        return number
    said_first = said_first or parts[-1].turn is _Turn.I_SAID_FIRST
    objecting = not_said or number.objecting or _is_objection(parts)
    corrected = parts[-1].turn is not None or any(part.has_number for part in parts[:-1])
    return replace(number, said_first=said_first, objecting=objecting and not said_first, corrected=corrected)


def _without_pointing(line: Line) -> Line:
    """ "That one" and "this one" point at something: their "one" is no number, unless it begins one ("one hundred")."""
    words: list[str] = []
    for at, word in enumerate(line):
        is_pointed = word == "one" and bool(words) and words[-1] in ("that", "this")
        if is_pointed and not (at + 1 < len(line) and is_number_word(line[at + 1])):
            words[-1] = "it"
        else:
            words.append(word)
    return tuple(words)


def _without(line: Line, rule: Rule) -> tuple[Line, bool]:
    for at in range(len(line)):
        end = max(ends(rule, line, at), default=at)
        if end > at:
            return (*line[:at], PAUSE, *line[end:]), True
    return line, False


def _with_disguised_read(line: Line, awaiting: Awaiting) -> Line:
    """Words that are numbers only because a number is awaited."""
    line = _without_pointing(line)
    if awaiting is Awaiting.STEP:
        line = tuple("zero" if word in _NONE else word for word in line)
    return with_homophones_read(line) if awaiting in NUMBER_KINDS else line


def _parts(line: Line) -> tuple[_Part, ...]:
    parts = [_Part(None)]
    at = 0
    while at < len(line):
        turn, end = next(((turn, end) for turn in _TURNS for end in ends(_TURNS[turn], line, at)), (None, at + 1))
        if turn:
            parts.append(_Part(turn))
        else:
            parts[-1] = replace(parts[-1], words=(*parts[-1].words, line[at]))
        at = end
    return _with_last_turn_settled(parts)


def _with_last_turn_settled(parts: list[_Part]) -> tuple[_Part, ...]:
    """ "I said" may also come after its number, and "first" says that it is no objection."""
    last = replace(parts[-1], words=_trimmed(parts[-1].words))
    if last.turn is not _Turn.I_SAID:
        return (*parts[:-1], last)
    if not last.words:
        return (*parts[:-2], replace(parts[-2], turn=_Turn.I_SAID))
    if last.words[-1] in _SAID_EARLIER:
        last = _Part(_Turn.I_SAID_FIRST, last.words[:-1])
    return (*parts[:-1], last)


def _trimmed(words: Line) -> Line:
    return _trimmed(words[:-1]) if words[-1:] == (PAUSE,) else words


def _choice(parts: tuple[_Part, ...]) -> Choice | None:
    """ "Yes, forty-three" only repeats what was asked; "no, forty-two" is more than a no."""
    says_yes = not _YES.isdisjoint(parts[-1].words)
    if len(parts) == 1:
        return Choice(True) if says_yes else None
    says_no = parts[-1].turn is _Turn.NO and not says_yes and not any(part.has_number for part in parts)
    return Choice(False) if says_no else None


def _is_objection(parts: tuple[_Part, ...]) -> bool:
    """ "No" with a number before it is a change of mind; "I said" never is."""
    turns = {part.turn for part in parts}
    corrected = any(part.has_number for part in parts[:-1])
    return _Turn.I_SAID in turns or (_Turn.NO in turns and not corrected)


def _concluded(words: Line) -> Line:
    """ "Forty-seven add five is fifty-two": what comes after the last "is" of a sum; without a sum, everything."""
    worked = [at for at in range(1, len(words)) if words[at] in JOINS and words[at - 1] not in UNITS]
    if worked and any(is_number_word(word) for word in words[: worked[0]]):
        for at in range(len(words) - 1, worked[0], -1):
            if words[at] in _EQUALS and any(is_number_word(word) for word in words[at:]):
                return words[at + 1 :]
    return words
