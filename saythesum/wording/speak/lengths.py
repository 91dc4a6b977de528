"""Small joins that all sentences use."""

from saythesum.settings import Length
from saythesum.wording.numbers import words


def by_length(length: Length, brief: str, short: str, full: str) -> str:
    match length:
        case "brief":
            return brief
        case "short":
            return short
        case "full":
            return full


def capital(text: str) -> str:
    """The first letter as a capital: sentences begin with number words more often than not."""
    return text[:1].upper() + text[1:]


def begun(value: int) -> str:
    """A number word at the start of a sentence."""
    return capital(words(value))


def joined(ten: int, more: int) -> str:
    """A ten and what comes after it, as a pupil can add them: "forty and three".

    After a hundred, "a hundred and three" would be the answer itself.
    """
    link = ", then {} more" if ten % 100 == 0 and ten else " and {}"
    return words(ten) + link.format(words(more))
