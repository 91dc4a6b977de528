"""The number that a sentence gives as its answer.

Nothing is guessed: a line with a word in it that belongs to no known way of giving an answer is not understood,
nor is a line with two different numbers, except where it says itself which of them counts.
"""

from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from saythesum.dialogue.heard import (
    LARGEST_NUMBER,
    NUMBER_KINDS,
    Awaiting,
    Choice,
    Command,
    Given,
    Number,
    Unclear,
    Understood,
    Why,
)
from saythesum.wording.lines import PAUSE, Line, without_pauses
from saythesum.wording.phrases import NOT_SAID, SAID_FIRST
from saythesum.wording.reading import UNITS, Item, is_number_word, items, spelled_out, with_homophones_read
from saythesum.wording.rules import Rule, either, ends, maybe, say

_OTHER = Unclear(Why.OTHER)

NO = either("no", "nope")
YES = either("yes", "yeah", "yep", "yup")
_I_SAID = either(say("I", maybe("already"), "said"), "what I said was")
_CHANGED_MIND = either("I mean", "I meant", "sorry", "wait", "actually", "hang on", "hold on", "or rather")
_TURNS = {"no": NO, "I said": _I_SAID, "changed mind": _CHANGED_MIND}

_SAID_EARLIER = {"first", "before", "already"}
_NONE = {"nothing", "none"}
_EQUALS = {"is", "its", "thats", "makes", "make", "equals", "gives", "get"}
_TAKES = {"minus", "take", "less"}
_JOINS = {"add", "plus", "and", "away"} | _TAKES
_AROUND = {
    *("a", "it", "that", "the", "answer", "my", "i", "im", "think", "know", "guess", "reckon", "just", "say", "number"),
    *("made", "equal", "would", "be", "could", "must", "will", "got", "to", "isnt", "innit", "right", "then", "now"),
    *("maybe", "perhaps", "probably", "please", "was", "like", "altogether", "still", "theres", "there", "are", "left"),
    *("more", "another", "need", "needs", "you", "we", "them", "not", "or", "oh", "yes", "yeah", "yep", "yup", PAUSE),
} | (_EQUALS | _JOINS)


@dataclass(frozen=True, slots=True)
class _Part:
    """A stretch of a line, and the turn it began with: "no", "I said", a change of mind, or none ("")."""

    turn: str
    words: Line

    @property
    def has_number(self) -> bool:
        return any(is_number_word(word) for word in self.words)


def answer(line: Line, awaiting: Awaiting) -> Understood:
    line, said_first = _without(line, SAID_FIRST)
    line, not_said = _without(line, NOT_SAID)
    if not without_pauses(line):
        return Given(Command.NOT_WHAT_I_SAID if not_said else Command.SAID_FIRST)
    if awaiting in NUMBER_KINDS:
        line = with_homophones_read(line)
    if awaiting is Awaiting.STEP:
        line = tuple("zero" if word in _NONE else word for word in line)
    parts = _parts(line)
    if awaiting is Awaiting.CHOICE and parts[1:2] and parts[1].turn == "no" and not _has_number(parts):
        return Choice(False) if _is_known(parts) else _OTHER
    turns = {part.turn for part in parts}
    last = parts[-1]
    if "I said" in turns and last.words[-1:] and last.words[-1] in _SAID_EARLIER:
        said_first, last = True, replace(last, words=last.words[:-1])
    elif last.turn == "I said" and not without_pauses(last.words) and len(parts) > 1:
        parts, last = parts[:-1], parts[-2]
    if not _is_known((*parts[:-1], last)):
        return _OTHER
    number = _number(_concluded(last.words))
    if isinstance(number, Unclear):
        return number
    objecting = not_said or number.objecting or "I said" in turns or ("no" in turns and not _has_number(parts[:-1]))
    return replace(number, said_first=said_first, objecting=objecting and not said_first)


def _without(line: Line, rule: Rule) -> tuple[Line, bool]:
    for at in range(len(line)):
        for end in sorted(ends(rule, line, at), reverse=True):
            return (*line[:at], PAUSE, *line[end:]), True
    return line, False


def _parts(line: Line) -> tuple[_Part, ...]:
    parts = [_Part("", ())]
    at = 0
    while at < len(line):
        turn, end = _turn(line, at)
        if turn:
            parts.append(_Part(turn, ()))
        else:
            parts[-1] = replace(parts[-1], words=(*parts[-1].words, line[at]))
        at = end
    return tuple(parts)


def _turn(line: Line, at: int) -> tuple[str, int]:
    for turn, rule in _TURNS.items():
        for end in ends(rule, line, at):
            return turn, end
    return "", at + 1


def _has_number(parts: tuple[_Part, ...]) -> bool:
    return any(part.has_number for part in parts)


def _is_known(parts: tuple[_Part, ...]) -> bool:
    return all(is_number_word(word) or word in _AROUND for part in parts for word in part.words)


def _concluded(words: Line) -> Line:
    """ "Forty-seven add five is fifty-two": what comes after the last "is"; the words as they are if none is worked."""
    worked = [at for at in range(1, len(words)) if words[at] in _JOINS and words[at - 1] not in UNITS]
    if worked and any(is_number_word(word) for word in words[: worked[0]]):
        for at in range(len(words) - 1, worked[0], -1):
            if words[at] in _EQUALS and any(is_number_word(word) for word in words[at:]):
                return words[at + 1 :]
    return words


def _number(words: Line) -> Number | Unclear:
    found = items(words)
    around = [item for item in found if item != PAUSE]
    kept = [value for at, value in enumerate(found) if isinstance(value, int) and not _is_denied(found, at)]
    values = [value for value, _ in groupby(kept)]
    if not values or max(values) > LARGEST_NUMBER or around[-1] in _JOINS | {"or"} or _TAKES & set(words):
        return _OTHER
    spelled = spelled_out(words)
    objecting = len(kept) < sum(isinstance(item, int) for item in found)
    if spelled is not None and "oh" in words:
        return Number(spelled)
    if len(values) == 1:
        return Number(values[0], objecting=objecting)
    if {"or", "add", "plus"} & set(found):
        return Unclear(Why.TWO_NUMBERS)
    if _is_count(found, values):
        return Number(values[-1], counting=True)
    if _is_begun_again(values):
        return Number(values[-1])
    return Unclear(Why.TWO_NUMBERS) if spelled is None else Number(spelled)


def _is_denied(found: tuple[Item, ...], at: int) -> bool:
    """ "Not fifty-two, sixty-two"."""
    return at > 0 and found[at - 1] == "not" and not isinstance((*found, "")[at + 1], int)


def _is_count(found: tuple[Item, ...], values: list[int]) -> bool:
    """Counting aloud goes up by one at first, and up all the way: the last number may be a jump to the answer.

    Two numbers are a count only with a pause between them.
    """
    if values[1] - values[0] != 1 or any(later <= earlier for earlier, later in pairwise(values)):
        return False
    first_end = max(at for at, item in enumerate(found) if item == values[0])
    between = found[first_end + 1 : found.index(values[1])]
    return len(values) > 2 or (bool(between) and set(between) == {PAUSE})


def _is_begun_again(values: list[int]) -> bool:
    """ "Forty … forty-three": a round number, then the whole of it."""
    return all(
        (round_one % 100 == 0 and round_one < whole < round_one + 100)
        or (round_one % 100 >= 20 and round_one % 10 == 0 and round_one < whole < round_one + 10)
        for round_one, whole in pairwise(values)
    )
