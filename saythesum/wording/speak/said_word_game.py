"""What a pupil hears in the word game: a word is said, and they say it after. Nothing is marked."""

from saythesum.wording.numbers import words

ROOM = "First I listen to the room. Quiet, please."
BEGIN = "I say a word, and you say it after me. It's about my ears, not about you."
MAY_I_KEEP = "I'd like to keep how you say your numbers, so I hear you better. Is that all right? Yes or no?"
MAY_I_KEEP_AGAIN = "May I keep how you say your numbers? Say yes or no. Enter is yes, Backspace is no."
NO_MORE = "Shall I stop keeping your words? Yes or no?"
STOP_TODAY = "Shall we stop for today? Yes or no?"
NOT_KEPT = "All right. I won't keep them."
GO_ON = "Then we go on."
LEFT_OUT = "We'll leave that one."
STOPPED = "We'll stop there. Bye for now."
TOO_NOISY = "It's too noisy here. We'll do it another time."
NOBODY = "I can't hear anybody. We'll do it another time."
FINISHED = "That was the last word. Thank you."


def say_word(number: int) -> str:
    return f"Say: {words(number)}."


def say_again(number: int) -> str:
    return f"And again: {words(number)}."


def say_once_more(number: int) -> str:
    """What was heard is unlike what was heard before, whoever said it."""
    return f"That sounded different. Say it once more: {words(number)}."


def say_louder(number: int) -> str:
    return f"I heard nothing. Say: {words(number)}."
