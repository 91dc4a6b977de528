"""The words of every exercise, and of everything that can be said about one."""

from collections.abc import Callable
from typing import Any, get_args

from saythesum.core.exercises import bridge_remarks as bridge
from saythesum.core.exercises import taking_remarks as taking
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import AskPart, Exercise, PartDone, PartGiven, Remark
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.settings import Length
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.exercises.said_of_numbers import of_whole
from saythesum.wording.speak.exercises.said_of_parts import of_part
from saythesum.wording.speak.exercises.said_of_taking import of_part_back, of_whole_back
from saythesum.wording.speak.exercises.said_steps import followed, part_done, part_question
from saythesum.wording.speak.exercises.said_sums import SumWords
from saythesum.wording.speak.exercises.said_taking import FromTenWords, TakingWords, back_question, gap_given, step_done
from saythesum.wording.speak.lengths import begun
from saythesum.wording.speak.patterns.said_patterns import PATTERN_WORDS

EXERCISE_WORDS: dict[type[Exercise], ExerciseWords[Any]] = {
    Sum: SumWords(),
    Difference: TakingWords(),
    DifferenceFromTen: FromTenWords(),
}
"""An exercise that is not listed is worded from its operator alone."""

REMARK_WORDS: dict[type[Remark], Callable[[Any, Length], str]] = {
    **dict.fromkeys(get_args(bridge.PartQuestion), part_question),
    **dict.fromkeys(get_args(bridge.PartFollowed), followed),
    **dict.fromkeys(get_args(bridge.OfWhole), of_whole),
    **dict.fromkeys(get_args(bridge.OfPart), of_part),
    **dict.fromkeys(get_args(bridge.PartDoneFor), part_done),
    **dict.fromkeys(get_args(taking.BackQuestion), back_question),
    **dict.fromkeys(get_args(taking.OfWholeBack), of_whole_back),
    **dict.fromkeys(get_args(taking.OfPartBack), of_part_back),
    taking.GapBackGiven: gap_given,
    taking.DoStepBack: step_done,
    **PATTERN_WORDS,
    AskPart: lambda ask, length: words_of(ask.asked).part_question(ask.asked, ask.part, length),
    PartGiven: lambda given, _: f"{begun(given.value)}.",
    PartDone: lambda done, length: words_of(done.asked).part_done(done.asked, done.part, length),
}


def words_of(asked: Exercise) -> ExerciseWords[Any]:
    return EXERCISE_WORDS.get(type(asked)) or ExerciseWords()


def remark_said(remark: Remark, length: Length) -> str:
    return REMARK_WORDS[type(remark)](remark, length)
