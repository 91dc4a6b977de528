"""Every turn of help that there is for a sum, from the real dialogue: all patterns, wrong parts, "I don't know"."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import LARGEST_NUMBER, Command, Given, Meaning, Number
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.adding_steps import PART_MISTAKES
from saythesum.core.mistakes.pattern import Occasion
from saythesum.core.records.rows import Answer, Ask, By, HeardId, RowId, Settled, Support
from saythesum.core.sums import LARGEST_START, Part
from saythesum.dialogue.messages import Message
from saythesum.dialogue.step import State, opened, step
from saythesum.dialogue.turns.effects import Ear, Say
from saythesum.dialogue.turns.events import Began, Entered
from saythesum.dialogue.tutor.next_step import what_next
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, folded, with_row
from saythesum.dialogue.tutor.question import standing_question
from tests.core.made_sums import explaining, sum_at
from tests.talk import plan_of

STARTS = range(10, 100)
SMALL_STARTS = range(1, 10)
"""A start of nought is left out: there the question itself holds the answer."""
AMOUNTS = range(1, 10)
DONT_KNOW = Given(Command.DONT_KNOW)


@dataclass(frozen=True, slots=True)
class HelpTurn:
    """What is said after one thing from the pupil."""

    asked: Sum
    part: Part
    """The part that was asked before."""
    given: int | None
    """None after "I don't know"."""
    messages: tuple[Message, ...]
    ask: Ask
    """What is asked now."""
    could_be: tuple[tuple[str, ...], ...] = ()
    """Of a first turn: the sets of names that lead to it."""


# ---- the first turn, after any wrong whole answer anywhere -----------------------------------------------


@cache
def first_help(asked: Sum) -> tuple[HelpTurn, ...]:
    """The turn after each wrong whole answer: by voice and by keys, alone and with the number standing beside the sum
    in the grid, or answered before it; each turn once."""
    plan = plan_of((asked.start,), (asked.amount,))
    turns: dict[tuple[int, tuple[Message, ...]], HelpTurn] = {}
    for given in wrong_numbers(asked):
        for names in {names_of(where, given): None for where in _everywhere(asked, given)}:
            turn = _first_turn(plan, given, names)
            same = turns.setdefault((given, turn.messages), turn)
            if same is not turn:
                turns[given, turn.messages] = replace(same, could_be=same.could_be + turn.could_be)
    return tuple(turns.values())


def names_of(where: Occasion[Sum], given: int) -> tuple[str, ...]:
    """Their order, which is by what the pupil answered elsewhere, makes no difference to help."""
    return tuple(pattern.name for pattern in explaining(where, given))


def wrong_wholes(asked: Sum) -> tuple[int, ...]:
    """Every number that one of A1 to A17 gives for this sum, the right answer left out."""
    values = {value for mistake in MISTAKES for value in mistake.gives(asked) if mistake.fits(asked, value)}
    return tuple(sorted(value for value in values if 0 <= value <= LARGEST_NUMBER))


def wrong_numbers(asked: Sum) -> tuple[int, ...]:
    """What any pattern gives wherever the sum stands, and all that is up to ten past the start."""
    by_patterns = {value for pattern in CATALOGUE for value in pattern.gives(Occasion(asked, True))}
    near = range(asked.start, asked.start + 11)
    return tuple(sorted({*by_patterns, *near} & set(range(LARGEST_NUMBER + 1)) - {asked.total}))


def _everywhere(asked: Sum, given: int) -> Iterator[Occasion[Sum]]:
    """All that can make a difference to the help: only a true neighbour gives the number."""
    yield Occasion(asked, True)
    neighbour = given - asked.amount
    besides = [(), (Sum(neighbour, asked.amount),)] if 0 <= neighbour <= LARGEST_START else [()]
    for beside, before in product(besides, (None, given)):
        yield Occasion(asked, False, beside, before)


def _first_turn(plan: Plan, given: int, names: tuple[str, ...]) -> HelpTurn:
    """From the rows alone, as the dialogue itself finds its words."""
    asked = sum_at(plan, plan.activities[0].cells[0])
    opening = Ask(RowId("question"), 0, 0, Part.WHOLE, Support.INDEPENDENT, None)
    progress = folded((opening, answered(asked, given, names)))
    ask = what_next(plan, progress)
    assert isinstance(ask, Ask)
    messages = standing_question(plan, with_row(progress, ask)).whole
    return HelpTurn(asked, Part.WHOLE, given, messages, ask, (names,))


def answered(asked: Sum, given: int, names: tuple[str, ...]) -> Answer:
    return Answer(
        id=RowId("answer"),
        row=0,
        column=0,
        start=asked.start,
        amount=asked.amount,
        part=Part.WHOLE,
        right_answer=asked.total,
        given=given,
        right=False,
        support=Support.INDEPENDENT,
        tries=1,
        certainty=None,
        close_to=(),
        heard=None,
        took_ms=None,
        could_be=names,
        by=By.VOICE,
        settled=Settled.SAID_BACK,
        sure=True,
    )


# ---- all that can follow, in a practice of one sum --------------------------------------------------------


def wrong_parts(asked: Sum, part: Part) -> tuple[int, ...]:
    """What each guided pattern gives, and a wrong answer of every other kind that has words of its own."""
    by_patterns = {value for mistake in PART_MISTAKES if part in mistake.parts for value in mistake.gives(asked)}
    match part:
        case Part.NEXT_TEN:
            others = {asked.start, asked.start + 1, asked.tens, asked.next_ten + 10}
        case Part.GAP:
            others = {0, 10, 12, 20}
        case Part.REST:
            others = {0, 10, asked.start + 1}
        case Part.ONES:
            right = asked.ones + asked.amount
            others = {0, asked.ones, asked.amount, right - 1, right + 1, 10, asked.start, asked.total + asked.ones}
        case _:
            others = {0, asked.start, asked.total - 1, asked.total + 1, asked.total + 10, asked.total + 20}
    return tuple(sorted({*by_patterns, *others} & set(range(LARGEST_NUMBER + 1)) - {asked.answer_to(part)}))


def begun(asked: Sum) -> State:
    state, _ = step(opened(plan_of((asked.start,), (asked.amount,)), Progress(), Ear.KEYS), Began(0))
    return state


def typed(state: State, heard: Meaning) -> tuple[State, tuple[Message, ...]]:
    state, effects = step(state, Entered(heard, "", By.KEYS, 0, 0, HeardId("typed")))
    return state, tuple(effect.message for effect in effects if isinstance(effect, Say))


@cache
def all_help(asked: Sum) -> tuple[HelpTurn, ...]:
    """Every turn of help, from each question that help can come to, after everything that can be given there; each
    turn once."""
    found: dict[object, HelpTurn] = {}
    todo = [begun(asked)]
    seen: set[object] = set()
    while todo:
        state = todo.pop()
        before = _ask(state)
        for heard in _replies(asked, before):
            after, messages = typed(state, heard)
            ask = _ask(after)
            if ask == before:
                continue  # right, and over
            given = heard.value if isinstance(heard, Number) else None
            part = _part_answered(after, before)
            found.setdefault((part, given, messages), HelpTurn(asked, part, given, messages, ask))
            place = (before.part, ask.part, ask.support)
            if place not in seen and ask.support is not Support.INDEPENDENT:
                seen.add(place)
                todo.append(after)
    return tuple(found.values())


def _part_answered(after: State, before: Ask) -> Part:
    """A number at one part may have been taken for another part, or for the whole."""
    last = next((row for row in reversed(after.progress.live) if isinstance(row, Answer)), None)
    because = after.progress.ask and after.progress.ask.because
    return last.part if last is not None and last.id == because else before.part


def _replies(asked: Sum, before: Ask) -> tuple[Number | Given, ...]:
    """What can be answered here. The first turns are looked at by `first_help`: here one for each way it leads on,
    and at a question that is asked whole again or for the last time, a few wrong answers."""
    right = asked.answer_to(before.part)
    if before.part is Part.WHOLE and before.support is Support.INDEPENDENT:
        wrong = tuple({(turn.ask.part, turn.ask.support): turn.given for turn in reversed(first_help(asked))}.values())
    elif before.part is Part.WHOLE or before.support not in (Support.ASKED, Support.FIRST_STEP):
        wrong = (asked.start, asked.total - 1, asked.total + 1)
    else:
        wrong = wrong_parts(asked, before.part)
    return (DONT_KNOW, Number(right), *(Number(value) for value in wrong if value not in (None, right)))


def _ask(state: State) -> Ask:
    ask = state.progress.ask
    assert ask is not None
    return ask
