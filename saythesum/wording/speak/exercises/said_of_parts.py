"""In adding: true things about a wrong answer to one guided part: the number is said back, and where it would lead."""

from typing import assert_never

from saythesum.core.exercises import bridge_remarks as remarks
from saythesum.core.exercises.comparison import FAR_STEPS, FURTHEST_STEPS
from saythesum.core.sums import Kind
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import begun, by_length, capital


def of_part(message: remarks.OfPart, length: Length) -> str:
    match message:
        case remarks.NotATen(value=value):
            return f"{begun(value)} is not a ten."
        case remarks.TenNotAfter(value=value, start=start):
            return f"{begun(value)} comes before {words(start)}."
        case remarks.TenTooFar(value=value, start=start):
            too_far = f"{begun(value)} is more than ten past {words(start)}."
            return by_length(length, f"{begun(value)} is too far.", too_far, too_far)
        case remarks.GapReaches() | remarks.GapIsAll() | remarks.EndsIn() | remarks.MoreThanTen():
            return _of_gap(message, length)
        case remarks.RestMakes() | remarks.GapIsUsed() | remarks.MoreThanAll():
            return _of_rest(message, length)
        case remarks.OnesMake(asked=asked, value=value):
            makes = f"{begun(asked.ones)} and {words(value - asked.ones)} is {words(value)}."
            return f"{makes} We're adding {words(asked.amount)}."
        case remarks.OnesLess(value=value, ones=ones):
            return f"{begun(value)} is less than {words(ones)}. Adding goes up."
        case remarks.OnesFar(value=value, ones=ones):
            return f"{begun(value)} is far past {words(ones)}."
        case remarks.TensMake() | remarks.TensTooMany():
            return _of_tens(message)
        case remarks.OnePart() | remarks.PartsMake() | remarks.GapLands():
            return _of_total(message, length)
        case _:
            assert_never(message)


def _of_tens(message: remarks.TensMake | remarks.TensTooMany) -> str:
    tens = begun(message.tens)
    match message:
        case remarks.TensTooMany():
            return f"{tens} tens is too many."
        case remarks.TensMake(tens=1):
            return "One ten is ten."
        case remarks.TensMake():
            return f"{tens} tens is {words(10 * message.tens)}."


def _of_gap(
    message: remarks.GapReaches | remarks.GapIsAll | remarks.EndsIn | remarks.MoreThanTen, length: Length
) -> str:
    match message:
        case remarks.GapReaches():
            return _gap_reaches(message, length)
        case remarks.GapIsAll(asked=asked):
            past = f"goes past {words(asked.next_ten)}."
            all_of_it = f"{begun(asked.amount)} is all of it. That {past}"
            return by_length(length, f"{begun(asked.amount)} {past}", all_of_it, all_of_it)
        case remarks.EndsIn(start=start):
            ends = f"{begun(start)} ends in {words(start % 10)}."
            return by_length(length, "", ends, ends)
        case remarks.MoreThanTen(value=value):
            return f"{begun(value)} is more than ten."
        case _:
            assert_never(message)


def _gap_reaches(message: remarks.GapReaches, length: Length) -> str:
    asked = message.asked
    reached = asked.start + message.value
    reaches = f"{begun(asked.start)} and {words(message.value)} is {words(reached)}."
    ten = "the next ten" if asked.kind is Kind.LANDING else words(asked.next_ten)
    side = "past" if reached > asked.next_ten else "before"
    with_side = f"{reaches} That's {side} {ten}."
    return by_length(length, f"That makes {words(reached)}.", with_side, with_side)


def _of_rest(message: remarks.RestMakes | remarks.GapIsUsed | remarks.MoreThanAll, length: Length) -> str:
    match message:
        case remarks.RestMakes(asked=asked, value=value):
            makes = f"{begun(asked.gap)} and {words(value)} is {words(asked.gap + value)}."
            return f"{makes} We're adding {words(asked.amount)}."
        case remarks.GapIsUsed(asked=asked, value=value):
            are = "is" if asked.gap == 1 else "are"
            too_many = f"{begun(value)} is too many."
            used = f"{too_many} {begun(asked.gap)} of the {words(asked.amount)} {are} used."
            return by_length(length, too_many, used, used)
        case remarks.MoreThanAll(value=value, amount=amount):
            return f"{begun(value)} is more than {words(amount)}."
        case _:
            assert_never(message)


def _of_total(message: remarks.OnePart | remarks.PartsMake | remarks.GapLands, length: Length) -> str:
    match message:
        case remarks.OnePart(value=value, other=other):
            parts = f"{begun(value)} is part of it. {begun(other)} is the other part."
            return by_length(length, "That's part of it.", parts, parts)
        case remarks.PartsMake():
            return _parts_make(message, length)
        case remarks.GapLands(asked=asked):
            lands = f"{begun(asked.gap)} reaches the next ten."
            return by_length(length, "", lands, lands)
        case _:
            assert_never(message)


def _parts_make(message: remarks.PartsMake, length: Length) -> str:
    """After a hundred, "a hundred and three is a hundred and three" would be no news."""
    ten, past = words(message.ten), message.value - message.ten
    if past < 0:
        side = f"less than {ten}"
    elif past <= FURTHEST_STEPS:
        side = f"{words(past)} past {ten}"
    else:
        side = f"{'far' if past >= FAR_STEPS else 'too far'} past {ten}"
    stands = f"{begun(message.value)} is {side}."
    if not 0 < past <= FURTHEST_STEPS:
        return by_length(length, f"{capital(side)}.", stands, stands)
    makes = stands if message.ten % 100 == 0 else f"{begun(message.ten)} and {words(past)} is {words(message.value)}."
    asked = f"{makes} We're adding {words(message.more)}."
    return by_length(length, f"{capital(side)}.", asked, asked)
