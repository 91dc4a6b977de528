import pytest
from num2words import num2words
from text_to_num import text2num

from saythesum.core.meanings import LARGEST_NUMBER, Awaiting, Number
from saythesum.wording.numbers import listed, words
from saythesum.wording.understand.understood import understood

EVERY_NUMBER = range(LARGEST_NUMBER + 1)


def _with_one(text: str) -> str:
    """ "A hundred" as the two libraries below have it."""
    return "one" + text.removeprefix("a") if text.startswith("a ") else text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "zero"),
        (13, "thirteen"),
        (40, "forty"),
        (47, "forty-seven"),
        (100, "a hundred"),
        (104, "a hundred and four"),
        (147, "a hundred and forty-seven"),
        (300, "three hundred"),
        (912, "nine hundred and twelve"),
        (1000, "a thousand"),
        (1009, "a thousand and nine"),
        (1099, "a thousand and ninety-nine"),
    ],
)
def test_words(value: int, text: str) -> None:
    assert words(value) == text


@pytest.mark.parametrize("value", [-1, 1100])
def test_other_numbers_are_refused(value: int) -> None:
    with pytest.raises(ValueError, match="0 to 1099"):
        words(value)


def test_words_are_those_of_num2words() -> None:
    """Source: num2words 0.5.14, language en_GB; it says "one hundred" where people say "a hundred"."""
    for value in EVERY_NUMBER:
        assert _with_one(words(value)) == num2words(value, lang="en_GB")


def test_words_of_num2words_are_understood() -> None:
    for value in EVERY_NUMBER:
        assert understood(num2words(value, lang="en_GB"), Awaiting.NUMBER) == Number(value)


def test_text2num_reads_our_words_back() -> None:
    """Source: text2num 3.1."""
    for value in EVERY_NUMBER:
        assert text2num(_with_one(words(value)), "en") == value


def test_text2num_does_not_know_a_hundred() -> None:
    """Why the test before says "one hundred". When this fails, it need not any more."""
    for value in (100, 104, 1009):
        with pytest.raises(ValueError, match="invalid literal"):
            text2num(words(value), "en")


def test_numbers_side_by_side_are_kept_apart() -> None:
    assert listed((41, 43, 46)) == "forty-one, forty-three, forty-six"
    assert listed((40, 3)) == "forty, three"
    assert listed(()) == ""


def test_words_are_understood() -> None:
    for value in EVERY_NUMBER:
        assert understood(words(value), Awaiting.NUMBER) == Number(value)
