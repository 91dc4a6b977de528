"""What the tool says: British English, in brief, short and full wording.

Ceilings in words, brief, short and full: a question 5, 8, 12 (12 with its row), a verdict 3, a help turn 12, 20, 28.
Number words that stand side by side are kept apart by a word or a full stop, so that no voice joins them.
"""

from typing import assert_never

from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.speak.said_of_numbers import of_whole, verdict
from saythesum.wording.speak.said_of_parts import of_part
from saythesum.wording.speak.said_one_by_one import one_by_one
from saythesum.wording.speak.said_places import place
from saythesum.wording.speak.said_steps import help_line, question
from saythesum.wording.speak.said_talk import hearing, pausing


def said(message: say.Message, length: Length) -> str:
    """One or more sentences; "" where this length leaves the message out."""
    if isinstance(message, say.Place):
        return place(message, length)
    if isinstance(message, say.Question):
        return question(message, length)
    if isinstance(message, say.Verdict):
        return verdict(message, length)
    if isinstance(message, say.OfWhole):
        return of_whole(message, length)
    if isinstance(message, say.OfPart):
        return of_part(message, length)
    if isinstance(message, say.Help):
        return help_line(message, length)
    if isinstance(message, say.Hearing):
        return hearing(message)
    if isinstance(message, say.Pausing):
        return pausing(message)
    if isinstance(message, say.OneByOneSums):
        return one_by_one(message, length)
    assert_never(message)
