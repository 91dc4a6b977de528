"""What the person at the window chose: the view, the size, the colours."""

from dataclasses import dataclass, replace
from typing import TypeVar, get_args

from saythesum.keyboard.keys import ColoursShown, LookChange, LookMessage, SizeShown, ViewShown
from saythesum.settings import Colours, View

LAST_STEP = 8
"""At the last step one cell fills the window, and nothing else is shown."""
FIRST_STEP = 5
VIEWS: tuple[View, ...] = get_args(View)
ALL_COLOURS: tuple[Colours, ...] = get_args(Colours)

Named = TypeVar("Named")


@dataclass(frozen=True, slots=True)
class Look:
    view: View = "sum"
    """One cell: one thing at a time on a plain ground, for pupils with a cerebral visual impairment."""
    step: int = FIRST_STEP
    """0 (large print, N24) to LAST_STEP."""
    colours: Colours = "black on white"

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

    def digit_px(self, smallest_px: int, largest_px: int) -> int:
        """The height of the sum's digits at this step: every step is larger by the same factor."""
        if smallest_px < 1:
            return 0
        factor: float = (largest_px / smallest_px) ** (self.step / LAST_STEP)
        return round(smallest_px * factor)


def _next(one: Named, all_of_them: tuple[Named, ...]) -> Named:
    return all_of_them[(all_of_them.index(one) + 1) % len(all_of_them)]
