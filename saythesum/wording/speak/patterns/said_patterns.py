"""The words of all that a talk about a pattern says, by kind of remark."""

from collections.abc import Callable, Mapping
from typing import Any

from saythesum.core.exercises.exercise import Remark
from saythesum.core.patterns import remarks
from saythesum.settings import Length
from saythesum.wording.speak.patterns.said_answers import hint_said, of_given_said, right_said, shown_said
from saythesum.wording.speak.patterns.said_moves import listen_said, move_said, why_said
from saythesum.wording.speak.patterns.said_reasons import because_said

PATTERN_WORDS: Mapping[type[Remark], Callable[[Any, Length], str]] = {
    remarks.ListenTo: listen_said,
    remarks.AskMove: move_said,
    remarks.AskWhy: why_said,
    remarks.Hint: hint_said,
    remarks.OfGiven: of_given_said,
    remarks.Shown: shown_said,
    remarks.RightMove: right_said,
    remarks.Because: because_said,
}
