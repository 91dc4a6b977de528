"""Every sentence in its three lengths: words enough and not too many, and none that a pupil should not hear."""

import re
from collections.abc import Iterator
from functools import cache
from random import Random
from typing import get_args

import pytest

from saythesum.core.exercises import bridge_remarks as bridge
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.comparison import Stand, Standing, standing_of
from saythesum.core.exercises.exercise import AskPart, PartDone, Remark
from saythesum.core.exercises.missing.amount import AddedAmount, TakenAmount
from saythesum.core.exercises.missing.start import AddedToStart, TakenFromStart
from saythesum.core.exercises.taking import Difference, DifferenceFromTen
from saythesum.core.exercises.ways import remarks as ways
from saythesum.core.exercises.ways.other_way import ByTensAndOnes, Compensated, Counted, Doubled
from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.core.grids.grid import Grid, Order, walk
from saythesum.core.grids.written_sums import exercise_from
from saythesum.core.meanings import Command
from saythesum.dialogue import messages as say
from saythesum.dialogue.messages import WhyNoPattern
from saythesum.settings import Length
from saythesum.wording.speak.exercises.said_exercises import REMARK_WORDS
from saythesum.wording.speak.said import said
from tests.proofs.all_help import AMOUNTS
from tests.proofs.plain_help import turns as missing_turns
from tests.proofs.taking_help import turns
from tests.tools.talk_true import messages_of, one_of_each_kind

LENGTHS: tuple[Length, ...] = get_args(Length)
MOST_IN_QUESTION: dict[Length, int] = {"brief": 5, "short": 8, "full": 12}
"""Ceilings in words. Common practice; those of whole turns of help are in tests/proofs."""

NEVER = ("nearly", "good try", "oops", "amazing", "unfortunately", "you forgot", "well done", "wrong", "clever", "!")
CROSSING, LANDING, WITHIN, HUNDRED, ONE_STEP = Sum(38, 5), Sum(57, 3), Sum(32, 5), Sum(97, 5), Sum(4, 3)


@cache
def text_of(message: say.Message, length: Length) -> str:
    return said(message, length)


@pytest.mark.parametrize("length", LENGTHS)
@pytest.mark.parametrize("start", [10, 38, 90])
def test_a_question_is_short(length: Length, start: int) -> None:
    for amount in AMOUNTS:
        asked = Sum(start, amount)
        questions: list[say.Message] = [
            say.AskWhole(asked),
            bridge.AskNextTen(start),
            bridge.AskRest(amount),
            bridge.AskTotal(asked),
            bridge.AskBond(asked.ones),
        ]
        questions += [bridge.AskOnes(asked.ones, amount), bridge.AskGap(asked, is_ten_just_said=True)]
        if length == "full":  # in the others too it has to name the amount and the ten: nine words
            questions.append(bridge.AskGap(asked))
        assert all(len(said(question, length).split()) <= MOST_IN_QUESTION[length] for question in questions)


@pytest.mark.parametrize("length", LENGTHS)
def test_a_verdict_is_short(length: Length) -> None:
    assert said(say.NotYet(), length) == "Not yet."
    if length != "full":
        assert said(say.Right(CROSSING, is_by_steps=False), length) == "Yes."


def intro(starts: tuple[int, ...], amounts: tuple[int, ...]) -> say.GridIntro:
    return say.GridIntro(starts, tuple(Sum(starts[0], amount) for amount in amounts))


