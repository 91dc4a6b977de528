import pytest

from saythesum.hearing.confidence.calibration import calibration
from saythesum.hearing.confidence.confusable import are_confusable
from saythesum.wording.numbers import words

NUMBERS = {words(value): value for value in range(100)}


@pytest.mark.parametrize(
    ("one", "other"),
    [(33, 43), (30, 40), (133, 143), (13, 30), (19, 90), (114, 140), (60, 64), (80, 89), (120, 127)],
)
def test_numbers_that_sound_alike(one: int, other: int) -> None:
    assert are_confusable(one, other)
    assert are_confusable(other, one)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (46, 46),
        (33, 44),
        (34, 43),
        (13, 40),
        (12, 20),
        (10, 14),
        (43, 143),
        (61, 57),
        (5, 29),
        (60, 70),
        (100, 104),
        (13, 33),
        (4, 14),
    ],
)
def test_numbers_that_do_not(one: int, other: int) -> None:
    assert not are_confusable(one, other)
    assert not are_confusable(other, one)


@pytest.mark.parametrize("pair", sorted(map(sorted, calibration().mixed_up)))
def test_words_that_the_engine_mixes_up(pair: list[str]) -> None:
    one, other = (NUMBERS[word] for word in pair)
    assert are_confusable(one, other)
    if one < 10 and other < 10 and one * other:
        assert are_confusable(40 + one, 40 + other)
        assert not are_confusable(40 + one, 50 + other)
