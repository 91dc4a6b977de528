"""What a whole sentence wishes for. Sentences are typed lines and what an engine wrote freely, never closed sets."""

import re
from functools import cache

from saythesum.core.meanings import Command
from saythesum.wording.understand.patterns import compiled
from saythesum.wording.understand.plain_sentence import plain
from saythesum.wording.understand.tokens import Line, without_pauses
from saythesum.wording.understand.wishes import SETS, SURE, TO_SOMEBODY_ELSE, WISHES


@cache
def _pattern(ways: tuple[str, ...]) -> re.Pattern[str]:
    """Compiled when first searched for: a start by keys never needs them, and all take a tenth of a second."""
    return compiled(ways, SETS)


def wish(line: Line) -> Command | None:
    """None where the line is no wish, or none that is known."""
    words = _spaced(plain(line))
    if _pattern(dict(WISHES)[Command.NEEDS_ADULT]).search(words):
        return Command.NEEDS_ADULT
    if _pattern(TO_SOMEBODY_ELSE).search(_spaced(without_pauses(line))):
        return None
    return next((command for command, ways in (*SURE, *WISHES) if _pattern(ways).search(words)), None)


def _spaced(words: Line) -> str:
    return "".join(f"{word} " for word in words)
