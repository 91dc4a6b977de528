"""Which numbers sound alike enough that one heard is no proof that the other was not said."""

TENS_ALIKE = frozenset({30, 40})
"""Thirty and forty, the pair most often mixed up among the recorded voices."""


def are_confusable(one: int, other: int) -> bool:
    """Thirty and forty with the same ones, a teen and its ten (14, 40), a bare ten and a number that goes on from it.

    These three are the hearing errors that give the same numbers as two common mistakes in adding: the ten
    lost, and stopping at the ten.
    """
    if one == other or one // 100 != other // 100:
        return False
    less, more = sorted((one % 100, other % 100))
    is_tens_alike = {less - less % 10, more - more % 10} == TENS_ALIKE and less % 10 == more % 10
    is_teen = 13 <= less <= 19 and more == (less - 10) * 10
    is_clipped = less >= 20 and less % 10 == 0 and more - less < 10
    return is_tens_alike or is_teen or is_clipped
