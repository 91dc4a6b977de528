"""What is said of a grid that was wished for."""

from saythesum.core.grids.wishes import CannotBeMade, Demand

_WITHOUT = {
    Demand.KINDS: "with sums of any kind",
    Demand.BONDS: "with any bonds",
    Demand.HUNDRED: "whether or not sums cross a hundred",
    Demand.UNEQUAL: "with the same answer more than once",
}


def why_not(came: CannotBeMade) -> str:
    """For the adult, in full sentences."""
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
