"""The words of every exercise, and of everything that can be said about one."""

from collections.abc import Callable
from typing import Any, get_args

from saythesum.core.exercises import bridge_remarks as bridge
from saythesum.core.exercises import taking_remarks as taking
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import AskPart, Exercise, PartDone, PartGiven, Remark
from saythesum.core.exercises.facts import fact_remarks as facts
from saythesum.core.exercises.facts.complement import Bond, Split
from saythesum.core.exercises.facts.next_ten import NextTen
from saythesum.core.exercises.facts.small_sums import OneMore, OnesFact, TenAndOnes
from saythesum.core.exercises.farther import remarks as farther
from saythesum.core.exercises.farther.farther import FartherDifference, FartherSum
from saythesum.core.exercises.missing import remarks as missing
from saythesum.core.exercises.missing.amount import AddedAmount, TakenAmount
from saythesum.core.exercises.missing.start import AddedToStart, TakenFromStart
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.exercises.ways import remarks as ways
from saythesum.core.exercises.ways.other_way import ByTensAndOnes, Compensated, Counted, Doubled
from saythesum.settings import Length
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.exercises.said_facts import (
    ComplementWords,
    NextTenWords,
    OneMoreWords,
    OnesFactWords,
    TenAndOnesWords,
    together,
)
from saythesum.wording.speak.exercises.said_farther import (
    FartherWords,
    farther_question,
    of_farther,
    tens_done,
    tens_gone,
)
from saythesum.wording.speak.exercises.said_missing import (
    MissingAmountWords,
    MissingStartWords,
    jump_done,
    missing_question,
    of_missing,
)
from saythesum.wording.speak.exercises.said_of_numbers import of_whole
from saythesum.wording.speak.exercises.said_of_parts import of_part
from saythesum.wording.speak.exercises.said_of_taking import of_part_back, of_whole_back
from saythesum.wording.speak.exercises.said_steps import followed, part_done, part_question
from saythesum.wording.speak.exercises.said_sums import SumWords
from saythesum.wording.speak.exercises.said_taking import FromTenWords, TakingWords, back_question, gap_given, step_done
from saythesum.wording.speak.exercises.said_ways import (
    ByTensAndOnesWords,
    CompensatedWords,
    CountedWords,
    DoubledWords,
    ten_on_makes,
    way_question,
    way_step_done,
)
from saythesum.wording.speak.lengths import begun, by_length
from saythesum.wording.speak.patterns.said_patterns import PATTERN_WORDS

EXERCISE_WORDS: dict[type[Exercise], ExerciseWords[Any]] = {
    Sum: SumWords(),
    Difference: TakingWords(),
    DifferenceFromTen: FromTenWords(),
    FartherSum: FartherWords(SumWords()),
    FartherDifference: FartherWords(TakingWords()),
    AddedAmount: MissingAmountWords(),
    TakenAmount: MissingAmountWords(),
    AddedToStart: MissingStartWords(TakingWords()),
    TakenFromStart: MissingStartWords(SumWords()),
    Compensated: CompensatedWords(),
    Doubled: DoubledWords(),
    ByTensAndOnes: ByTensAndOnesWords(),
    Counted: CountedWords(),
    Bond: ComplementWords(),
    Split: ComplementWords(),
    NextTen: NextTenWords(),
    TenAndOnes: TenAndOnesWords(),
    OneMore: OneMoreWords(),
    OnesFact: OnesFactWords(),
}
"""An exercise that is not listed is worded from its operator alone."""


def words_of(asked: Exercise) -> ExerciseWords[Any]:
    return EXERCISE_WORDS.get(type(asked)) or ExerciseWords()


def _worked_back(back: missing.WorkBack, length: Length) -> str:
    question = remark_said(back.question, length)
    if back.is_way_told:
        return f"Work back: {words_of(back.way).whole(back.way)}. {question}"
    return question if length == "brief" else f"Work back. {question}"


REMARK_WORDS: dict[type[Remark], Callable[[Any, Length], str]] = {
    **dict.fromkeys(get_args(bridge.PartQuestion), part_question),
    **dict.fromkeys(get_args(bridge.PartFollowed), followed),
    **dict.fromkeys(get_args(bridge.OfWhole), of_whole),
    **dict.fromkeys(get_args(bridge.OfPart), of_part),
    **dict.fromkeys(get_args(bridge.PartDoneFor), part_done),
    **dict.fromkeys(get_args(taking.BackQuestion), back_question),
    **dict.fromkeys(get_args(taking.OfWholeBack), of_whole_back),
    **dict.fromkeys(get_args(taking.OfPartBack), of_part_back),
    facts.Together: together,
    **dict.fromkeys(get_args(ways.WayQuestion), way_question),
    ways.TenOnMakes: ten_on_makes,
    ways.DoWayStep: way_step_done,
    taking.GapBackGiven: gap_given,
    taking.DoStepBack: step_done,
    **PATTERN_WORDS,
    **dict.fromkeys(get_args(missing.MissingQuestion), missing_question),
    **dict.fromkeys(get_args(missing.OfMissing), of_missing),
    **dict.fromkeys(get_args(farther.FartherQuestion), farther_question),
    **dict.fromkeys(get_args(farther.OfFarther), of_farther),
    farther.TensGone: tens_gone,
    farther.DoTens: tens_done,
    missing.DoJump: jump_done,
    missing.AskSo: lambda ask, length: by_length(
        length, "So what number?", *[f"So {words_of(ask.asked).whole(ask.asked)}?"] * 2
    ),
    missing.WorkBack: _worked_back,
    AskPart: lambda ask, length: words_of(ask.asked).part_question(ask.asked, ask.part, length),
    PartGiven: lambda given, _: f"{begun(given.value)}.",
    PartDone: lambda done, length: words_of(done.asked).part_done(done.asked, done.part, length),
}


def remark_said(remark: Remark, length: Length) -> str:
    return REMARK_WORDS[type(remark)](remark, length)
