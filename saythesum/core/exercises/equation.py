"""An exercise as it is written down: a start, a sign, an amount, and what they come to."""

from dataclasses import dataclass, replace

from saythesum.core.sums import Hidden


@dataclass(frozen=True, slots=True)
class Equation:
    """None stands for a blank to be filled in."""

    start: int | None
    sign: str
    """As it is shown: "+" or "−"."""
    amount: int | None
    total: int | None

    def hiding(self, hidden: Hidden) -> "Equation":
        """With a blank in place of what is asked for."""
        match hidden:
            case Hidden.TOTAL:
                return replace(self, total=None)
            case Hidden.AMOUNT:
                return replace(self, amount=None)
            case Hidden.START:
                return replace(self, start=None)

    @property
    def with_blanks(self) -> "Equation":
        """A step to be filled in: the pupil writes how far the jump goes, and where it lands."""
        return replace(self, amount=None, total=None)
