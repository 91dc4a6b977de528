"""The values' dataclass does what the library's does, setting a field excepted."""

import dataclasses
import pickle
from dataclasses import asdict, field, fields, replace
from typing import Any

import pytest

from saythesum import values


def kinds(dataclass: Any) -> tuple[type, type, type, type]:
    """The same classes, made by it."""

    @dataclass(frozen=True, slots=True)
    class Oar:
        length: int
        wood: str = "ash"
        seen: list[int] = field(default_factory=list, compare=False, repr=False)

    @dataclass(frozen=True, slots=True)
    class Painted(Oar):
        colour: str = "red"

    @dataclass(frozen=True, slots=True)
    class Bare:
        pass

    @dataclass(frozen=True, slots=True, eq=False)
    class Itself:
        length: float

        def __repr__(self) -> str:
            return "itself"

    return Oar, Painted, Bare, Itself


LIBRARYS, OURS = kinds(dataclasses.dataclass), kinds(values.dataclass)
MADE = [(0, (3,)), (0, (3, "elm")), (0, (3, "ash", [1])), (0, (4,)), (1, (3,)), (1, (3, "ash", [], "blue")), (2, ())]


@pytest.mark.parametrize(("kind", "given"), MADE)
def test_made_alike(kind: int, given: tuple[object, ...]) -> None:
    theirs, ours = LIBRARYS[kind](*given), OURS[kind](*given)
    assert repr(ours) == repr(theirs)
    assert asdict(ours) == asdict(theirs)
    assert hash(ours) == hash(theirs)
    assert OURS[kind].__match_args__ == LIBRARYS[kind].__match_args__  # type: ignore[attr-defined]
    assert [one.name for one in fields(ours)] == [one.name for one in fields(theirs)]
    assert not hasattr(ours, "__dict__")


def test_equal_alike() -> None:
    theirs, ours = ([kinds[kind](*given) for kind, given in MADE] for kinds in (LIBRARYS, OURS))
    assert [[one == other for other in ours] for one in ours] == [[one == other for other in theirs] for one in theirs]
    assert ours[0] != (3, "ash") and ours[-1] == OURS[2]()


def test_what_is_only_itself() -> None:
    one, other = OURS[3](1.5), OURS[3](1.5)
    assert one != other and len({one, other}) == 2
    assert repr(one) == "itself"


def test_replaced_and_pickled() -> None:
    from saythesum.core.exercises.adding import Sum
    from saythesum.core.grids.starters import DEFAULT

    assert replace(OURS[1](3), length=5) == OURS[1](5)
    assert pickle.loads(pickle.dumps((Sum(38, 5), DEFAULT))) == (Sum(38, 5), DEFAULT)  # noqa: S301
