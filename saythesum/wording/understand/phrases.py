"""The table of everything a pupil may say that is not a number, and the closed sets that listening works with.

A spoken command that is open while a number is awaited must be four sounds away from every number and from every
other command, or a clipped "seventy" skips the cell; a test computes it for each row added here.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto
from functools import cache

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given
from saythesum.wording.understand.grammar import Rule, either, maybe, say, written
from saythesum.wording.understand.spellings import NUMBER_WORDS, ORDINAL_WORDS, Spelling, numbers, rivals


class Where(Enum):
    """Where a phrase counts."""

    ANYWHERE = auto()
    """Heard and written, whatever is awaited."""
    WRITTEN = auto()
    """The same, but kept out of the closed sets: each phrase more there is one more for a noise to be taken for."""
    NO_NUMBER = auto()
    """Where no number is awaited. In the closed set for commands."""
    YES_NO = auto()
    """Where yes or no is awaited."""
    YES_NO_WRITTEN = auto()
    """The same, but kept out of the closed set."""
    TYPED = auto()
    """A typed line only: too close in sound to something else."""


@dataclass(frozen=True, slots=True)
class Phrase:
    where: Where
    meaning: Given | Choice
    rule: Rule


def _command(command: Command, where: Where, *ways: Rule | str) -> Phrase:
    return Phrase(where, Given(command), either(*ways))


def _choice(yes: bool, where: Where, *ways: Rule | str) -> Phrase:
    return Phrase(where, Choice(yes), either(*ways))


_PLEASE = maybe("please")
_THATS = either("that's", "that is", "it's", "it is")
_FIRST = either("first", "before", "already", "the first time")

SAID_FIRST = either(
    say(_THATS, "what I said", maybe(_FIRST)),
    say("I said", either("that", "it"), _FIRST),
    say("I already said", either("that", "it")),
)
"""Also found inside a line with a number in it, as is NOT_SAID."""
NOT_SAID = either(
    say(maybe(_THATS), "not what I said"),
    say(either("that", "it"), either("isn't", "wasn't"), "what I said"),
    say("I didn't say", either("that", "it")),
)

PHRASES = (
    _command(Command.SAY_AGAIN, Where.ANYWHERE, say("say", either("that", "it"), "again", _PLEASE)),
    _command(
        Command.SAY_AGAIN,
        Where.WRITTEN,
        say(either("can", "could"), "you say", either("that", "it"), "again", _PLEASE),
        say("what did you say"),
        say("please say", either("that", "it"), "again"),
        say("repeat", either("that", "the question"), _PLEASE),
        say("what was", either("that", "the question", "it"), "again"),
    ),
    _command(Command.SAY_AGAIN, Where.TYPED, "again", "again please", "repeat", "pardon", "what", "say again"),
    _command(Command.SLOWER, Where.ANYWHERE, "slower please"),
    _command(Command.SLOWER, Where.WRITTEN, say("say", either("that", "it"), "slower", _PLEASE), "please slow down"),
    _command(Command.SLOWER, Where.TYPED, "slower", "slow down", "more slowly"),
    _command(Command.WAIT, Where.ANYWHERE, "please wait"),
    _command(Command.WAIT, Where.WRITTEN, say("wait a", either("minute", "moment", "second"), _PLEASE)),
    _command(Command.WAIT, Where.NO_NUMBER, "wait"),
    _command(Command.WAIT, Where.TYPED, "wait please", "pause", "hang on", "hold on"),
    _command(Command.GO_ON, Where.NO_NUMBER, "go on"),
    _command(Command.GO_ON, Where.WRITTEN, "carry on"),
    _command(Command.GO_ON, Where.TYPED, "continue", "next", "ready", "go on please"),
    _command(Command.SKIP, Where.ANYWHERE, say("skip this one", _PLEASE)),
    _command(Command.SKIP, Where.WRITTEN, "please skip this one", "miss this one out", "leave this one out"),
    _command(Command.SKIP, Where.TYPED, "skip", "skip it", "skip that one", "pass"),
    _command(Command.GO_BACK, Where.ANYWHERE, say("go back", _PLEASE)),
    _command(Command.GO_BACK, Where.TYPED, "back"),
    _command(Command.HELP, Where.ANYWHERE, say("help me", _PLEASE)),
    _command(
        Command.HELP,
        Where.WRITTEN,
        "can you help",
        "can I have help",
        "please help me",
        "I need help",
        "I need some help",
        "give me a hint",
    ),
    _command(Command.HELP, Where.NO_NUMBER, "help"),
    _command(Command.HELP, Where.WRITTEN, "I'm stuck"),
    _command(Command.HELP, Where.TYPED, "help please", "hint", "stuck"),
    _command(Command.DONT_KNOW, Where.ANYWHERE, "I don't know"),
    _command(
        Command.DONT_KNOW,
        Where.WRITTEN,
        say("I don't know", either("that one", "this one", "it", "that", "the answer")),
        say("I do not know"),
        say(either("I've", "I have"), "no idea"),
        say(either("I'm", "I am"), "not sure"),
    ),
    _command(Command.DONT_KNOW, Where.TYPED, "don't know", "do not know", "dunno", "I dunno", "no idea", "not sure"),
    _command(Command.NOT_WHAT_I_SAID, Where.ANYWHERE, say(maybe("that's"), "not what I said")),
    _command(Command.NOT_WHAT_I_SAID, Where.WRITTEN, NOT_SAID),
    _command(Command.SAID_FIRST, Where.ANYWHERE, "that's what I said first"),
    _command(Command.SAID_FIRST, Where.TYPED, SAID_FIRST),
    _command(Command.WHERE_AM_I, Where.ANYWHERE, "where am I"),
    _command(Command.WHERE_AM_I, Where.WRITTEN, "where are we"),
    _command(Command.WHERE_AM_I, Where.TYPED, "where"),
    _command(Command.STOP, Where.ANYWHERE, "stop there"),
    _command(
        Command.STOP,
        Where.WRITTEN,
        say(either("I", "we"), either("want", "would like"), "to stop", maybe("now"), _PLEASE),
        say("can", either("I", "we"), "stop", maybe("now"), _PLEASE),
    ),
    _command(Command.STOP, Where.NO_NUMBER, "stop"),
    _command(Command.STOP, Where.TYPED, "stop now", "stop please", "please stop", "quit", "exit", "bye", "goodbye"),
    _command(Command.READ_ROW, Where.NO_NUMBER, "read this row"),
    _command(Command.READ_ROW, Where.TYPED, "read the row", "read row", "row"),
    _command(Command.READ_COLUMN, Where.NO_NUMBER, "read this column"),
    _command(Command.READ_COLUMN, Where.TYPED, "read the column", "read column", "column"),
    _command(Command.HOW_MANY_MORE, Where.NO_NUMBER, "how many more"),
    _command(Command.HOW_MANY_MORE, Where.TYPED, "how many", "how many are left", "how many left", "how many to go"),
    _command(Command.HUSH, Where.NO_NUMBER, "hush"),
    _command(Command.HUSH, Where.WRITTEN, "be quiet"),
    _command(Command.HUSH, Where.TYPED, "quiet", "shush"),
    _command(Command.LEFT, Where.TYPED, say(maybe(either("go", "move")), "left")),
    _command(Command.RIGHT, Where.TYPED, say(maybe(either("go", "move")), "right")),
    _command(Command.UP, Where.TYPED, say(maybe(either("go", "move")), "up")),
    _command(Command.DOWN, Where.TYPED, say(maybe(either("go", "move")), "down")),
    _command(Command.ROW_START, Where.TYPED, "row start", say("start of", maybe("the"), "row"), "home"),
    _command(Command.ROW_END, Where.TYPED, "row end", say("end of", maybe("the"), "row"), "end"),
    _command(Command.KEYS_ALOUD, Where.TYPED, say(maybe("what are"), maybe("the"), "keys")),
    _command(Command.PATTERNS, Where.ANYWHERE, "look for patterns"),
    _command(Command.PATTERNS, Where.WRITTEN, say("look for", either("a", "the"), "pattern", _PLEASE)),
    _command(Command.PATTERNS, Where.TYPED, say(maybe("a"), "pattern"), "patterns", "find a pattern", "find patterns"),
    _command(Command.NO_MORE_PATTERNS, Where.ANYWHERE, "no more patterns"),
    _command(Command.NO_MORE_PATTERNS, Where.TYPED, "no patterns", "no more"),
    _command(Command.NEEDS_ADULT, Where.TYPED, "I need an adult"),
    _choice(True, Where.YES_NO, "yes", "yeah", "yep"),
    _choice(True, Where.YES_NO_WRITTEN, "y", "yup", say(maybe("yes"), either("that's right", "correct", "I did"))),
    _choice(True, Where.YES_NO_WRITTEN, say(maybe("yes"), either("it was", "it is")), "yes please"),
    _choice(False, Where.YES_NO, "no", "nope"),
    _choice(False, Where.YES_NO_WRITTEN, "n", "nah", say(maybe("no"), either("that's wrong", "I didn't"))),
    _choice(
        False, Where.YES_NO_WRITTEN, say(maybe("no"), either("it wasn't", "it isn't")), "no thank you", "no thanks"
    ),
)

_HEARD = {
    Awaiting.NUMBER: {Where.ANYWHERE},
    Awaiting.STEP: {Where.ANYWHERE},
    Awaiting.CHOICE: {Where.ANYWHERE, Where.YES_NO},
    Awaiting.COMMAND: {Where.ANYWHERE, Where.NO_NUMBER},
}
"""What the closed sets hold."""


def open_for(awaiting: Awaiting, *, typed: bool) -> Iterator[Phrase]:
    """The phrases that mean something in a line of text."""
    opened = {Where.WRITTEN} | _HEARD[awaiting]
    if awaiting is Awaiting.CHOICE:
        opened.add(Where.YES_NO_WRITTEN)
    if typed or awaiting not in NUMBER_KINDS:
        opened.add(Where.NO_NUMBER)
    if typed:
        opened.add(Where.TYPED)
    return (phrase for phrase in PHRASES if phrase.where in opened)


@cache
def spellings(awaiting: Awaiting) -> tuple[Spelling, ...]:
    """The closed set: every way an engine may write each thing that can be heard, and the rivals of numbers."""
    heard = [
        Spelling(text, phrase.meaning)
        for phrase in PHRASES
        if phrase.where in _HEARD[awaiting]
        for text in written(phrase.rule)
    ]
    return tuple(heard) + (numbers() + rivals() if awaiting in NUMBER_KINDS else ())


_CORRECTING = ("no", "I said")
"""What stands between a wrong number and the right one, or before it: "forty-eight, no, forty-seven"."""


@cache
def word_list(awaiting: Awaiting) -> tuple[str, ...]:
    """The same closed set for an engine that joins the entries of a list freely: number words singly, phrases whole.

    Such an engine writes nothing beside its list, so the words of a correction in one breath are in it too.
    """
    phrases = [spelling.text for spelling in spellings(awaiting) if isinstance(spelling.meaning, Given | Choice)]
    if awaiting not in NUMBER_KINDS:
        return tuple(phrases)
    return (*phrases, *NUMBER_WORDS, *ORDINAL_WORDS, *_CORRECTING)
