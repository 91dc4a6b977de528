import pytest

from saythesum.hearing.confusable import are_confusable


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
        (61, 64),
        (5, 9),
        (60, 70),
        (100, 104),
        (13, 33),
        (4, 14),
    ],
)
def test_numbers_that_do_not(one: int, other: int) -> None:
    assert not are_confusable(one, other)
    assert not are_confusable(other, one)
