"""What a topic answers with: a move, things to say, rows to keep, and what then.

A topic knows nothing of utterances, ears or timers; the channel turns a `Turn` into effects.
"""

from dataclasses import dataclass, field, replace
from typing import TypeAlias

from saythesum.core.meanings import Awaiting, Heard
from saythesum.core.records.rows import EndReason, Row
from saythesum.dialogue.messages import Message
from saythesum.dialogue.turns.context import TalkMemory
from saythesum.dialogue.turns.stack import Topic
from saythesum.learner.selection import WhyChosen
from saythesum.learner.worth_finding import WorthFinding

# ---- moves on the stack of topics


@dataclass(frozen=True, slots=True)
class Stay:
    pass


@dataclass(frozen=True, slots=True)
class Push:
    topic: Topic


@dataclass(frozen=True, slots=True)
class Swap:
    """The top topic gives way to another."""

    topic: Topic


@dataclass(frozen=True, slots=True)
class Pop:
    pass


@dataclass(frozen=True, slots=True)
class PassDown:
    """Pop, and let the topic beneath hear this."""

    heard: Heard


@dataclass(frozen=True, slots=True)
class Afresh:
    """The whole stack gives way to another, bottom first."""

    topics: tuple[Topic, ...]


Move: TypeAlias = Stay | Push | Swap | Pop | PassDown | Afresh

# ---- what then


@dataclass(frozen=True, slots=True)
class ListenFor:
    awaiting: Awaiting


@dataclass(frozen=True, slots=True)
class OpenPause:
    """A pause in which the pupil can put right what was said back; `WaitEnded("pause")` when it is over."""


@dataclass(frozen=True, slots=True)
class Quiet:
    """Neither ear nor timer."""


@dataclass(frozen=True, slots=True)
class FinishThen:
    reason: EndReason


Then: TypeAlias = ListenFor | OpenPause | Quiet | FinishThen

PAUSE = "pause"
TAKE_YOUR_TIME = "take-your-time"
"""After a new question, where that was chosen: nothing has been said or typed for a while."""


@dataclass(frozen=True, slots=True)
class Turn:
    move: Move = field(default_factory=Stay)
    say: tuple[Message, ...] = ()
    keep: tuple[Row, ...] = ()
    then: Then = field(default_factory=Quiet)
    memory: TalkMemory | None = None
    """The talk's memory from here on, if it changes."""
    why: WhyChosen | WorthFinding | None = None
    """Why the cell that is asked was chosen, or the pattern to talk about."""
    is_slower: bool = False
    """From here on the voice speaks more slowly."""
    hushes: bool = False
    """What is being said is cut, although nothing else is said."""


def on(base: Topic, turn: Turn) -> Turn:
    """The turn that `base` answered with, when `base` has first replaced the whole stack."""
    match turn.move:
        case Push(topic=topic):
            return replace(turn, move=Afresh((base, topic)))
        case Swap(topic=topic):
            return replace(turn, move=Afresh((topic,)))
        case _:
            return turn
