"""For the adult: what sums a grid has, and why a wished grid cannot be made."""

from collections.abc import Mapping

from saythesum.core.grids.grid import AboutGrid
from saythesum.core.grids.wishes import CannotBeMade, Demand
from saythesum.wording.for_adults.counted import counted

_WITHOUT: Mapping[Demand, str] = {
    Demand.KINDS: "with sums of any kind",
    Demand.BONDS: "with any bonds",
    Demand.HUNDRED: "whether or not sums cross a hundred",
    Demand.UNEQUAL: "with the same answer more than once",
}


def kinds_said(facts: AboutGrid) -> tuple[str, ...]:
    """A few plain sentences."""
    lines = [
        f"{_sums(facts.cells)}: {facts.crossing} crossing a ten, {facts.landing} landing on a ten, "
        f"{facts.within} not crossing."
    ]
    if facts.past_hundred:
        lines.append(f"{_sums(facts.past_hundred)} past a hundred.")
    if facts.equal_answers:
        lines.append(f"The same answer more than once: {', '.join(map(str, facts.equal_answers))}.")
    if facts.repeated:
        repeated = f"{_sums(facts.repeated)} asked before in the same grid"
        lines.append(f"{repeated}: the same sum again tells nothing new.")
    return tuple(lines)


def why_not(came: CannotBeMade) -> str:
    """In full sentences."""
    wish = came.wish
    if came.too_large:
        return "A grid has 1 to 20 rows and 1 to 20 columns."
    sentences = [f"There is no grid of {wish.rows} rows and {wish.columns} columns as wished."]
    if came.most_rows:
        sentences.append(f"With {wish.columns} columns there can be {came.most_rows} rows at most.")
    if came.most_columns:
        sentences.append(f"With {wish.rows} rows there can be {came.most_columns} columns at most.")
    if came.would_help:
        sentences.append(f"There is one {', or one '.join(_WITHOUT[demand] for demand in came.would_help)}.")
    if not came.fitting_starts:
        sentences.append("None of the starts fits with any of the amounts.")
    return " ".join(sentences)


def _sums(count: int) -> str:
    return counted(count, "sum")
