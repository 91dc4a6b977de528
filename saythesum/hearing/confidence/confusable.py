"""Which numbers sound alike enough that one heard is no proof that the other was not said."""

from itertools import zip_longest

from saythesum.hearing.confidence.calibration import calibration
from saythesum.wording.numbers import TENS, UNDER_TWENTY, words

ALWAYS = frozenset(
    {frozenset({"thirty", "forty"})} | {frozenset({UNDER_TWENTY[ones + 10], TENS[ones * 10]}) for ones in range(3, 10)}
)
"""Mixed up or not in what was measured: thirty and forty, a teen and its ten. Hearing one for the other gives the same
number as a common mistake in adding, the ten lost."""


def are_confusable(one: int, other: int) -> bool:
    """One word of theirs is another that the engine mixes up with it, or a bare ten goes on with ones (40, 43).

    The last gives the same number as stopping at the ten.
    """
    less, more = sorted((one, other))
    is_clipped = less % 10 == 0 and less % 100 >= 20 and less < more < less + 10
    apart = words_apart(one, other)
    return is_clipped or apart in ALWAYS or apart in calibration().mixed_up


def words_apart(one: int, other: int) -> frozenset[str]:
    """The two words in which they differ, where all others are the same; else none."""
    pairs = list(zip_longest(words_of(one), words_of(other), fillvalue=""))
    apart = [frozenset(pair) for pair in pairs if pair[0] != pair[1]]
    return apart[0] if len(apart) == 1 and "" not in apart[0] else frozenset()


def words_of(value: int) -> list[str]:
    return words(value).replace("-", " ").split()
