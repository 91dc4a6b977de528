"""What the tool says: British English, in brief, short and full wording.

Ceilings in words, brief, short and full: a question 5, 8, 12 (12 with its row), a verdict 3, a help turn 12, 20, 28.
Number words that stand side by side are kept apart by a word or a full stop, so that no voice joins them.
"""

from typing import assert_never

from saythesum.core.exercises.exercise import Remark
from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.speak.exercises.said_exercises import remark_said
from saythesum.wording.speak.said_of_facts import of_facts
from saythesum.wording.speak.said_one_by_one import one_by_one
from saythesum.wording.speak.said_pattern_talk import pattern_talk
from saythesum.wording.speak.said_places import place
from saythesum.wording.speak.said_talk import hearing, pausing
from saythesum.wording.speak.said_verdicts import help_line, verdict, whole_question


def said(message: say.Message, length: Length) -> str:
    """One or more sentences; "" where this length leaves the message out."""
    if isinstance(message, say.Place):
        return place(message, length)
    if isinstance(message, say.AskWhole):
        return whole_question(message, length)
    if isinstance(message, say.Verdict):
        return verdict(message, length)
    if isinstance(message, Remark):
        return remark_said(message, length)
    if isinstance(message, say.Help):
        return help_line(message, length)
    if isinstance(message, say.Hearing):
        return hearing(message)
    if isinstance(message, say.Pausing):
        return pausing(message)
    if isinstance(message, say.Facts):
        return of_facts(message, length)
    if isinstance(message, say.OneByOneSums):
        return one_by_one(message, length)
    if isinstance(message, say.Patterns):
        return pattern_talk(message, length)
    assert_never(message)