def everything() -> Iterator[say.Message]:
    """At least one of every message, and of every form that depends on the sum."""
    yield from (intro((38,), (3, 5)), intro((38, 57), (5,)), intro(tuple(range(10, 17)), (5,)))
    yield from (
        say.NewRow(57),
        say.NextAlong(),
        say.BackToOneLeft(),
        say.ThisOneFirst(),
        say.LeftOpen(True),
        say.LeftOpen(False),
        say.WhereYouAre(CROSSING, 2, 6),
        say.HowManyMore(4),
    )
    yield say.RowRead(((Sum(38, 3), 41), (Sum(38, 5), None)))
    yield say.ColumnRead(((Sum(38, 5), 43), (Sum(57, 5), None)))
    yield from (say.NoFurther(Command.GO_BACK), say.NoFurther(Command.LEFT))
    for asked in (CROSSING, LANDING, WITHIN, HUNDRED, ONE_STEP):
        yield from (
            say.AskWhole(asked),
            say.AskWhole(asked, is_same_row=True),
            bridge.AskTotal(asked),
            say.Worked(asked),
        )
        yield from (say.Right(asked, is_by_steps=True), say.Right(asked, is_by_steps=False))
        yield from (bridge.Stands(asked, 50, Stand(standing, 2)) for standing in Standing)
    for asked in (CROSSING, LANDING, HUNDRED):
        yield from (
            bridge.AskGap(asked),
            bridge.AskGap(asked, is_again=True),
            bridge.AskGap(asked, is_ten_just_told=True),
        )
        yield from (bridge.GapGiven(asked, is_ten_by_pupil=True), bridge.GapGiven(asked, is_ten_by_pupil=False))
        yield from (
            bridge.GapReaches(asked, 1),
            bridge.GapReaches(asked, 9),
            bridge.GapIsAll(asked),
            bridge.DoGap(asked),
        )
        yield from (bridge.EndsIn(asked.start), bridge.AskBond(asked.ones))
    for asked in (CROSSING, HUNDRED):
        yield from (
            bridge.TenAndAll(asked),
            bridge.TenAndGap(asked),
            bridge.ReachedTen(asked),
            bridge.RestMakes(asked, 4),
        )
        yield from (bridge.GapIsUsed(asked, 5), bridge.PartsMake(asked.next_ten, asked.rest, asked.total + 1))
        yield from (bridge.PartsMake(asked.next_ten, asked.rest, past) for past in (30, 118, 140))
        yield from (bridge.DoNextTen(asked), bridge.DoRest(asked))
    yield bridge.DoOnes(WITHIN)
    yield from (bridge.AddingGoesUp(33, 38), bridge.NotATen(38), bridge.TenNotAfter(30, 38), bridge.TenTooFar(60, 38))
    yield from (bridge.WasAdded(CROSSING, 48), bridge.LessThanTen(9), bridge.AddingIsSteps(1), bridge.AddingIsSteps(5))
    yield from (bridge.TensToo(), bridge.InTens(53), bridge.InTens(17), bridge.InTens(80), bridge.PlaceAgain(CROSSING))
    yield from (bridge.Digits(433), bridge.OnePart(40, 3), bridge.GapLands(LANDING))
    yield from (bridge.OnesMake(WITHIN, 8), bridge.OnesLess(1, 2))
    yield from (bridge.MoreThanTen(12), bridge.MoreThanAll(7, 5), bridge.AskOnes(2, 5), bridge.AskNextTen(38))
    yield from (bridge.AskRest(5), bridge.AskRest(5, is_gap_just_said=True, is_ten_by_pupil=True))
    yield from (bridge.TenGiven(40), bridge.OnesGiven(7), say.LeftForAnotherDay(), say.NotYet())
    yield from (
        say.ThatsFine(),
        say.ThatsFine(has_steps=False),
        say.StepByStep(),
        say.LookAgain(),
        say.SaidBack(43),
        say.WasIt(43),
    )
    yield from (say.CommandSaidBack(command) for command in Command)
    yield from (say.OnceMore(), say.TryKeys(), say.OneNumber(), say.NotUnderstood(), say.NotUnderstood(is_by_keys=True))
    yield from (say.Misheard(), say.SayItAgain())
    yield from (say.TakenBack(), say.NothingToTakeBack(), say.Waiting(), say.KeysAloud(), say.NextTime())
    yield from (say.WhichSum(CROSSING), say.TakeYourTime(), say.Waiting(is_again=True), say.AdultMayHelp())
    yield from (say.AllDone(cells, left) for cells in (0, 1, 2, 6) for left in (0, 1, 3) if cells or left)
    yield from (
        say.ProbeIntro(8),
        say.FindOutIntro(12),
        say.Noted(),
        say.PassedOver(),
        say.OneByOne(),
        say.ProbeOver(8),
    )
    yield from (say.HowFar(3, 5, is_at_most=False), say.HowFar(0, 12, is_at_most=True))
    yield from (
        say.StopLine(True, 2),
        say.StopLine(False, 0),
        say.StopLine(False, 3),
        say.EnoughNow(1),
        say.EnoughNow(12),
    )
    yield from (say.RestOffered(), say.TwoJumpsOffered(), say.TwoJumpsOffered(is_again=True), say.TwoJumps(CROSSING))
    yield from _small_questions()
    yield from _of_taking()
    yield from _of_missing()
    yield from _of_facts()
    yield from _of_other_ways()
    yield from _of_patterns()


