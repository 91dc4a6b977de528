"""Hearing, pausing, stopping: the sentences that are about the talk itself."""

from collections.abc import Mapping
from typing import assert_never

from saythesum.core.meanings import Command
from saythesum.dialogue import messages as say
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.lengths import begun
from saythesum.wording.speak.said_keys import keys_said


def hearing(message: say.Hearing) -> str:
    match message:
        case say.SaidBack(value=value):
            return f"{begun(value)}."
        case say.CommandSaidBack(command=command):
            return _SAID_BACK.get(command, f"{command.value.replace('-', ' ').capitalize()}.")
        case say.WasIt(value=value):
            return f"Was that {words(value)}? Yes or no."
        case say.WhichSum(asked=asked):
            return f"Take back {words_of(asked).whole(asked)}? Yes or no."
        case say.NotUnderstood(is_by_keys=True):
            return "A number up to a thousand."
        case _:
            return _ALWAYS[type(message)]


_ALWAYS: Mapping[type[say.Hearing], str] = {
    say.OnceMore: "Say it once more, please.",
    say.TryKeys: "Try the keys for this one.",
    say.OneNumber: "One number, please.",
    say.NotUnderstood: "A number, please, or help me.",
    say.Misheard: "Sorry, I misheard.",
    say.SayItAgain: "Sorry, I misheard. Say it again, please.",
    say.TakenBack: "Taken back.",
    say.NothingToTakeBack: "There is nothing to take back.",
    say.TakeYourTime: "Take your time.",
}
_SAID_BACK = {Command.DONT_KNOW: "Don't know.", Command.NOT_WHAT_I_SAID: "Not that."}
"""Where the command's own name is not what a person would say."""


def pausing(message: say.Pausing) -> str:
    match message:
        case say.Waiting() | say.RestOffered() | say.AdultMayHelp():
            return _waiting(message)
        case say.TwoJumpsOffered(is_again=False):
            return "That works. There's a way with two jumps: want it? Yes or no."
        case say.TwoJumpsOffered():
            return "A way with two jumps: want it? Yes or no."
        case say.TwoJumps(asked=asked):
            return words_of(asked).worked(asked, "short")
        case say.KeysAloud(more=more):
            return keys_said(more)
        case say.AllDone():
            return _all_done(message) if message.goes_on else f"{_all_done(message)} Bye for now."
        case say.StopLine() | say.EnoughNow():
            return f"{_stop(message)} Bye for now."
        case say.NextTime():
            return "We'll go on from here next time."
        case _:
            assert_never(message)


def _waiting(message: say.Waiting | say.RestOffered | say.AdultMayHelp) -> str:
    match message:
        case say.AdultMayHelp():
            return "I'll wait. A grown-up can help."
        case say.RestOffered(by_switch=True):
            return "Time for a rest. When you're ready, press your switch."
        case say.RestOffered():
            return "Time for a rest. When you're ready, say go on, or press Enter."
        case say.Waiting(by_switch=True):
            return "I'll wait. Press your switch when you're ready."
        case say.Waiting(is_again=True):
            return "Say go on, or press Enter."
        case _:
            return "I'll wait. Say go on, or press Enter."


def _all_done(end: say.AllDone) -> str:
    left = "that one" if end.left == 1 else "those"
    match end.cells, end.left:
        case 1, 0:
            return "That one's done."
        case 2, 0:
            return "That's both done."
        case cells, 0:
            return f"That's all {words(cells)} done."
        case 0, _:
            return f"We'll have {left} another day."
        case cells, left_over:
            return f"{begun(cells)} done, {words(left_over)} left for another day."


def _stop(line: say.StopLine | say.EnoughNow) -> str:
    """Nothing more is asked, and nothing of a sum just missed is told: it comes back."""
    if isinstance(line, say.EnoughNow):
        return f"{begun(line.done)} done. That's it for today."
    if line.is_missed:
        return "We'll stop there. We'll come back to that one."
    return f"We'll stop there. {begun(line.done)} done." if line.done else "We'll stop there."
