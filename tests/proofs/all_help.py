"""Every turn of help that there is for a sum, from the real dialogue: all mistakes, wrong parts, "I don't know"."""

from dataclasses import dataclass
from functools import cache

from saythesum.core.mistakes import MISTAKES
from saythesum.core.rows import Ask, By, HeardId, Support
from saythesum.core.sums import CLOSING_PARTS, Part, Sum
from saythesum.dialogue.effects import Ear, Say
from saythesum.dialogue.events import Began, Entered
from saythesum.dialogue.heard import LARGEST_NUMBER, Command, Given, Number, Understood
from saythesum.dialogue.messages import Message
from saythesum.dialogue.progress import Progress
from saythesum.dialogue.step import State, opened, step
from tests.talk import plan_of

STARTS = range(10, 100)
AMOUNTS = range(1, 10)
DONT_KNOW = Given(Command.DONT_KNOW)


@dataclass(frozen=True, slots=True)
class HelpTurn:
    """What is said after one thing from the pupil, in a practice of one sum."""

    asked: Sum
    part: Part
    """The part that was asked before."""
    given: int | None
    """None after "I don't know"."""
    messages: tuple[Message, ...]
    ask: Ask
    """What is asked now."""


def wrong_wholes(asked: Sum) -> tuple[int, ...]:
    """Every number that one of A1 to A17 gives for this sum, the right answer left out."""
    values = {value for mistake in MISTAKES for value in mistake.gives(asked) if mistake.fits(asked, value)}
    return tuple(sorted(value for value in values if 0 <= value <= LARGEST_NUMBER))


def wrong_parts(asked: Sum, part: Part) -> tuple[int, ...]:
    """A wrong answer of every kind that has words of its own."""
    match part:
        case Part.NEXT_TEN:
            return (asked.start + 1, asked.tens, asked.next_ten + 10)
        case Part.GAP:
            return (asked.gap - 1, asked.gap + 1, asked.amount, 12)
        case Part.REST:
            return (asked.rest + 1, asked.amount, 10, asked.start + 1)
        case _:
            return (asked.answer_to(part) - 1,)


def begun(asked: Sum) -> State:
    state, _ = step(opened(plan_of((asked.start,), (asked.amount,)), Progress(), Ear.KEYS), Began(0))
    return state


def typed(state: State, heard: Understood) -> tuple[State, tuple[Message, ...]]:
    state, effects = step(state, Entered(heard, "", By.KEYS, 0, 0, HeardId("typed")))
    return state, tuple(effect.message for effect in effects if isinstance(effect, Say))


@cache
def first_help(asked: Sum) -> tuple[HelpTurn, ...]:
    """The turn after each wrong whole answer."""
    state = begun(asked)
    turns = ((given, *typed(state, Number(given))) for given in wrong_wholes(asked))
    return tuple(HelpTurn(asked, Part.WHOLE, given, messages, _ask(after)) for given, after, messages in turns)


@cache
def all_help(asked: Sum) -> tuple[HelpTurn, ...]:
    """Every turn of help, from each question that help can come to, after everything that can be given there."""
    found: list[HelpTurn] = []
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
            found.append(
                HelpTurn(asked, before.part, heard.value if isinstance(heard, Number) else None, messages, ask)
            )
            place = (before.part, ask.part, ask.support)
            if place not in seen and ask.support is not Support.INDEPENDENT:
                seen.add(place)
                todo.append(after)
    return tuple(found)


def _replies(asked: Sum, before: Ask) -> tuple[Number | Given, ...]:
    """At a question that comes after help, a few wrong answers stand for all."""
    if before.part is Part.WHOLE and before.support is Support.INDEPENDENT:
        wrong = wrong_wholes(asked)
    elif before.part in CLOSING_PARTS:
        wrong = (asked.start, asked.total - 1, asked.total + 1)
    else:
        wrong = wrong_parts(asked, before.part)
    right = asked.answer_to(before.part)
    return (DONT_KNOW, Number(right), *(Number(value) for value in wrong if value != right))


def _ask(state: State) -> Ask:
    ask = state.progress.ask
    assert ask is not None
    return ask