def _of_patterns() -> Iterator[say.Message]:
    yield from (say.PatternOffered(), say.PatternOffered(is_again=True), say.PatternOver(), say.PatternLeft())
    yield from (say.PatternThanks(), say.WhereInTalk(3), say.WhereInTalk(1), say.Farewell())
    yield from map(say.NoPattern, WhyNoPattern)
    dice = Random("a talk")
    for grid in (Grid("Oars", (38, 57, 24), (3, 5, 8), Order.ROWS), Grid("Oars", (42, 71), (9, 8, 4), Order.ROWS)):
        for pattern in one_of_each_kind(grid, dice):
            yield from messages_of(grid, pattern, dice)


def _small_questions() -> Iterator[say.Message]:
    for asked in (CROSSING, LANDING, WITHIN):
        yield from (bridge.AskTensAndOnes(asked), bridge.AskTensOfOnes(asked), bridge.AskTensOfOnes(asked, True))
        yield from (bridge.GapGets(asked), bridge.OnesMakeUp(asked))
    yield from (bridge.AskTens(38), bridge.AskTens(38, is_either=True), bridge.TensGiven(3), bridge.TensGiven(1))
    yield from (bridge.AskOneMore(38), bridge.AskOneMore(38, is_again=True), bridge.DoOneMore(38))
    yield from (
        bridge.OnesFar(40, 8),
        bridge.TensMake(8),
        bridge.TensMake(1),
        bridge.TensMake(0),
        bridge.TensTooMany(6),
    )


def _of_facts() -> Iterator[say.Message]:
    for activity in FACT_ACTIVITIES:
        yield from (say.FactsIntro(activity.exercise, 8), say.FactsOffered(activity.exercise))
        yield say.FactsOffered(activity.exercise, is_again=True)
        for cell in walk(activity.grid, 0):
            asked = activity.grid.exercise_at(cell)
            yield from (say.AskWhole(asked), say.Worked(asked), say.Right(asked, is_by_steps=False))
            yield from (one for given in range(120) if given != asked.total for one in asked.compared(given))
    yield from (say.BackToSums(), say.AlongTheLine(CROSSING), say.AlongTheLine(Difference(63, 8)))


def _of_other_ways() -> Iterator[say.Message]:
    yield say.AnotherWay()
    for asked in (Compensated(47, 9), Compensated(95, 8), Doubled(37, 8), Doubled(28, 7), Counted(49, 3)):
        yield from (say.AskWhole(asked), say.Worked(asked), say.Right(asked, is_by_steps=True))
        yield from (asked.question_for(part) for part in asked.parts)
        yield from (asked.done(part) for part in asked.parts[:-1])
    yield from (ways.TenOnMakes(47, 58), say.Worked(ByTensAndOnes(38, 5)))


def _of_taking() -> Iterator[say.Message]:
    """Every remark that help with taking away can come to."""
    ways = (Difference(63, 8), Difference(63, 3), Difference(68, 3), Difference(60, 4), Difference(13, 3))
    for asked in (*ways, Difference(13, 8), DifferenceFromTen(63, 8)):
        yield from (say.AskWhole(asked), say.AskWhole(asked, is_same_row=True), say.Worked(asked))
        yield from (say.Right(asked, is_by_steps=True), say.Right(asked, is_by_steps=False))
        for turn in turns(asked):
            yield from (*turn.remarks, *([turn.question] if turn.question else []))


