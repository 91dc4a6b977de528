"""What a layout is made of: boxes in pixels with words, frames, bars and jumps in them. Nothing is drawn here."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Protocol, TypeAlias, TypeVar

from saythesum.scene.number_pad import Pressable

_SMALLER = 0.9


@dataclass(frozen=True, slots=True)
class Box:
    """In pixels, from the window's top left corner."""

    x: int
    y: int
    width: int
    height: int

    @property
    def right(self) -> int:
        return self.x + self.width

    @property
    def bottom(self) -> int:
        return self.y + self.height

    def holds(self, x: int, y: int) -> bool:
        return self.x <= x < self.right and self.y <= y < self.bottom

    def inside(self, by_px: int) -> "Box":
        return Box(self.x + by_px, self.y + by_px, self.width - 2 * by_px, self.height - 2 * by_px)


@dataclass(frozen=True, slots=True)
class Words:
    """One line. Its box fits it exactly: digits alone from top to foot, others with room above and below."""

    box: Box
    text: str
    digit_px: int
    """How high a digit is in this size."""
    is_bold: bool = False
    is_turned: bool = False
    """Ground on ink, on a block of ink."""
    is_tight: bool = False
    """Digits and signs alone."""


@dataclass(frozen=True, slots=True)
class Frame:
    """Drawn inwards from the edge of its box."""

    box: Box
    thick_px: int
    is_mark: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A filled box."""

    box: Box
    is_mark: bool = False


@dataclass(frozen=True, slots=True)
class Arch:
    """A jump: the upper half of an ellipse that fills its box."""

    box: Box
    thick_px: int


Shape: TypeAlias = Words | Frame | Bar | Arch


@dataclass(frozen=True, slots=True)
class Button:
    """Where mouse or finger presses it."""

    presses: Pressable
    box: Box


class Ruler(Protocol):
    """How large words come out."""

    def width_px(self, text: str, digit_px: int, *, is_bold: bool = False) -> int: ...

    def line_px(self, digit_px: int) -> int:
        """From the highest accent to the lowest tail."""


def words(ruler: Ruler, text: str, digit_px: int, *, at: tuple[int, int], is_bold: bool = False) -> Words:
    """A line of words with its top left corner at `at`."""
    width = ruler.width_px(text, digit_px, is_bold=is_bold)
    return Words(Box(*at, width, ruler.line_px(digit_px)), text, digit_px, is_bold)


def digits(ruler: Ruler, text: str, digit_px: int, *, at: tuple[int, int], is_bold: bool = False) -> Words:
    """Digits and signs alone: the box is as high as a digit."""
    width = ruler.width_px(text, digit_px, is_bold=is_bold)
    return Words(Box(*at, width, digit_px), text, digit_px, is_bold, is_tight=True)


Moved = TypeVar("Moved", bound=Shape)


def moved(shape: Moved, right_px: int, down_px: int) -> Moved:
    box = replace(shape.box, x=shape.box.x + right_px, y=shape.box.y + down_px)
    return replace(shape, box=box)


def sizes_down(largest_px: int, smallest_px: int) -> Iterator[int]:
    """From one to the other, each a tenth smaller: so many that little room is lost, so few that it takes no time."""
    size = largest_px
    while size > smallest_px:
        yield size
        size = min(size - 1, int(size * _SMALLER))
    yield min(largest_px, smallest_px)
