"""One line a figure: what it is, median and worst, and beside them what is aimed at. Nothing is asserted."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

TIMES = 20


@dataclass(frozen=True, slots=True)
class Figure:
    what: str
    values: Sequence[float]
    unit: str
    aim: float | None = None
    more_is_better: bool = False

    def __str__(self) -> str:
        worst = min(self.values) if self.more_is_better else max(self.values)
        aim = "" if self.aim is None else f"   aim {self.aim:g} {self.unit}"
        return (
            f"{self.what:<58} median {median(self.values):9.3f}  worst {worst:9.3f} {self.unit}"
            f"  of {len(self.values)}{aim}"
        ).rstrip()


def show(figure: Figure) -> None:
    print(figure, flush=True)
