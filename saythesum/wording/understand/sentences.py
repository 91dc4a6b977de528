"""What a whole sentence wishes for. Sentences are typed lines and what an engine wrote freely, never closed sets."""

from saythesum.core.meanings import Command
from saythesum.wording.understand.patterns import compiled
from saythesum.wording.understand.plain_sentence import plain
from saythesum.wording.understand.tokens import Line, without_pauses
from saythesum.wording.understand.wishes import SETS, SURE, TO_SOMEBODY_ELSE, WISHES

_ELSEWHERE = compiled(TO_SOMEBODY_ELSE, SETS)
_ADULT = compiled(dict(WISHES)[Command.NEEDS_ADULT], SETS)
_IN_ORDER = [(command, compiled(ways, SETS)) for command, ways in (*SURE, *WISHES)]


def wish(line: Line) -> Command | None:
    """None where the line is no wish, or none that is known."""
    words = _spaced(plain(line))
    if _ADULT.search(words):
        return Command.NEEDS_ADULT
    if _ELSEWHERE.search(_spaced(without_pauses(line))):
        return None
    return next((command for command, ways in _IN_ORDER if ways.search(words)), None)


def _spaced(words: Line) -> str:
    return "".join(f"{word} " for word in words)
