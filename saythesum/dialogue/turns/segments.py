"""Segments of speech joined into one thing heard, and how long to wait whether more is to come.

The waits: 1.3 s after a complete number, 2.5 s after a bare tens word ("fifty … two"), 4 s while the pupil is
probably counting aloud. Ordinary silence limits of 0.5 to 1 s cut off people who pause, stammer or speak slowly
(common practice; all are settings).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from saythesum.core.meanings import LOST, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.dialogue.turns.events import HeardSoFar
from saythesum.settings import Waits

ONE_BREATH_MS = 700
"""A longer silence parts two numbers. Inside the numbers of recorded people it is 224 ms at most; where their tens and
ones were recorded apart, 600."""


@dataclass(frozen=True, slots=True)
class Joined:
    heard: Meaning
    began_ms: int
    end_pause_ms: int | None
    """From the end of the last segment; None: for ever."""


def joined(segments: Sequence[HeardSoFar], begins: frozenset[int], waits: Waits) -> Joined:
    """What the segments mean together. `begins`: the numbers at which a count aloud begins."""
    meant = [segment for segment in _in_one_breath(segments) if not isinstance(segment.heard, Unclear)]
    if not meant:
        lost = [segment for segment in segments if segment.heard == LOST]
        return Joined((lost or segments)[-1].heard, segments[0].began_ms, waits.after_other_ms)
    heard = meant[0].heard
    for segment in meant[1:]:
        heard = _followed_by(heard, segment.heard)
    if any(segment.heard == LOST for segment in segments):
        heard = _unsure(heard)
    if isinstance(heard, Number) and _is_counted_out(meant, begins):
        heard = replace(heard, counting=True)
    return Joined(heard, meant[0].began_ms, _end_pause_ms(heard, meant, begins, waits))


def _unsure(heard: Meaning) -> Meaning:
    """What was lost beside it may have changed it: "forty", and something, is perhaps forty-three."""
    return heard if isinstance(heard, Unclear) else replace(heard, sure=False)


def _in_one_breath(segments: Sequence[HeardSoFar]) -> list[HeardSoFar]:
    """Segments as they were, but for ones that follow close on something that may be their tens word.

    "Fifteen, four" said in one breath is fifty-four. After something that was not understood, four is not sure.
    """
    said = list(segments)
    for place, (before, after) in enumerate(pairwise(segments)):
        is_close = after.began_ms - before.ended_ms <= ONE_BREATH_MS
        if not (is_close and isinstance(after.heard, Number) and 1 <= after.heard.value <= 9):
            continue
        match before.heard:
            case Number(value=value) if 13 <= value <= 19:
                said[place] = replace(before, heard=replace(before.heard, value=(value - 10) * 10, alternatives=()))
            case Unclear(why=WhyUnclear.OTHER):
                said[place + 1] = replace(after, heard=replace(after.heard, sure=False))
    return said


def _followed_by(first: Meaning, then: Meaning) -> Meaning:
    match first, then:
        case Number(), Number() if _goes_on(first, then):
            return _together(first, then)
        case Given(command=Command.NOT_WHAT_I_SAID), Number():
            return replace(then, objecting=True)
        case Number(objecting=True), Number():
            return replace(then, objecting=True)
        case Number(), Given(command=Command.SAID_FIRST):
            return replace(first, said_first=True)
        case Number(), Given(command=Command.NOT_WHAT_I_SAID):
            return then
        case _:
            return then


def _together(tens: Number, ones: Number) -> Number:
    """ "Forty", a pause, "three" is forty-three, as certain as the less certain of the two."""
    certainty = None if tens.certainty is None or ones.certainty is None else min(tens.certainty, ones.certainty)
    return Number(
        tens.value + ones.value,
        certainty=certainty,
        sure=tens.sure and ones.sure,
        objecting=tens.objecting or ones.objecting,
        counting=tens.counting,
        close_to=_sums(tens.close_to, ones.value) + _sums(ones.close_to, tens.value),
        alternatives=_sums(tens.alternatives, ones.value) + _sums(ones.alternatives, tens.value),
    )


def _sums(others: tuple[int, ...], value: int) -> tuple[int, ...]:
    return tuple(other + value for other in others if is_bare_ten(other) != is_bare_ten(value))


def _end_pause_ms(heard: Meaning, meant: Sequence[HeardSoFar], begins: frozenset[int], waits: Waits) -> int | None:
    match heard:
        case Number() if _is_count(meant, begins):
            return waits.counting_ms
        case Number(value=value) if is_bare_ten(value):
            return waits.after_bare_ten_ms
        case Number():
            return waits.after_number_ms
        case Given() | Choice() | Unclear():
            return waits.after_other_ms


def _is_count(meant: Sequence[HeardSoFar], begins: frozenset[int]) -> bool:
    """Whether all of it is a count: where one begins, then each next number, up or down.

    An unsure number in a count is taken for its place: otherwise one mumbled number would end the counting. An
    unsure first one may be a count's beginning where that is among what else it can have been.
    """
    numbers = _numbers(meant)
    if numbers[-1].counting:
        return True
    up, down = (
        {number.value - step * place for place, number in enumerate(numbers) if number.sure} for step in (1, -1)
    )
    if not up:
        return not begins.isdisjoint({numbers[0].value, *numbers[0].alternatives})
    return (len(up) == 1 and (len(numbers) > 1 or up <= begins)) or (len(down) == 1 and down <= begins)


LEAST_COUNTED = 3
"""Two numbers one after the other may be a correction."""


def _is_counted_out(meant: Sequence[HeardSoFar], begins: frozenset[int]) -> bool:
    """Whether a count was heard that is long enough to be sure of it."""
    said = [segment for segment in meant if isinstance(segment.heard, Number)]
    return len(said) == len(meant) and len(_numbers(meant)) >= LEAST_COUNTED and _is_count(meant, begins)


def _numbers(meant: Sequence[HeardSoFar]) -> list[Number]:
    """The numbers said, one after the other; a tens word and its ones may be two segments."""
    numbers: list[Number] = []
    for number in (segment.heard for segment in meant if isinstance(segment.heard, Number)):
        if numbers and _goes_on(numbers[-1], number):
            numbers[-1] = _together(numbers[-1], number)
        else:
            numbers.append(number)
    return numbers


def _goes_on(tens: Number, ones: Number) -> bool:
    return is_bare_ten(tens.value) and 1 <= ones.value <= 9


def is_bare_ten(value: int) -> bool:
    """A number that may go on with ones: twenty to ninety, alone or after hundreds."""
    return value % 10 == 0 and value % 100 >= 20
