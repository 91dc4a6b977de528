"""What a setting may be: kept beside the setting itself, in its field's metadata, so there is one source."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Protocol, get_args

from saythesum.errors import CallerError

FOR_EVER = "for ever"
"""How a wait without an end is written; inside it is None."""


class Limits(Protocol):
    def taken(self, value: object) -> object:
        """The setting's own value for one that was written.

        Raises CallerError whose text is what would be right, without a full stop.
        """


@dataclass(frozen=True, slots=True)
class Whole:
    lowest: int
    highest: int
    for_ever: bool

    def taken(self, value: object) -> int | None:
        if self.for_ever and value in (FOR_EVER, None):
            return None
        if type(value) is int and self.lowest <= value <= self.highest:  # not isinstance: True is no number
            return value
        ending = f', or "{FOR_EVER}"' if self.for_ever else ""
        raise CallerError(f"a whole number from {self.lowest} to {self.highest}{ending}")


@dataclass(frozen=True, slots=True)
class Decimal:
    lowest: float
    highest: float
    steps: int
    """In 1."""

    def taken(self, value: object) -> float:
        if isinstance(value, int | float) and not isinstance(value, bool) and self.lowest <= value <= self.highest:
            step = round(value * self.steps)
            if abs(value * self.steps - step) < 1e-6:
                return step / self.steps
        raise CallerError(f"a number from {self.lowest:g} to {self.highest:g} in steps of {1 / self.steps:g}")


@dataclass(frozen=True, slots=True)
class OneOf:
    words: tuple[str, ...]
    optional: bool

    def taken(self, value: object) -> str | None:
        if value is None and self.optional:
            return None
        if isinstance(value, str) and value in self.words:
            return value
        raise CallerError(" or ".join(f'"{word}"' for word in self.words))


@dataclass(frozen=True, slots=True)
class YesOrNo:
    optional: bool

    def taken(self, value: object) -> bool | None:
        if isinstance(value, bool) or (value is None and self.optional):
            return value
        raise CallerError("true or false")


@dataclass(frozen=True, slots=True)
class Words:
    longest: int
    optional: bool

    def taken(self, value: object) -> str | None:
        if value is None and self.optional:
            return None
        if isinstance(value, str) and value.isprintable() and 0 < len(value.strip()) <= self.longest:
            return value.strip()
        raise CallerError(f"words in quotes, at most {self.longest} characters")


@dataclass(frozen=True, slots=True)
class Shares:
    """From one share to another, in per cent."""

    def taken(self, value: object) -> tuple[int, int] | None:
        if value is None:
            return None
        match value:
            case [int(lowest), int(highest)] if 0 <= lowest <= highest <= 100 and bool not in map(type, value):
                return lowest, highest
            case _:
                raise CallerError("two whole numbers from 0 to 100, the lower one first, such as [70, 85]")


@dataclass(frozen=True, slots=True)
class Day:
    """Kept as text, YYYY-MM-DD (ISO 8601), as JSON has no days."""

    def taken(self, value: object) -> str | None:
        if value is None:
            return None
        if isinstance(value, date) and not isinstance(value, datetime):
            return value.isoformat()
        try:
            return date.fromisoformat(str(value)).isoformat()
        except ValueError:
            raise CallerError('a day such as "2031-05-12"') from None


@dataclass(frozen=True, slots=True)
class Initials:
    """Of an adult: a name has no place here."""

    most_letters: int = 4

    def taken(self, value: object) -> str | None:
        if value is None:
            return None
        letters = str(value).replace(".", "").replace(" ", "").replace("-", "")
        if isinstance(value, str) and letters.isalpha() and len(letters) <= self.most_letters:
            return value.strip()
        raise CallerError(f'initials of at most {self.most_letters} letters, such as "AB"')


def whole(lowest: int, highest: int) -> Mapping[str, Limits]:
    return {"limits": Whole(lowest, highest, for_ever=False)}


def decimal(lowest: float, highest: float, *, steps: int) -> Mapping[str, Limits]:
    """With that many steps in 1: 20 are steps of 0.05."""
    return {"limits": Decimal(lowest, highest, steps)}


def wait(lowest_ms: int, highest_ms: int) -> Mapping[str, Limits]:
    """A wait has an end, or none at all."""
    return {"limits": Whole(lowest_ms, highest_ms, for_ever=True)}


def one_of(literal: Any, *, optional: bool = False) -> Mapping[str, Limits]:
    """`literal` is the field's own `Literal[...]`; `optional` lets the setting be left open (None)."""
    return {"limits": OneOf(get_args(literal), optional)}


def shares() -> Mapping[str, Limits]:
    """Two of them, or left open (None)."""
    return {"limits": Shares()}


def day() -> Mapping[str, Limits]:
    """Or left open (None)."""
    return {"limits": Day()}


def initials() -> Mapping[str, Limits]:
    """Or left open (None)."""
    return {"limits": Initials()}


def words(longest: int, *, optional: bool = False) -> Mapping[str, Limits]:
    return {"limits": Words(longest, optional)}


def yes_or_no(*, optional: bool = False) -> Mapping[str, Limits]:
    return {"limits": YesOrNo(optional)}
