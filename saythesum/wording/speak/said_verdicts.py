"""The question for the whole, the verdict, and the help that is the same for every exercise."""

from typing import assert_never

from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.exercises.said_on_line import along_the_line
from saythesum.wording.speak.lengths import by_length, capital


def whole_question(ask: say.AskWhole, length: Length) -> str:
    whole = words_of(ask.asked).question(ask.asked)
    if not ask.is_same_row:
        return whole
    return by_length(length, capital(f"{words_of(ask.asked).in_row(ask.asked)}."), whole, whole)


def verdict(message: say.Verdict, length: Length) -> str:
    match message:
        case say.Right(asked=asked, is_by_steps=is_by_steps):
            return f"Yes. {words_of(asked).right(asked, length, is_by_steps=is_by_steps)}".strip()
        case say.AlongTheLine(asked=asked):
            return along_the_line(asked.on_line)
        case say.NotYet():
            return "Not yet."
        case say.LeftForAnotherDay():
            return "We'll have that one another day."
        case _:
            assert_never(message)


def help_line(message: say.Help, length: Length) -> str:
    match message:
        case say.ThatsFine(has_steps=False):
            return by_length(length, "", "That's fine.", "That's fine.")
        case say.ThatsFine():
            return by_length(length, "", "That's fine.", "That's fine, we'll take it in steps.")
        case say.StepByStep():
            return by_length(length, "", "We'll take it in steps.", "We'll take it in steps.")
        case say.AnotherWay():
            return by_length(length, "Another way.", "Here's another way.", "Let's try another way.")
        case say.LookAgain():
            return by_length(length, "", "", "Let's look again.")
        case say.Worked(asked=asked):
            question = f"Now you: {words_of(asked).whole(asked)}?"
            return f"{words_of(asked).worked(asked, length)} {by_length(length, 'Now you.', question, question)}"
        case _:
            assert_never(message)
