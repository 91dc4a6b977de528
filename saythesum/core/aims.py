"""What an activity of a practice is for."""

from enum import StrEnum

from saythesum.core.records.rows import Purpose


class Aim(StrEnum):
    PRACTISE = "practise"
    """A grid, with help."""
    PROBE = "probe"
    """Eight sums without help or verdict, to compare one day with another."""
    FIND_OUT = "find-out"
    """Sums, with help, that tell most about what a pupil's mistake could be."""
    FACTS = "facts"
    """A minute of one kind of fact that the sums stand on, with help."""

    TALK = "talk"
    """About a pattern of a grid that was practised before it; no sums."""

    @property
    def has_grid(self) -> bool:
        """The pupil knows the grid, if it is one, and moves about in it; elsewhere one sum comes after the other."""
        return self is Aim.PRACTISE

    @property
    def is_helped(self) -> bool:
        """A wrong answer gets a verdict and help; otherwise any answer leads to the next sum."""
        return self is not Aim.PROBE

    @property
    def purpose(self) -> Purpose:
        """What its answers are kept as."""
        return Purpose.PROBE if self is Aim.PROBE else Purpose.PRACTICE
