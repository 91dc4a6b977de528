"""What the person at the window chose: the view, the size, the colours."""

from dataclasses import dataclass, replace
from typing import TypeVar, get_args

from saythesum.keyboard.keys import ColoursShown, LookChange, LookMessage, SizeShown, ViewShown
from saythesum.settings import Colours, View

LAST_STEP = 8
"""At the last step there is one cell, as in the view of one cell."""
FIRST_STEP = 5
"""Where nobody has chosen one."""
VIEWS: tuple[View, ...] = get_args(View)
ALL_COLOURS: tuple[Colours, ...] = get_args(Colours)

_TEXT_GROWS = 1.7
_SMALLEST_SUM = 0.45

Named = TypeVar("Named")


@dataclass(frozen=True, slots=True)
class Look:
    view: View = "sum"
    """One cell: the sum alone with its verdict and help, on a plain ground, for pupils with a cerebral visual
    impairment.
    """
    step: int = FIRST_STEP
    """0 (large print, N24) to LAST_STEP."""
    colours: Colours = "black on white"
    has_pad: bool = False
    """A number pad of buttons, where it fits."""

    def changed(self, change: LookChange) -> tuple["Look", LookMessage]:
        """And what it has come to. Sizes end; views and colours begin again."""
        match change:
            case LookChange.BIGGER | LookChange.SMALLER:
                step = self.step + (1 if change is LookChange.BIGGER else -1)
                sized = replace(self, step=min(max(step, 0), LAST_STEP))
                return sized, SizeShown(sized.step)
            case LookChange.NEXT_VIEW:
                viewed = replace(self, view=_next(self.view, VIEWS))
                return viewed, ViewShown(viewed.view)
            case LookChange.NEXT_COLOURS:
                coloured = replace(self, colours=_next(self.colours, ALL_COLOURS))
                return coloured, ColoursShown(coloured.colours)

    def text_px(self, large_px: int) -> int:
        """The height of digits in everything that is read beside the sum; `large_px` is that of large print."""
        return round(_between(large_px, large_px * _TEXT_GROWS, self.step / LAST_STEP))

    def sum_px(self, large_px: int, beside_px: int, alone_px: int) -> int:
        """Of the sum's digits. `beside_px`: where they leave room for all else; `alone_px`: for verdict and help only.

        At the first step the sum has all the room that is left. Smaller steps have smaller print for pupils who see a
        small part of the window only; at larger ones the sum takes the room of what is least important.
        """
        if self.step > FIRST_STEP:
            part = min(1.0, (self.step - FIRST_STEP) / (LAST_STEP - 1 - FIRST_STEP))
            return round(_between(beside_px, max(beside_px, alone_px), part))
        smallest_px = min(beside_px, max(large_px, round(beside_px * _SMALLEST_SUM)))
        return round(_between(smallest_px, beside_px, self.step / FIRST_STEP))


def _between(one: float, other: float, part: float) -> float:
    """Every step is larger by the same factor."""
    factor: float = (other / one) ** part if one else 0.0
    return one * factor


def _next(one: Named, all_of_them: tuple[Named, ...]) -> Named:
    return all_of_them[(all_of_them.index(one) + 1) % len(all_of_them)]
