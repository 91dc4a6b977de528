"""What the person at the window chose: the view, the size, the colours."""

from dataclasses import dataclass, replace
from enum import StrEnum

from saythesum.errors import CallerError
from saythesum.screen.colours import COLOUR_SETS, DEFAULT_COLOURS

LAST_STEP = 8
"""At the last step one cell fills the window, and nothing else is shown."""
FIRST_STEP = 5


class View(StrEnum):
    """In the order in which their key goes through them."""

    SUM = "sum"
    GRID = "grid"
    LINE = "line"
    ONE_CELL = "one-cell"
    """One thing at a time on a plain ground, for pupils with a cerebral visual impairment."""


@dataclass(frozen=True, slots=True)
class Look:
    """`colours` is a name of COLOUR_SETS. Raises CallerError for one that is not."""

    view: View = View.SUM
    step: int = FIRST_STEP
    """0 (large print, N24) to LAST_STEP."""
    colours: str = DEFAULT_COLOURS

    def __post_init__(self) -> None:
        if self.colours not in COLOUR_SETS:
            raise CallerError(f"There are no colours {self.colours!r}; there are {', '.join(COLOUR_SETS)}.")

    def resized(self, *, is_bigger: bool) -> "Look":
        step = self.step + (1 if is_bigger else -1)
        return replace(self, step=min(max(step, 0), LAST_STEP))

    def next_view(self) -> "Look":
        views = list(View)
        return replace(self, view=views[(views.index(self.view) + 1) % len(views)])

    def digit_px(self, smallest_px: int, largest_px: int) -> int:
        """The height of the sum's digits at this step: every step is larger by the same factor."""
        if smallest_px < 1:
            return 0
        factor: float = (largest_px / smallest_px) ** (self.step / LAST_STEP)
        return round(smallest_px * factor)