def _of_missing() -> Iterator[say.Message]:
    """Every remark that help with a missing number, or with tens, can come to."""
    for asked in map(exercise_from, ("47+25", "47+30", "72-25")):
        yield from (say.AskWhole(asked), say.Worked(asked), say.Right(asked, is_by_steps=True))
        for turn in missing_turns(asked):
            yield from (*turn.remarks, *([turn.question] if turn.question else []))
    yield from (say.ListIntro(6, is_number_missing=True), say.ListIntro(1, is_number_missing=False))
    for start, amount in ((47, 5), (43, 7)):
        for kind in (AddedAmount, TakenAmount, AddedToStart, TakenFromStart):
            asked = kind(start, amount)
            yield from (say.AskWhole(asked), say.Worked(asked))
            yield from (say.Right(asked, is_by_steps=True), say.Right(asked, is_by_steps=False))
            for turn in missing_turns(asked):
                yield from (*turn.remarks, *([turn.question] if turn.question else []))


def test_everything_is_there() -> None:
    generic = {Remark, AskPart, PartDone}
    assert {type(message) for message in everything()} == {*get_args(say.Message), *REMARK_WORDS} - generic


@pytest.mark.parametrize("length", LENGTHS)
def test_a_sentence_begins_with_a_capital_ends_with_a_mark_and_never_scolds_or_gushes(length: Length) -> None:
    for message in everything():
        text = said(message, length)
        assert text == text.strip()
        assert "  " not in text
        if text:
            assert text[0].isupper()
            assert text[-1] in ".?"
            assert not any(word in text.lower() for word in NEVER)
            assert not any(character.isdigit() for character in re.sub(r"\bF\d+\b", "", text)), "but for names of keys"


def test_a_number_just_past_the_answer_is_not_called_far_away() -> None:
    """94 + 9 is 103: 105 is two too many, however far it is from the start."""
    beyond = bridge.Stands(Sum(94, 9), 105, standing_of(Sum(94, 9), 105))
    assert said(beyond, "brief") == "Too far past ninety-four."
    assert said(beyond, "short") == "A hundred and five is more than ten past ninety-four."


@pytest.mark.parametrize(
    ("message", "brief", "short"),
    [
        (say.NextAlong(), "", ""),
        (bridge.TenAndAll(CROSSING), "", "Forty and five is forty-five."),
        (bridge.AskTotal(HUNDRED), "A hundred, then two more?", "A hundred, then two more?"),
        (bridge.AskTotal(LANDING), "All used: so?", "All used: so?"),
        (intro((38, 57), (3, 5, 8)), "", "Two rows, three sums in each."),
        (bridge.Stands(CROSSING, 46, Stand(Standing.PAST_TEN, 6)), "Six past forty.", "Forty-six is six past forty."),
    ],
)
def test_brief_and_short(message: say.Message, brief: str, short: str) -> None:
    assert said(message, "brief") == brief
    assert said(message, "short") == short


def test_the_worked_line_shows_the_way_also_in_brief() -> None:
    assert said(say.Worked(CROSSING), "brief") == "Forty, then three: forty-three. Now you."
    assert (
        said(say.Worked(CROSSING), "short")
        == "Thirty-eight and two is forty. Three more is forty-three. Now you: thirty-eight add five?"
    )
    assert said(say.Worked(WITHIN), "full").startswith("Two and five is seven, so thirty-two and five is thirty-seven.")


@pytest.mark.parametrize(
    ("cells", "left", "text"),
    [
        (1, 0, "That one's done."),
        (2, 0, "That's both done."),
        (6, 0, "That's all six done."),
        (0, 1, "We'll have that one another day."),
        (0, 2, "We'll have those another day."),
        (4, 2, "Four done, two left for another day."),
    ],
)
def test_the_end_says_shortly_what_was_done(cells: int, left: int, text: str) -> None:
    assert said(say.AllDone(cells, left), "short") == f"{text} Bye for now."
