"""Frozen dataclasses that a start has not to compile.

The library writes the source of seven methods for each frozen class and compiles it, in each start anew: for our 500
classes that was more than half of a start. Here `__init__` alone is compiled and the others are shared. For the type
checker this is the library's own decorator, and the type checker alone sees to it that no field is ever set.
"""

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(
        kind: type | None = None, /, *, frozen: bool = False, slots: bool = False, eq: bool = True, order: bool = False
    ) -> Any:
        """As `dataclasses.dataclass`; what is not frozen, has no slots or has an order is the library's."""
        if order or not (frozen and slots):
            return dataclasses.dataclass(kind, frozen=frozen, slots=slots, eq=eq, order=order)

        def made(kind: type) -> type:
            kind.__doc__ = kind.__doc__ or kind.__name__  # the library would take it from the signature, slowly
            new = dataclasses.dataclass(slots=True, eq=False, repr=False)(kind)
            if "__repr__" not in kind.__dict__:
                new.__repr__ = _shown
            if eq and "__eq__" not in kind.__dict__:
                _compare(new)
            return new

        return made


def _shown(self: Any) -> str:
    fields = (f"{one.name}={getattr(self, one.name)!r}" for one in dataclasses.fields(self) if one.repr)
    return f"{type(self).__qualname__}({', '.join(fields)})"


def _compare(kind: Any) -> None:
    """Gives it equality and, where it has none of its own, a hash."""
    values = _values_of([one.name for one in dataclasses.fields(kind) if one.compare])

    def equal(self: Any, other: Any) -> Any:
        return values(self) == values(other) if self.__class__ is other.__class__ else NotImplemented

    def hashed(self: Any) -> int:
        return hash(values(self))

    kind.__eq__ = equal
    if kind.__dict__.get("__hash__") is None:
        kind.__hash__ = hashed


def _values_of(names: list[str]) -> Callable[[Any], tuple[Any, ...]]:
    """Always a tuple, which `attrgetter` gives for two names and more."""
    if len(names) > 1:
        return attrgetter(*names)
    name = names[0] if names else None
    return (lambda self: (getattr(self, name),)) if name else (lambda self: ())
